/** Which outline a part is drawn with. */
import { elementById, type Circuit, type Element, type Part } from '../../circuit/model.js';

export type PartKind =
  | 'pickup'
  | 'piezo'
  | 'humbucker'
  | 'pot'
  | 'pot-dual'
  | 'pot-switch'
  | 'trimmer'
  | 'switch'
  | 'rotary'
  | 'jack'
  | 'capacitor'
  | 'electrolytic'
  | 'resistor'
  | 'inductor'
  | 'diode'
  | 'led'
  | 'battery'
  | 'network'
  | 'amplifier'
  | 'transistor'
  | 'housing'
  | 'bridge'
  | 'star'
  | 'junction'
  | 'strip'
  | 'connector'
  | 'terminal'
  | 'mark'
  | 'box';

/** What a part of kind `switch` looks like from behind. */
export type SwitchForm = 'lever' | 'toggle' | 'slide' | 'mini';

/** The form by the standard type it comes from; a type of one's own by how its lugs lie: one row is a slide, two columns a small block, else a lever. */
export function switchForm(part: Part): SwitchForm {
  const names = [part.type, ...part.ancestry];
  const begins = (...words: readonly string[]): boolean => names.some((name) => words.some((word) => name.startsWith(word)));
  const columns = Math.max(0, ...part.rows.map((row) => row.length));
  if (begins('lever-')) return 'lever';
  if (begins('toggle-')) return 'toggle';
  if (begins('slide-')) return 'slide';
  if (part.rows.length === 1 || (part.rows.length === 2 && columns <= 3 && columns > 1)) return 'slide';
  return part.rows.length > 0 && columns <= 2 ? 'mini' : 'lever';
}

/** Standard types that have an outline of their own, whatever is in them, by the first that a part comes from. */
const kindsByType: readonly (readonly [type: string, kind: PartKind])[] = [
  ['jack', 'jack'],
  ['bridge-ground', 'bridge'],
  ['star', 'star'],
  ['junction', 'junction'],
  ['tag-strip', 'strip'],
];

/** The outline by what the part is made of, so that a user's own type is drawn like the standard one it resembles. */
export function partKind(circuit: Circuit, part: Part): PartKind {
  const kinds = part.elements.map((id) => elementById(circuit, id).kind);
  const is = (type: string): boolean => part.ancestry.includes(type);
  if (part.family === 'cavity' || part.family === 'plate') return 'terminal';
  if (part.ancestry.includes('piezo')) return 'piezo';
  if (part.family === 'pickup') return kinds.length === 2 && !is('single-coil-tapped') ? 'humbucker' : 'pickup';
  if (part.family === 'jack') return 'jack';
  const byType = kindsByType.find(([type]) => is(type));
  if (byType !== undefined) return byType[1];
  if (part.family === 'amplifier') return stageKind(circuit, part);
  const pot = potKind(circuit, part, kinds.filter((kind) => kind === 'track').length);
  if (pot !== undefined) return pot;
  if ([part.type, ...part.ancestry].some((type) => type.startsWith('rotary-'))) return 'rotary';
  if ([part.type, ...part.ancestry].some((type) => type.startsWith('connector-')) && part.rows.length === 2) return 'connector';
  if (isHousing(circuit, part)) return 'housing';
  if (part.family === 'switch') return 'switch';
  return twoLeadKind(part, kinds) ?? 'box';
}

/** A transistor with its legs in a row, an op-amp in a housing with legs on two sides, any other stage on a board. */
function stageKind(circuit: Circuit, { elements, rows }: Part): PartKind {
  const stages = elements.map((id) => elementById(circuit, id)).filter((element) => element.kind === 'gain');
  const [stage] = stages;
  if (stages.length !== 1 || stage === undefined) return 'amplifier';
  if (stage.transistor !== undefined && rows.length === 1) return 'transistor';
  return stage.inverting !== undefined && rows.length === 2 ? 'housing' : 'amplifier';
}

/** A relay, an optocoupler or a transformer: its legs are on two sides of a closed housing. */
function isHousing(circuit: Circuit, { id, rows, elements }: Part): boolean {
  if (rows.length !== 2) return false;
  const isDriven = circuit.switches.some(({ part, drive }) => part === id && drive !== undefined);
  return isDriven || elements.some((element) => isTransformerWinding(elementById(circuit, element)));
}

function isTransformerWinding(element: Element): boolean {
  return element.kind === 'inductor' && (element.coupling ?? 0) !== 0;
}

function potKind(circuit: Circuit, { id, rows, lugs, ancestry }: Part, tracks: number): PartKind | undefined {
  if (tracks === 0 || rows.length === 0) return undefined;
  if (circuit.switches.some((device) => device.part === id)) return 'pot-switch';
  // One to which a user's type adds lugs outside the row is drawn as a pot.
  const isPreset = ancestry.includes('trimmer') && lugs.length === rows[0]?.length;
  if (tracks === 1 && rows.length === 1) return isPreset ? 'trimmer' : 'pot';
  return tracks === 2 && rows.length === 2 ? 'pot-dual' : undefined;
}

function twoLeadKind({ lugs, ancestry }: Part, [kind, more]: readonly Element['kind'][]): PartKind | undefined {
  if (lugs.length !== 2 || more !== undefined) return undefined;
  if (kind === 'diode') return ancestry.includes('led') ? 'led' : 'diode';
  if (kind === 'capacitor') return ancestry.includes('electrolytic') ? 'electrolytic' : 'capacitor';
  return kind === 'resistor' || kind === 'inductor' || kind === 'battery' ? kind : undefined;
}

/** Kinds whose leads are soldered as they are. */
export const leadedKinds: ReadonlySet<PartKind> = new Set([
  'capacitor',
  'electrolytic',
  'resistor',
  'inductor',
  'diode',
  'led',
  'network',
]);
