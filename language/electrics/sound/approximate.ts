/** Whether the response of a setting rests on values that the text doesn't give. */
import {
  type AnalysedCircuit,
  type Arrangement,
  type Coil,
  derivation,
  derive,
  type Element,
  elementById,
  type ElementId,
} from '../../circuit/model.js';
import type { Sound } from '../model.js';
import { coilsOf } from './arrangement.js';

/**
 * True where peak, corner and level are approximate. The inductance of a pickup is that of the whole, so where the coupling of its coils isn't given, a
 * coil by itself and a coil turned against the other have an inductance that is only estimated; in series and in parallel, in phase, they have not. A
 * value written `?` makes the figures approximate too, but that of a pickup that isn't heard.
 */
export function isApproximate(circuit: AnalysedCircuit, sound: Sound): boolean {
  if (sound.silent) return false;
  const coils = new Set(sound.heard.map(({ coil }) => coil));
  if (derive(circuit, unknown).some(({ kind, id }) => kind !== 'coil' || coils.has(id))) return true;
  const apart = [...coils].filter((coil) => isUncoupled(circuit, coil));
  // How the coils are joined is asked for only where it matters.
  const arrangement = apart.length === 0 ? undefined : sound.arrangement;
  return arrangement !== undefined && apart.some((coil) => !isWhole(circuit, arrangement, coil));
}

/** The elements with a value that is written `?`. */
const unknown = derivation(['elements', 'values'], ({ elements }): readonly Element[] => elements.filter(isUnknown));

function isUnknown(element: Element): boolean {
  return Object.values(element).some(
    (value: unknown) => typeof value === 'object' && value !== null && 'known' in value && value.known === false,
  );
}

function isUncoupled(circuit: AnalysedCircuit, id: ElementId): boolean {
  const coil = elementById(circuit, id) as Coil;
  return coil.coupling === undefined && coilsOf(circuit, coil.part).length > 1;
}

/** True where all coils of the pickup are in one series or one parallel group, in phase. */
function isWhole(circuit: AnalysedCircuit, arrangement: Arrangement, coil: ElementId): boolean {
  const { part } = elementById(circuit, coil);
  if (arrangement.kind === 'pickup') return arrangement.part === part;
  if (arrangement.kind === 'coil') return false;
  if (arrangement.kind === 'parallel') {
    const own = arrangement.members.filter((member) => member.kind === 'coil' && elementById(circuit, member.coil).part === part);
    const isInPhase = own.every(({ reversed }) => reversed === own[0]?.reversed);
    if (own.length === coilsOf(circuit, part).length && isInPhase) return true;
  }
  return arrangement.members.some((member) => isWhole(circuit, member, coil));
}
