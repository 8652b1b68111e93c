/** What speaks for the role of a pot: its name, its type, and how its lugs are wired, no one wire alone. Common practice. */
import { type AnalysedCircuit, partById, type Shaft, type Track } from '../circuit/model.js';
import { rolesNamed } from './names.js';
import type { Evidence } from './role.js';
import { surroundingsOf, tracksOfShaft, type Side } from './surroundings.js';

export function evidenceOfPot(circuit: AnalysedCircuit, shaft: Shaft): readonly Evidence[] {
  const part = partById(circuit, shaft.part);
  return [...named(part.name, shaft.name), ...byType(part.ancestry), ...byTracks(circuit, tracksOfShaft(circuit, shaft))];
}

function named(part: string, shaft: string): readonly Evidence[] {
  const [word] = rolesNamed('pot', shaft === part ? part : `${part}-${shaft.slice(part.length + 1)}`);
  return word === undefined ? [] : [{ word, weight: 4, says: `it is called ${part}` }];
}

function byType(ancestry: readonly string[]): readonly Evidence[] {
  if (ancestry.includes('pot-blend')) return [{ word: 'blend', weight: 5, says: 'it is a blend by its type' }];
  if (ancestry.includes('pot-no-load')) return [{ word: 'tone', weight: 2, says: 'it leaves the circuit at 10, as tones do' }];
  // A screwdriver sets it: neither a name nor the wiring makes it a player's volume or tone.
  if (ancestry.includes('trimmer')) return [{ word: 'preset', weight: 10, says: 'it is a trimmer' }];
  return [];
}

function byTracks(circuit: AnalysedCircuit, tracks: readonly Track[]): readonly Evidence[] {
  const { sideOf } = surroundingsOf(circuit);
  const sides = tracks.map((track) => ({ a: sideOf(track.a), wiper: sideOf(track.wiper), b: sideOf(track.leavesTo ?? track.b) }));
  // What two tracks say alike is said once.
  const found = [...new Map(sides.flatMap(byTrack).map((one) => [one.says, one])).values()];
  const [first, second] = sides;
  if (first !== undefined && second !== undefined && isTurnedAgainst(first, second))
    found.push({ word: 'blend', weight: 2.5, says: 'its two tracks have opposite ends on ground' });
  return found;
}

interface Sides {
  readonly a: Side;
  readonly wiper: Side;
  readonly b: Side;
}

const live: readonly Side[] = ['input', 'output', 'signal', 'controls'];

function byTrack({ a, wiper, b }: Sides): readonly Evidence[] {
  const all = [a, wiper, b];
  const count = (...sides: readonly Side[]): number => all.filter((side) => sides.includes(side)).length;
  const found: Evidence[] = [];
  if (count('capacitor') > 0) found.push({ word: 'tone', weight: 2.5, says: 'a capacitor is on one of its lugs' });
  if (count(...live) === 2 && (a === 'ground') !== (b === 'ground'))
    found.push({
      word: 'volume',
      weight: 2,
      says: 'the signal goes in at one lug and out at another, and the third is on ground',
    });
  if (count('bare') === 1 && count(...live) === 1 && count('capacitor', 'ground') === 1)
    found.push({ word: 'tone', weight: 1, says: 'only two of its lugs are in use, one of them on the signal' });
  return found;
}

function isTurnedAgainst(first: Sides, second: Sides): boolean {
  return (first.a === 'ground' && second.b === 'ground') || (first.b === 'ground' && second.a === 'ground');
}
