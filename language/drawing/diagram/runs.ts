/** The runs of a diagram: what a joint of the circuit looks like when it is drawn. */
import { amount } from '../../circuit/index.js';
import { jointClasses } from '../../electrics/index.js';
import {
  lugById,
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type Joint,
  type Lug,
  type Part,
} from '../../circuit/model.js';
import type { Steps } from '../../steps.js';
import type { DiagramRun } from './diagram.js';
import { compareText } from './order.js';
import { networkOf } from './network.js';
import { leadedKinds, partKind } from './part-kind.js';
import { lettersOf } from '../palette.js';

/** Every joint that is drawn as a line, in steps of one joint each. Metal that only touches is shown by the outlines around it, a joint inside a part by the part. */
export function* createRuns(circuit: AnalysedCircuit): Steps<DiagramRun[]> {
  const classes = jointClasses(circuit);
  const groundClass = circuit.output === undefined ? -1 : (classes.of[circuit.output.sleeve] ?? -1);
  const taken = new Map<string, number>();
  const unique = (id: string): string => {
    const count = (taken.get(id) ?? 0) + 1;
    taken.set(id, count);
    return count === 1 ? id : `${id}#${count}`;
  };

  const screened = new Map<number, string>();
  const runs: DiagramRun[] = [];
  for (const joint of circuit.joints) {
    const kind = runKind(circuit, joint);
    if (kind === undefined || kind === 'screen') continue;
    const [a, b] = ends(circuit, joint);
    const id = unique(`${kind}:${a.label}~${b.label}`);
    if (joint.screen !== undefined && !screened.has(joint.screen)) screened.set(joint.screen, id);
    runs.push({
      id,
      ...(joint.mark === undefined ? {} : { number: joint.mark }),
      joints: [joint.id],
      kind,
      from: `lug:${a.label}`,
      to: `lug:${b.label}`,
      ...looks(circuit, joint, kind, a, b),
      ground: classes.of[joint.a] === groundClass,
    });
    yield;
  }
  for (const joint of circuit.joints) {
    if (joint.kind !== 'screen') continue;
    const from = screened.get(joint.a) ?? screened.get(joint.b);
    const tie = lugById(circuit, screened.has(joint.a) ? joint.b : joint.a);
    if (from === undefined) continue;
    runs.push({
      ...plain,
      joints: [joint.id],
      id: unique(`screen:${from.slice(from.indexOf(':') + 1)}~${tie.label}`),
      kind: 'screen',
      from,
      to: `lug:${tie.label}`,
      bare: true,
      ground: classes.of[joint.a] === groundClass,
      says: `screen of the ${from.replace(':', ' ').replace('~', ' to ')}, connected to ${tie.label}`,
    });
  }
  return runs;
}

const plain = { colours: [], letters: '', bare: false, twisted: false, shielded: false, ownLead: false } as const;

function runKind(circuit: AnalysedCircuit, joint: Joint): DiagramRun['kind'] | undefined {
  if (joint.kind === 'touch' || joint.a === joint.b) return undefined;
  if (joint.kind === 'screen') return 'screen';
  const [a, b] = [joint.a, joint.b].map((lug) => partOfLug(circuit, lug)) as [Part, Part];
  if (a.family === 'screen' || b.family === 'screen') return 'screen';
  if (joint.kind === 'inside' && a === b) return undefined;
  if (joint.kind === 'wire') return 'wire';
  if (bentLug(circuit, joint) !== undefined) return undefined;
  if ([a, b].some((part) => part.parent !== undefined && networkOf(circuit, partById(circuit, part.parent)))) return undefined;
  return [a, b].some((part) => leadedKinds.has(partKind(circuit, part)) || networkOf(circuit, part)) ? 'lead' : 'solder';
}

/** The lug that a direct joint bends onto its own part's case, where such a part is drawn so; the tab shows the joint. */
export function bentLug(circuit: Circuit, joint: Joint): Lug | undefined {
  if (joint.kind !== 'solder') return undefined;
  const pair = [lugById(circuit, joint.a), lugById(circuit, joint.b)] as const;
  const part = partOfLug(circuit, joint.a);
  const kind = partKind(circuit, part);
  if (pair[0].part !== pair[1].part || (kind !== 'pot' && kind !== 'pot-dual' && kind !== 'pot-switch')) return undefined;
  const bent = pair.find((lug) => !lug.metal);
  const lastRow = kind === 'pot-switch' ? part.rows.at(-1) : part.rows[0];
  return pair.some((lug) => lug.metal) && bent !== undefined && lastRow?.includes(bent.id) === true ? bent : undefined;
}

function ends(circuit: Circuit, joint: Joint): [Lug, Lug] {
  const pair = [lugById(circuit, joint.a), lugById(circuit, joint.b)];
  return pair.sort((a, b) => compareText(a.label, b.label)) as [Lug, Lug];
}

function looks(
  circuit: Circuit,
  joint: Joint,
  kind: DiagramRun['kind'],
  a: Lug,
  b: Lug,
): Pick<DiagramRun, 'colours' | 'letters' | 'bare' | 'twisted' | 'shielded' | 'ownLead' | 'says'> {
  const between = `from ${a.label} to ${b.label}`;
  if (kind === 'lead') return { ...plain, bare: true, says: `lead ${between}` };
  if (kind === 'solder') return { ...plain, bare: true, says: `direct joint, ${a.label} onto ${b.label}` };
  const lead = joint.ownLead ? leadOf(circuit, joint) : undefined;
  const colour = joint.colour ?? lead?.colour;
  const shielded = joint.shielded || lead?.shielded === true || joint.make?.includes('braided') === true;
  const notes = [colour, ...madeOf(joint, shielded)].filter((note) => note !== undefined);
  return {
    colours: colour?.split('-') ?? [],
    letters: colour === undefined ? '' : lettersOf(colour),
    bare: joint.bare,
    twisted: joint.twisted,
    shielded,
    ownLead: joint.ownLead,
    says: `wire ${joint.mark === undefined ? '' : `${joint.mark} `}${between}${notes.map((note) => `, ${note}`).join('')}`,
  };
}

/** Words for how a wire is made, as they follow its colour. */
function madeOf({ bare, twisted, make = [], ownLead, gauge }: Joint, shielded: boolean): readonly string[] {
  return [
    ...(bare ? ['bare'] : []),
    ...(twisted ? ['twisted'] : []),
    ...(shielded && !make.includes('braided') ? ['shielded'] : []),
    ...make,
    ...(ownLead ? ['the part’s own lead'] : []),
    ...(gauge === undefined ? [] : [amount(gauge, 'awg')]),
  ];
}

function leadOf(circuit: Circuit, joint: Joint): NonNullable<Part['leads']>[number] | undefined {
  for (const lug of [joint.a, joint.b]) {
    const found = partOfLug(circuit, lug).leads?.find((lead) => lead.lug === lug);
    if (found !== undefined) return found;
  }
  return undefined;
}
