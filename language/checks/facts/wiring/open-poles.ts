/** Poles of which one side is soldered and the other is not. */
import { isMated, lugById, partById, type LugId } from '../../../circuit/model.js';
import type { Facts } from '../facts.js';
import type { Pole } from '../../../electrics/index.js';

/** True where what comes to the pole goes no further: one side open, and a wire that ends on the other. The contacts of a jack or a connector may stay free. */
export function isOpenPole(facts: Facts, pole: Pole): boolean {
  if (partById(facts.circuit, pole.device.part).family === 'jack' || isMated(facts.circuit, pole.device)) return false;
  const [wired, free] = sidesOf(facts, pole);
  return free.length > 0 && wired.some((lug) => facts.joined.wires(lug) === 1);
}

/** Lugs that are wired, and those that would have to be; nothing free where both sides are in use or neither. */
export function sidesOf(
  { circuit, joined }: Facts,
  pole: Pole,
): readonly [readonly LugId[], readonly LugId[], 'common' | 'throws'] {
  // At a point inside, an element of the part goes on.
  const isWired = (lug: LugId): boolean => joined.isWired(lug) || lugById(circuit, lug).inner === true;
  const used = pole.throws.filter(isWired);
  const unused = pole.throws.filter((lug) => !isWired(lug));
  if (pole.common === undefined)
    return pole.throws.length === 2 && used.length === 1 ? [used, unused, 'throws'] : [[], [], 'throws'];
  const common = [pole.common];
  if (isWired(pole.common)) return used.length === 0 ? [common, unused, 'throws'] : [[], [], 'throws'];
  return used.length === 0 ? [[], [], 'common'] : [used, common, 'common'];
}

/** Lugs of poles with one side open, and whatever joints tie to them: what is cut off there needs no second finding. */
export function cutOffAtPoles(facts: Facts): ReadonlySet<number> {
  const classes = new Set<number>();
  for (const pole of facts.poles()) {
    const [wired, free] = sidesOf(facts, pole);
    if (free.length > 0) for (const lug of wired) classes.add(facts.joined.classOf(lug));
  }
  return classes;
}
