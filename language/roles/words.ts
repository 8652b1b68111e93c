/** Roles in words, for hover, outline and completion. */
import { lugById, partById, shaftById, type Circuit } from '../circuit/model.js';
import { listed } from '../words.js';
import { wholePickups } from './pickups.js';
import type { Role, Unit } from './role.js';

/** `volume of neck`, or the word alone where it acts on all pickups. */
export function roleText(circuit: Circuit, { word, of, unit }: Role): string {
  if (unit.kind === 'pickup') return `${word} pickup`;
  const pickups = wholePickups(circuit).length;
  const own = of.map((id) => partById(circuit, id).name);
  return own.length === 0 || own.length === pickups ? word : `${word} of ${listed(own)}`;
}

/** `3 input, 2 output, 1 ground`: what the lugs are for; empty where nothing is known of them. */
export function lugsText(circuit: Circuit, { lugs }: Role): string {
  return [...lugs].map(([lug, purpose]) => `${lugById(circuit, lug).name} ${purpose}`).join(', ');
}

/** `volume`, or `blend.a` of a pot with two shafts. */
export function unitName(circuit: Circuit, unit: Unit): string {
  return unit.kind === 'pot' ? shaftById(circuit, unit.shaft).name : partById(circuit, unit.part).name;
}
