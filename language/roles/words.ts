/** Roles in words, for hover, outline and completion. */
import { lugById, partById, partOfLug, shaftById, type AnalysedCircuit, type Circuit, type LugId } from '../circuit/model.js';
import { abridged, listed } from '../words.js';
import { isSplice, type Connection, type Departure } from './connections.js';
import { wholePickups } from './pickups.js';
import type { Role, Unit } from './role.js';
import { surroundingsOf } from './surroundings.js';

/** `volume of neck`, or the word alone where it acts on all pickups. */
export function roleText(circuit: AnalysedCircuit, { word, of, unit }: Role): string {
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

const connections: Readonly<Record<Connection, (lug: string, to: readonly string[]) => string>> = {
  bare: (lug) => `nothing is soldered to ${lug}`,
  ground: (lug) => `${lug} is on ground`,
  capacitor: (lug) => `${lug} leads to a capacitor alone`,
  input: (lug) => `${lug} is on the pickups’ side`,
  output: (lug) => `${lug} is on the output’s side`,
  signal: (lug) => `${lug} is on pickups and output`,
  controls: (lug, to) => `${lug} leads to ${abridged(to)}`,
  link: (lug) => `${lug} is on the joint between two coils`,
  supply: (lug) => `${lug} is on the battery`,
  own: (lug) => `${lug} is joined only to another lug of the same part`,
  wiper: (lug) => `${lug} is on the wiper of a pot`,
  end: (lug) => `${lug} is on the end of a pot’s track`,
};

const usual: Readonly<Record<Connection, string>> = {
  bare: 'where usually nothing is',
  ground: 'where ground usually is',
  capacitor: 'where the capacitor usually is',
  input: 'where the input usually is',
  output: 'where the output usually is',
  signal: 'where the signal usually is',
  controls: 'where the signal usually is',
  link: 'where the joint between two coils usually is',
  supply: 'where the battery usually is',
  own: 'where usually another lug of the same part is',
  wiper: 'where the wiper of the volume usually is',
  end: 'where the end of the track usually is',
};

/** What a lug is soldered to, splices left out where there is more: lugs by their labels, small parts by their names. */
export function joinedTo(circuit: AnalysedCircuit, lug: LugId): readonly string[] {
  const { classOf, members } = surroundingsOf(circuit);
  const others = members(classOf(lug)).filter((other) => other !== lug);
  const named = others.filter((other) => !isSplice(circuit, other));
  return (named.length > 0 ? named : others).map((other) => {
    const { family, name } = partOfLug(circuit, other);
    return family === 'passive' ? name : lugById(circuit, other).label;
  });
}

/**
 * `volume.3 is on ground, where the input usually is`: what a lug is connected to and what usually is there, as a clause. Where the way of the signal
 * doesn't matter, as in a tone, there is no input and no output. `to` is what the lug is soldered to, see `joinedTo`.
 */
export function departureText(
  lug: string,
  { is, usually, to }: Pick<Departure, 'is' | 'usually'> & { readonly to: readonly string[] },
  isDirected: boolean,
): string {
  const wanted = !isDirected && (usually === 'input' || usually === 'output') ? 'signal' : usually;
  return `${connections[is](lug, to)}, ${usual[wanted]}`;
}
