/** Which two lugs a forgotten wire is likely to join: one part, parts that are tied already, like leads, the other half of a crossing. */
import { lugById, partById, type AnalysedCircuit, type Circuit, type Lug, type LugId } from '../../circuit/model.js';
import { polesOf } from '../../electrics/index.js';
import { isBentOver } from './change.js';
import { crossingMate } from './usage.js';
import { getOrCreate } from '../../collections.js';

/** How much cheaper than between strangers a wire between two lugs is, at most 1.1. */
export function createLugAffinity(circuit: AnalysedCircuit): (a: Lug, b: Lug) => number {
  const tied = tiedParts(circuit);
  const siblings = siblingTargets(circuit);
  const mates = crossingMates(circuit);
  const jumpers = forgottenJumpers(circuit);
  const leads = (from: Lug, to: Lug): number =>
    // Where one lead of a pickup goes the other finds its case; and a lead goes where the same lead of its like goes.
    (partById(circuit, to.part).family === 'control' && tied.has(from.part * circuit.parts.length + to.part) ? 0.15 : 0) +
    (siblings.get(likeOf(circuit, from))?.has(to.id) === true ? 0.1 : 0);
  return (a, b) => {
    if (mates.has(keyOf(circuit, a.id, b.id))) return 0.5;
    // A lug of a pot is bent onto its own case rather than wired to another.
    if (isBentOver(circuit, a.id, b.id)) return 0.6;
    if (jumpers.has(keyOf(circuit, a.id, b.id))) return 1.1;
    return a.part === b.part && !isFrame(circuit, a, b) ? 0.3 : leads(a, b) + leads(b, a);
  };
}

function keyOf({ lugs }: Circuit, a: LugId, b: LugId): number {
  return Math.min(a, b) * lugs.length + Math.max(a, b);
}

/** A jumper across a switch asks for the one that crosses it. */
function crossingMates(circuit: Circuit): ReadonlySet<number> {
  return new Set(
    circuit.joints.flatMap((joint) => {
      const mate = crossingMate(circuit, joint);
      return mate === undefined ? [] : [keyOf(circuit, ...mate)];
    }),
  );
}

/** From a throw that has a wire to the next one of its pole that has none: a position that was to sound like its neighbour, and more. */
function forgottenJumpers(circuit: AnalysedCircuit): ReadonlySet<number> {
  const wired = new Set(circuit.joints.flatMap(({ a, b }) => [a, b]));
  return new Set(
    polesOf(circuit).flatMap(({ throws }) =>
      throws.flatMap((lug, at) => {
        const next = throws[at + 1];
        return next !== undefined && wired.has(lug) !== wired.has(next) ? [keyOf(circuit, lug, next)] : [];
      }),
    ),
  );
}

/** The frame of a switch goes to ground by a wire of its own, not by a lug beside it. */
function isFrame(circuit: Circuit, a: Lug, b: Lug): boolean {
  return a.metal !== b.metal && partById(circuit, a.part).family === 'switch';
}

/** What leads of one name, of parts of one kind, are soldered to. */
function siblingTargets(circuit: Circuit): ReadonlyMap<string, ReadonlySet<LugId>> {
  const targets = new Map<string, Set<LugId>>();
  for (const { kind, a, b } of circuit.joints) {
    if (kind !== 'wire' && kind !== 'solder') continue;
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const key = likeOf(circuit, lugById(circuit, from));
      getOrCreate(targets, key, () => new Set()).add(to);
    }
  }
  return targets;
}

function likeOf(circuit: Circuit, { part, name }: Lug): string {
  const { family, type } = partById(circuit, part);
  return `${family === 'pickup' ? family : type}.${name}`;
}

/** Pairs of parts that a wire or a solder joint joins. */
function tiedParts(circuit: Circuit): ReadonlySet<number> {
  const tied = new Set<number>();
  for (const { kind, a, b } of circuit.joints) {
    if (kind !== 'wire' && kind !== 'solder') continue;
    const [one, other] = [lugById(circuit, a).part, lugById(circuit, b).part];
    tied.add(one * circuit.parts.length + other).add(other * circuit.parts.length + one);
  }
  return tied;
}
