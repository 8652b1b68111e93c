/** The joints of a circuit as its text names their lugs: what a repair can write anew, and where it can lead to. */
import {
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type Joint,
  type Lug,
  type LugId,
  type PartId,
} from '../../circuit/model.js';
import type { SourceRange } from '../../source.js';
import { itemAt } from '../../collections.js';

/** A joint that stands nowhere in the text yet is known by this statement. */
export const unwritten = -1;

export interface JointEnd {
  /** Index into `Circuit.joints`. */
  readonly joint: number;
  readonly side: 'a' | 'b';
}

/**
 * One place in the text at which a joint names a lug. Both runs that meet at an inner lug of `wire A to B to C` end at one mention,
 * and so do the leads of all parts of `part c, d : … from A to B`.
 */
export interface Mention {
  readonly id: number;
  readonly lug: LugId;
  readonly range: SourceRange;
  readonly ends: readonly JointEnd[];
}

export interface Wiring {
  readonly circuit: AnalysedCircuit;
  readonly mentions: readonly Mention[];
  /** Mentions of each lug, by lug id. */
  readonly at: readonly (readonly Mention[])[];
  /** Lugs that a wire of the instrument's own can name. */
  readonly nameable: readonly Lug[];
  /** Joints that stand in the text as a run that can be taken out. */
  readonly runs: readonly Joint[];
}

export function wiringOf(circuit: AnalysedCircuit): Wiring {
  const drafts = new Map<string, { lug: LugId; range: SourceRange; ends: JointEnd[] }>();
  const note = (index: number, side: 'a' | 'b'): void => {
    const joint = itemAt(circuit.joints, index);
    const lug = joint[side];
    const range = side === 'a' ? joint.aRange : joint.bRange;
    if (!isWritten(circuit, joint, lug, range)) return;
    const key = placeOf(range);
    const draft = drafts.get(key) ?? { lug, range, ends: [] };
    draft.ends.push({ joint: index, side });
    drafts.set(key, draft);
  };
  for (const [index, joint] of circuit.joints.entries()) {
    if (joint.statement === unwritten) continue;
    if (joint.kind === 'wire' || joint.kind === 'solder') note(index, 'a');
    if (joint.kind === 'wire' || joint.kind === 'solder' || joint.kind === 'screen') note(index, 'b');
  }
  const mentions = [...drafts.values()].map((draft, id): Mention => ({ id, ...draft }));
  const at: Mention[][] = circuit.lugs.map(() => []);
  for (const mention of mentions) itemAt(at, mention.lug).push(mention);
  return {
    circuit,
    mentions,
    at,
    nameable: circuit.lugs.filter((lug) => isNameable(circuit, lug)),
    runs: circuit.joints.filter((joint) => isRun(joint) && !isLead(circuit, joint)),
  };
}

/** The joint that ends here. */
export function jointOf(circuit: Circuit, { joint }: JointEnd): Joint {
  return itemAt(circuit.joints, joint);
}

/** The lug at the other end of the joint that ends here. */
export function farEnd(circuit: Circuit, end: JointEnd): LugId {
  return jointOf(circuit, end)[end.side === 'a' ? 'b' : 'a'];
}

/** The class of a lug: the smallest lug that joints bring together with it. A lug of another circuit is a bug, and throws. */
export function classOf(classes: Int32Array, lug: LugId): number {
  const own = classes[lug];
  if (own === undefined) throw new Error(`These classes have no lug with the id ${lug}`);
  return own;
}

/** The class of the output's sleeve; −1 without a jack. */
export function groundClass({ output }: Circuit, classes: Int32Array): number {
  return output === undefined ? -1 : classOf(classes, output.sleeve);
}

function isRun({ kind, statement }: Joint): boolean {
  return (kind === 'wire' || kind === 'solder') && statement !== unwritten;
}

/** The lead of a part that stands `from … to …`: its own end is not written, the part is. */
export function isLead(circuit: Circuit, joint: Joint): boolean {
  return joint.kind === 'solder' && leadOf(circuit, joint) !== undefined;
}

/** The part whose lead a joint of `from … to …` is. */
export function leadOf(circuit: Circuit, joint: Joint): PartId | undefined {
  for (const side of ['a', 'b'] as const) {
    const part = partOfLug(circuit, joint[side]);
    const range = side === 'a' ? joint.aRange : joint.bRange;
    if (part.inPlace && placeOf(range) === placeOf(part.nameRange)) return part.id;
  }
  return undefined;
}

function isWritten(circuit: Circuit, joint: Joint, lug: LugId, range: SourceRange): boolean {
  const part = partOfLug(circuit, lug);
  return joint.kind !== 'solder' || !part.inPlace || placeOf(range) !== placeOf(part.nameRange);
}

/** What stands inside an assembly, a screen and the middle of a pickup have no name that a wire could write. */
function isNameable(circuit: Circuit, lug: Lug): boolean {
  const part = partById(circuit, lug.part);
  return lug.inner !== true && part.parent === undefined && part.family !== 'screen';
}

export function placeOf({ uri, start }: SourceRange): string {
  return `${uri} ${start.line} ${start.character}`;
}
