/** A throw that is soldered to its own common, and so is always on. */
import { isMated, lugById, partById, type Joint, type LugId } from '../../circuit/model.js';
import { removeStatement } from '../edits.js';
import { lugLabel, placeOfLug, type Facts, type Pole } from '../facts/index.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly throw: string; readonly common: string };
}

export const bypassedThrow = defineRule<Claim>({
  id: 'bypassed-throw',
  severity: 'warning',
  summary: 'a throw that is soldered to its own common, so it is on in every position',
  describe: ({ subjects }) =>
    `${subjects.throw} is joined to its own common ${subjects.common}: whatever is on it is on in every position`,
  check(facts) {
    const { circuit, joined } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken()) return [];
    return facts.poles().flatMap((pole) =>
      bypassedIn(facts, pole).map(({ lug, common }) => {
        const wire = joined.at(common).find((joint) => isBetween(joint, common, lug));
        const edits = wire && removeStatement(circuit, wire);
        return {
          claim: { subjects: { throw: lugLabel(circuit, lug), common: lugLabel(circuit, common) } },
          why: 'A contact that is bridged by a wire can’t open. Usually the wire belongs on a neighbouring lug.',
          range: wire?.range ?? placeOfLug(circuit, lug),
          fixes: edits ? [{ title: 'take out this wire', edits }] : [],
          subjects: [lugLabel(circuit, lug), lugLabel(circuit, common), ...(joined.at(lug).length > 0 ? [pole.device.name] : [])],
        };
      }),
    );
  },
});

/** A pole that lies on one net as a whole is a tie point, and on ground a throw beside the common does no harm. */
function bypassedIn({ circuit, joined }: Facts, pole: Pole): readonly { readonly lug: LugId; readonly common: LugId }[] {
  const { common } = pole;
  if (common === undefined || partById(circuit, pole.device.part).family === 'jack' || isMated(circuit, pole.device)) return [];
  const classId = joined.classOf(common);
  const used = pole.throws.filter((lug) => joined.isWired(lug));
  const bypassed = used.filter((lug) => joined.classOf(lug) === classId);
  const ground = joined.members(classId).some((lug) => lugById(circuit, lug).metal);
  return ground || bypassed.length === used.length ? [] : bypassed.map((lug) => ({ lug, common }));
}

function isBetween(joint: Joint, a: LugId, b: LugId): boolean {
  return (joint.a === a && joint.b === b) || (joint.a === b && joint.b === a);
}
