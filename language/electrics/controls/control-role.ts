/** What one shaft does in one setting of everything else, judged from its levels along the travel. */
import { elementById, type Circuit, type PartId } from '../../circuit/model.js';
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

/** One coil at one rotation: its level as a ratio and in dB, and whether it is heard beside the others. */
interface CoilLevel {
  readonly isHeard: boolean;
  readonly level: number;
  readonly db: number;
}

/** One coil along the travel: at rotation 0, 5 and 10. */
interface CoilTravel {
  readonly part: PartId;
  readonly low: CoilLevel;
  readonly middle: CoilLevel;
  readonly high: CoilLevel;
}

/** Levels at rotations 0, 5 and 10. */
export type Travel = readonly [Levels, Levels, Levels];

/** Judges a travel. */
export function roleOf(circuit: Circuit, travel: Travel): Role {
  const [low, , high] = travel;
  const coils = heardCoils(circuit, travel);
  const heard = new Set(coils.map(({ part }) => part));
  const { change, hz } = largestChange(travel);
  const common = { heard, change, hz, silenced: new Map<PartId, number>() };
  if (coils.length === 0) return { ...common, kind: 'nothing' };
  if (Math.abs(change) < noticeable && !coils.some(isChanged)) return { ...common, kind: 'nothing' };

  const silentAtLow = coils.filter((coil) => coil.low.level < silence);
  const silentAtHigh = coils.filter((coil) => coil.high.level < silence);
  if (silentAtLow.length > 0 && silentAtHigh.length > 0) {
    const isEither = silentAtLow.every((coil) => !silentAtHigh.includes(coil));
    return { ...common, kind: !isEither ? 'mixed' : heard.size > 1 ? 'blend' : 'spread' };
  }
  if (silentAtLow.length + silentAtHigh.length > 0) {
    const silentAt = silentAtLow.length > 0 ? 0 : 10;
    const silent = new Set(silentAt === 0 ? silentAtLow : silentAtHigh);
    const goesOn = new Set(coils.filter((coil) => !silent.has(coil)).map(({ part }) => part));
    // One coil of a pickup that goes silent while the other goes on is a split, not a volume.
    if (goesOn.size === heard.size) return { ...common, kind: 'spread' };
    const silenced = new Map<PartId, number>();
    for (const coil of coils) {
      const full = silentAt === 0 ? coil.high : coil.low;
      const fall = full.db - coil.middle.db;
      // What is heard only part way, where others are quieter, is not heard before and so is not silenced.
      if (full.isHeard && !goesOn.has(coil.part)) silenced.set(coil.part, Math.max(silenced.get(coil.part) ?? -Infinity, fall));
    }
    return { ...common, kind: silent.size === coils.length ? 'volume' : 'fade', silentAt, silenced };
  }
  return { ...common, ...withoutSilence(low, high, coils) };
}

/** The coils that are heard at some rotation. */
function heardCoils(circuit: Circuit, [low, middle, high]: Travel): readonly CoilTravel[] {
  return low.coils.flatMap((id, coil) => {
    const { part } = elementById(circuit, id);
    const travel = { part, low: levelOf(low, coil), middle: levelOf(middle, coil), high: levelOf(high, coil) };
    return travel.low.isHeard || travel.middle.isHeard || travel.high.isHeard ? [travel] : [];
  });
}

// The coils of the three are those of the circuit, in the same order; one that is not there is silent.

function isHeard({ level, volts, loudest }: Levels, coil: number): boolean {
  const own = volts[coil] ?? 0;
  return (level[coil] ?? 0) >= silence && own > 0 && own * 20 >= loudest;
}

function levelOf(levels: Levels, coil: number): CoilLevel {
  const ratio = levels.level[coil] ?? 0;
  return { level: ratio, db: levels.db[coil] ?? toDb(ratio), isHeard: isHeard(levels, coil) };
}

function withoutSilence(low: Levels, high: Levels, heard: readonly CoilTravel[]): Pick<Role, 'kind' | 'silentAt'> {
  const moved = heard.map((coil) => ({ part: coil.part, by: coil.high.db - coil.low.db }));
  const most = moved.reduce((a, b) => (b.by > a.by ? b : a));
  const least = moved.reduce((a, b) => (b.by < a.by ? b : a));
  if (most.by - least.by >= 3) return { kind: most.part === least.part ? 'spread' : 'blend' };
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

function isChanged({ low, middle, high }: CoilTravel): boolean {
  const all = [low.db, middle.db, high.db];
  return Math.max(...all) - Math.min(...all) >= noticeable;
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
