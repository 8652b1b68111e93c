/** What one shaft does in one setting of everything else, judged from its levels along the travel. */
import { type AnalysedCircuit, derivation, derive, elementById, type PartId } from '../../circuit/model.js';
import { itemAt } from '../../collections.js';
import { comparedHz, farHz, type Levels, type solvedHz, toDb, totalAt } from './control-levels.js';

/** −60 dB of its own voltage. */
const silence = 1e-3;
/** A change of less than this, in dB, is none. */
const noticeable = 0.5;

/**
 * `volume`: everything falls silent at one end. `fade`: some pickups do, others go on. `tone`, `bass-cut`: one side of the spectrum goes.
 * `blend`, `spread`: pickups, or the coils of one, change against each other. `silentAt` names the end (0 or 10) where something is
 * silent, or a tone is darkest.
 */
export interface Role {
  readonly kind: 'nothing' | 'volume' | 'fade' | 'tone' | 'bass-cut' | 'blend' | 'spread' | 'mixed';
  readonly silentAt?: 0 | 10;
  /** Pickups that are heard at the other end and fall silent there, and each one's fall at mid rotation in dB. */
  readonly silenced: ReadonlyMap<PartId, number>;
  /** Pickups that are heard at some rotation. */
  readonly heard: ReadonlySet<PartId>;
  /** Largest change along the travel in dB, and where in the spectrum. */
  readonly change: number;
  readonly hz: number;
}

/** Levels at rotations 0, 5 and 10. */
export type Travel = readonly [Levels, Levels, Levels];

/** In a large circuit nearly every travel hears all of them. */
const partsWithCoils = derivation(
  ['elements'],
  ({ elements }): ReadonlySet<PartId> => new Set(elements.flatMap(({ kind, part }) => (kind === 'coil' ? [part] : []))),
);

/** Judges a travel. */
export function roleOf(circuit: AnalysedCircuit, travel: Travel): Role {
  const [low, middle, high] = travel;
  const coils = heardCoils(travel);
  const partOf = (coil: number): PartId => elementById(circuit, itemAt(low.coils, coil)).part;
  const heard = coils.length === low.coils.length ? derive(circuit, partsWithCoils) : new Set(coils.map(partOf));
  const { change, hz } = largestChange(travel);
  const common = { heard, change, hz, silenced: new Map<PartId, number>() };
  if (coils.length === 0) return { ...common, kind: 'nothing' };
  if (Math.abs(change) < noticeable && !coils.some((coil) => isChanged(travel, coil))) return { ...common, kind: 'nothing' };

  const silentAtLow = coils.filter((coil) => levelOf(low, coil) < silence);
  const silentAtHigh = coils.filter((coil) => levelOf(high, coil) < silence);
  if (silentAtLow.length > 0 && silentAtHigh.length > 0) {
    const isEither = silentAtLow.every((coil) => !silentAtHigh.includes(coil));
    return { ...common, kind: !isEither ? 'mixed' : heard.size > 1 ? 'blend' : 'spread' };
  }
  if (silentAtLow.length + silentAtHigh.length > 0) {
    const silentAt = silentAtLow.length > 0 ? 0 : 10;
    const silent = new Set(silentAt === 0 ? silentAtLow : silentAtHigh);
    const goesOn = new Set(coils.filter((coil) => !silent.has(coil)).map(partOf));
    // One coil of a pickup that goes silent while the other goes on is a split, not a volume.
    if (goesOn.size === heard.size) return { ...common, kind: 'spread' };
    const silenced = new Map<PartId, number>();
    const full = silentAt === 0 ? high : low;
    for (const coil of coils) {
      const part = partOf(coil);
      // What is heard only part way, where others are quieter, is not heard before and so is not silenced.
      if (goesOn.has(part) || !isHeard(full, coil)) continue;
      silenced.set(part, Math.max(silenced.get(part) ?? -Infinity, dbOf(full, coil) - dbOf(middle, coil)));
    }
    return { ...common, kind: silent.size === coils.length ? 'volume' : 'fade', silentAt, silenced };
  }
  return { ...common, ...withoutSilence(travel, coils, partOf) };
}

// The coils of the three are those of the circuit, in the same order, and go by their places among these. A circuit of 300 parts is asked
// for a hundred thousand of them: an object for each takes longer than all the rest.

/** The coils that are heard at some rotation. */
function heardCoils([low, middle, high]: Travel): readonly number[] {
  const coils: number[] = [];
  for (let coil = 0; coil < low.coils.length; coil++)
    if (isHeard(low, coil) || isHeard(middle, coil) || isHeard(high, coil)) coils.push(coil);
  return coils;
}

function isHeard({ level, outputs, loudest }: Levels, coil: number): boolean {
  const ratio = level[coil] ?? 0;
  const own = ratio * (outputs[coil] ?? 0);
  return ratio >= silence && own > 0 && own * 20 >= loudest;
}

function levelOf({ level }: Levels, coil: number): number {
  return level[coil] ?? 0;
}

function dbOf({ db }: Levels, coil: number): number {
  return db[coil] ?? toDb(0);
}

function withoutSilence(
  [low, , high]: Travel,
  heard: readonly number[],
  partOf: (coil: number) => PartId,
): Pick<Role, 'kind' | 'silentAt'> {
  const movedBy = (coil: number): number => dbOf(high, coil) - dbOf(low, coil);
  const most = heard.reduce((a, b) => (movedBy(b) > movedBy(a) ? b : a));
  const least = heard.reduce((a, b) => (movedBy(b) < movedBy(a) ? b : a));
  if (movedBy(most) - movedBy(least) >= 3) return { kind: partOf(most) === partOf(least) ? 'spread' : 'blend' };
  const fallAt = (hz: (typeof solvedHz)[number]): number => totalAt(low, hz) - totalAt(high, hz);
  const bass = fallAt(100);
  const treble = comparedHz
    .filter((hz) => hz > 400)
    .map(fallAt)
    .reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  // Behind a high impedance, or a capacitor, a tone takes a little bass along: what counts is that it takes far more treble.
  const isStill = Math.abs(bass) <= Math.max(2, Math.abs(treble) / 4) && Math.abs(bass) < Math.abs(bass - treble) / 2;
  if (isStill && Math.abs(treble) >= 1) {
    // Where many pickups in parallel leave little impedance, a capacitor moves the resonance down into what is compared and lifts it there.
    const far = fallAt(farHz);
    return { kind: 'tone', silentAt: (Math.abs(far) >= noticeable ? far : treble) < 0 ? 0 : 10 };
  }
  // A bass cut shifts the resonance a little by what it takes off the load, so only the proportion is asked for.
  if (Math.abs(bass) >= 1 && Math.abs(bass) > 2 * Math.max(Math.abs(fallAt(2000)), Math.abs(fallAt(4000)))) {
    return { kind: 'bass-cut' };
  }
  return { kind: 'mixed' };
}

function isChanged([low, middle, high]: Travel, coil: number): boolean {
  const [a, b, c] = [dbOf(low, coil), dbOf(middle, coil), dbOf(high, coil)];
  return Math.max(a, b, c) - Math.min(a, b, c) >= noticeable;
}

function largestChange(travel: Travel): { readonly change: number; readonly hz: number } {
  let best: { readonly change: number; readonly hz: number } = { change: 0, hz: comparedHz[0] };
  for (const hz of comparedHz) {
    const levels = travel.map((at) => totalAt(at, hz));
    const change = Math.max(...levels) - Math.min(...levels);
    if (change > best.change) best = { change, hz };
  }
  return best;
}
