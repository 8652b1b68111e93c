/** Whether two circuits mean the same: they differ in places in the text and in how wires look, and in nothing else. */
import type { Circuit, Joint } from './circuit.js';

/** Fields of a circuit that only say where something is, or by which address. What is wrong with the text is looked at by itself. */
const BESIDE: ReadonlySet<string> = new Set<keyof Circuit>(['uri', 'doc', 'problems', 'aside', 'names', 'types', 'files']);
/** How a wire looks; whether it is bare or has a screen also says what it touches. */
const LOOKS: ReadonlySet<string> = new Set<keyof Joint>(['colour', 'colourRange', 'gauge', 'length', 'mark']);
/** Places in the text: only whether they are there counts. */
const PLACES: ReadonlySet<string> = new Set([
  'range',
  'nameRange',
  'typeRange',
  'titleRange',
  'statementRange',
  'aRange',
  'bRange',
  'ruleRange',
  'uses',
]);
/** The same where the capacitance of shielded wires counts by their length. */
const LOOKS_BUT_LENGTH: ReadonlySet<string> = new Set([...LOOKS].filter((field) => field !== 'length'));
const NONE: ReadonlySet<string> = new Set();

/**
 * True where all but the places in the text, the circuit's own comment and the looks of wires (colour, gauge, mark, and length where no capacitance goes by it) is equal, and
 * nothing is wrong with either text. Ids count, as in `topologySignature`. A field that is added to the circuit counts until it is listed above.
 */
export function isSameInMeaning(one: Circuit, other: Circuit): boolean {
  if (one.problems.length > 0 || other.problems.length > 0 || one.joints.length !== other.joints.length) return false;
  const looks = one.build?.['shielded-capacitance'] === undefined ? LOOKS : LOOKS_BUT_LENGTH;
  return (
    isEqual({ ...one, joints: [] }, { ...other, joints: [] }, BESIDE) &&
    one.joints.every((joint, i) => isEqual(joint, other.joints[i], looks))
  );
}

/** Deep equality of plain data, `besides` left out at the top. It walks every item of the circuit at every edit, so it makes nothing. */
function isEqual(one: unknown, other: unknown, besides: ReadonlySet<string> = NONE): boolean {
  if (one === other) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  if (Array.isArray(one)) return Array.isArray(other) && isEqualList(one, other);
  const [own, others] = [one as Readonly<Record<string, unknown>>, other as Readonly<Record<string, unknown>>];
  let fields = 0;
  for (const key in own) {
    if (besides.has(key)) continue;
    const [a, b] = [own[key], others[key]];
    if (a !== b && (PLACES.has(key) ? a === undefined || b === undefined : !isEqual(a, b))) return false;
    fields++;
  }
  for (const key in others) if (!besides.has(key)) fields--;
  return fields === 0;
}

function isEqualList(one: readonly unknown[], other: readonly unknown[]): boolean {
  if (one.length !== other.length) return false;
  for (let i = 0; i < one.length; i++) if (!isEqual(one[i], other[i])) return false;
  return true;
}
