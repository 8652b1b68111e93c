/** A screen or a painted shield that is the only way of the signal back to the jack. */
import { partOfLug, type Joint, type LugId } from '../../circuit/model.js';
import { endsOf, foldJoints, lugLabel, lugLabels, abridged, type Facts } from '../facts/index.js';
import { isPad, joinedTo } from '../facts/wiring/leads.js';
import { defineRule, type Report } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly kind: 'cavity' | 'screen';
  readonly subjects: { readonly sleeve: string; readonly lost: readonly string[] };
}

export const screenReturn = defineRule<Claim>({
  id: 'screen-return',
  severity: 'error',
  summary: "a screen or a cavity's shield that is the signal's only return",
  describe: ({ kind, subjects: { sleeve, lost } }) =>
    `${kind === 'cavity' ? 'The shield of a cavity' : 'A screen'} is the only return to ${sleeve} for ${abridged(lost)}`,
  check(facts): readonly Report<Claim>[] {
    const { circuit, unread } = facts;
    const { output } = circuit;
    if (output === undefined || facts.outputFault() !== undefined || unread.any) return [];
    const screens = screensOf(facts);
    if (screens.length === 0) return [];
    const cutScreens = new Set(screens);
    const classes = foldJoints(
      circuit,
      circuit.joints.filter((joint) => !cutScreens.has(joint)),
    );
    const cut = new Set(
      circuit.elements.flatMap(endsOf).filter((lug) => facts.joined.classOf(lug) === facts.joined.classOf(output.sleeve)),
    );
    const lost = [...cut].filter((lug) => classes[lug] !== classes[output.sleeve]);
    if (lost.length === 0) return [];
    const returns = screens.filter((joint) => facts.joined.classOf(joint.a) === facts.joined.classOf(output.sleeve));
    const [first, ...others] = returns;
    if (first === undefined) return [];
    const isBraid = !returns.every((joint) => joint.kind === 'touch');
    return [
      {
        ...(isBraid ? { severity: 'info' } : {}),
        claim: {
          kind: isBraid ? 'screen' : 'cavity',
          subjects: { sleeve: lugLabel(circuit, output.sleeve), lost: lugLabels(circuit, lost) },
        },
        why: isBraid
          ? 'This is usual with braided wire. If the braid breaks or comes loose, everything goes silent; a ground wire beside it prevents that.'
          : 'Conductive paint is no return: its resistance is too high, and where only a bushing touches it, everything goes silent when a nut comes loose. Run a ground wire beside it.',
        range: first.range,
        related: others.map((joint) => ({ message: 'and here', range: joint.range })),
        subjects: [...lugLabels(circuit, lost), ...returns.flatMap((joint) => lugLabels(circuit, [joint.a, joint.b]))],
      },
    ];
  },
});

/** The braid of a pickup's lead is made to be its return, and is none of these: on its own lead, or on a wire from one of its lugs whose screen is on another. */
function screensOf({ circuit, joined }: Facts): readonly Joint[] {
  /** The lug, and those that it leads on to where it is one of an assembly. */
  const lugsBehind = (lug: LugId): readonly LugId[] =>
    isPad(circuit, joined, lug) ? [lug, ...joinedTo(circuit, joined, lug)] : [lug];
  const pickupsOn = (kind: Joint['kind']): ReadonlySet<string> =>
    new Set(
      circuit.joints
        .filter((joint) => joint.kind === kind)
        .flatMap(({ statement, a, b }) =>
          [a, b].flatMap(lugsBehind).flatMap((lug) => {
            const { id, family } = partOfLug(circuit, lug);
            return family === 'pickup' ? [`${statement} ${id}`] : [];
          }),
        ),
    );
  const [cores, braids] = [pickupsOn('wire'), pickupsOn('screen')];
  const statements = [...cores].filter((key) => braids.has(key)).map((key) => Number(key.split(' ')[0]));
  const ownLeads = new Set([...circuit.joints.filter(({ ownLead }) => ownLead).map(({ statement }) => statement), ...statements]);
  const isInCavity = (lug: LugId): boolean => partOfLug(circuit, lug).family === 'cavity';
  return circuit.joints.filter(({ kind, statement, a, b }) =>
    kind === 'screen' ? !ownLeads.has(statement) : kind === 'touch' && (isInCavity(a) || isInCavity(b)),
  );
}
