/** Which outline a part is drawn with. */
import { elementById, type Circuit, type Part } from '../../circuit/model.js';

export type PartKind =
  | 'pickup'
  | 'humbucker'
  | 'pot'
  | 'pot-dual'
  | 'pot-switch'
  | 'switch'
  | 'rotary'
  | 'jack'
  | 'capacitor'
  | 'electrolytic'
  | 'resistor'
  | 'inductor'
  | 'battery'
  | 'network'
  | 'amplifier'
  | 'bridge'
  | 'star'
  | 'junction'
  | 'strip'
  | 'terminal'
  | 'mark'
  | 'box';

/** The outline by what the part is made of, so that a user's own type is drawn like the standard one it resembles. */
export function partKind(circuit: Circuit, part: Part): PartKind {
  const kinds = part.elements.map((id) => elementById(circuit, id).kind);
  const is = (type: string): boolean => part.ancestry.includes(type);
  if (part.family === 'cavity' || part.family === 'plate') return 'terminal';
  if (part.family === 'pickup') return kinds.length === 2 && !is('single-coil-tapped') ? 'humbucker' : 'pickup';
  if (part.family === 'jack' || is('jack')) return 'jack';
  if (is('bridge-ground')) return 'bridge';
  if (is('star')) return 'star';
  if (is('junction')) return 'junction';
  if (is('tag-strip')) return 'strip';
  if (part.family === 'amplifier') return 'amplifier';
  const tracks = kinds.filter((kind) => kind === 'track').length;
  if (tracks > 0 && part.rows.length > 0) {
    if (circuit.switches.some((device) => device.part === part.id)) return 'pot-switch';
    if (tracks === 1 && part.rows.length === 1) return 'pot';
    if (tracks === 2 && part.rows.length === 2) return 'pot-dual';
  }
  if (part.type.startsWith('rotary-') || part.ancestry.some((type) => type.startsWith('rotary-'))) return 'rotary';
  if (part.family === 'switch') return 'switch';
  if (part.lugs.length === 2 && kinds.length === 1) {
    const [kind] = kinds;
    if (kind === 'capacitor') return is('electrolytic') ? 'electrolytic' : 'capacitor';
    if (kind === 'resistor' || kind === 'inductor' || kind === 'battery') return kind;
  }
  return 'box';
}

/** Kinds whose leads are soldered as they are. */
export const leadedKinds: ReadonlySet<PartKind> = new Set(['capacitor', 'electrolytic', 'resistor', 'inductor', 'network']);

/** Kinds that are put beside the one part they are soldered to, and have no place of their own. */
export const hangingKinds: ReadonlySet<PartKind> = new Set([...leadedKinds, 'mark']);
