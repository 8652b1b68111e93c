/** What one shaft does in one setting of everything else, judged from its levels along the travel. */
import { elementById, type Circuit, type PartId } from '../../circuit/model.js';
import { comparedHz, type Levels } from './control-levels.js';

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
  /** Pickups that fall silent there, and each one's fall at mid rotation in dB. */
  readonly silenced: ReadonlyMap<PartId, number>;
  /** Pickups that are heard at some rotation. */
  readonly heard: ReadonlySet<PartId>;
  /** Largest change along the travel in dB, and where in the spectrum. */
  readonly change: number;
  readonly hz: number;
}

/** Judges a travel given as levels at rotations 0, 5 and 10. */
export function roleOf(circuit: Circuit, travel: readonly Levels[]): Role {
  const [low, middle, high] = travel as [Levels, Levels, Levels];
  // Coils are spoken of by their place in the levels, which is the same along the travel.
  const heardCoils: number[] = [];
  for (let i = 0; i < low.coils.length; i++) if (isHeard(low, i) || isHeard(middle, i) || isHeard(high, i)) heardCoils.push(i);
  const partOf = (coil: number): PartId => elementById(circuit, low.coils[coil]!).part;
  const heard = new Set(heardCoils.map(partOf));
  const { change, hz } = largestChange(travel);
  const common = { heard, change, hz, silenced: new Map<PartId, number>() };
  if (heardCoils.length === 0) return { ...common, kind: 'nothing' };
  if (Math.abs(change) < noticeable && !heardCoils.some((coil) => coilMoves(travel, coil))) return { ...common, kind: 'nothing' };

  const gone = (levels: Levels): Set<number> => new Set(heardCoils.filter((coil) => levels.level[coil]! < silence));
  const [goneLow, goneHigh] = [gone(low), gone(high)];
  if (goneLow.size > 0 && goneHigh.size > 0) {
    const apart = goneLow.size + goneHigh.size <= heardCoils.length && [...goneLow].every((coil) => !goneHigh.has(coil));
    return { ...common, kind: !apart ? 'mixed' : heard.size > 1 ? 'blend' : 'spread' };
  }
  if (goneLow.size + goneHigh.size > 0) {
    const silentAt = goneLow.size > 0 ? 0 : 10;
    const open = silentAt === 0 ? high : low;
    const silent = silentAt === 0 ? goneLow : goneHigh;
    const goesOn = new Set(heardCoils.filter((coil) => !silent.has(coil)).map(partOf));
    // One coil of a pickup that goes silent while the other goes on is a split, not a volume.
    if (goesOn.size === heard.size) return { ...common, kind: 'spread' };
    const silenced = new Map<PartId, number>();
    for (const coil of heardCoils) {
      const part = partOf(coil);
      if (!goesOn.has(part)) silenced.set(part, Math.max(silenced.get(part) ?? -Infinity, loss(open, middle, coil)));
    }
    return { ...common, kind: silent.size === heardCoils.length ? 'volume' : 'fade', silentAt, silenced };
  }
  return { ...common, ...withoutSilence(low, high, heardCoils, partOf) };
}

function withoutSilence(
  low: Levels,
  high: Levels,
  heard: readonly number[],
  partOf: (coil: number) => PartId,
): Pick<Role, 'kind' | 'silentAt'> {
  const moved = heard.map((coil) => ({ part: partOf(coil), by: loss(high, low, coil) }));
  const most = moved.reduce((a, b) => (b.by > a.by ? b : a));
  const least = moved.reduce((a, b) => (b.by < a.by ? b : a));
  if (most.by - least.by >= 3) return { kind: most.part === least.part ? 'spread' : 'blend' };
  const [bass, ...above] = comparedHz.map((_, i) => low.total[i]! - high.total[i]!) as [number, ...number[]];
  const treble = above.slice(1).reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  // Behind a high impedance, or a capacitor, a tone takes a little bass along: what counts is that it takes far more treble.
  const isStill = Math.abs(bass) <= Math.max(2, Math.abs(treble) / 4) && Math.abs(bass) < Math.abs(bass - treble) / 2;
  if (isStill && Math.abs(treble) >= 1) {
    // Where many pickups in parallel leave little impedance, a capacitor moves the resonance down into what is compared and lifts it there.
    const far = low.total[comparedHz.length]! - high.total[comparedHz.length]!;
    return { kind: 'tone', silentAt: (Math.abs(far) >= noticeable ? far : treble) < 0 ? 0 : 10 };
  }
  // A bass cut shifts the resonance a little by what it takes off the load, so only the proportion is asked for.
  const [at2k, at4k] = [2000, 4000].map((hz) => Math.abs(above[comparedHz.findIndex((other) => other === hz) - 1]!)) as [
    number,
    number,
  ];
  if (Math.abs(bass) >= 1 && Math.abs(bass) > 2 * Math.max(at2k, at4k)) return { kind: 'bass-cut' };
  return { kind: 'mixed' };
}

function isHeard({ level, volts, loudest }: Levels, coil: number): boolean {
  return level[coil]! >= silence && volts[coil]! > 0 && volts[coil]! * 20 >= loudest;
}

/** dB that a coil loses from one place of the travel to another. */
function loss(from: Levels, to: Levels, coil: number): number {
  return from.db[coil]! - to.db[coil]!;
}

function coilMoves([low, middle, high]: readonly Levels[], coil: number): boolean {
  const [a, b, c] = [low!.db[coil]!, middle!.db[coil]!, high!.db[coil]!];
  return Math.max(a, b, c) - Math.min(a, b, c) >= noticeable;
}

function largestChange(travel: readonly Levels[]): { readonly change: number; readonly hz: number } {
  let best = { change: 0, hz: comparedHz[0] as number };
  comparedHz.forEach((hz, i) => {
    const levels = travel.map(({ total }) => total[i]!);
    const change = Math.max(...levels) - Math.min(...levels);
    if (change > best.change) best = { change, hz };
  });
  return best;
}
