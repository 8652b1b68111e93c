/** What one shaft does in one setting of everything else, judged from its levels along the travel. */
import type { Circuit, ElementId, PartId } from '../circuit/model.js';
import { comparedHz, toDb, type Levels } from './control-levels.js';

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
  const heardCoils = [...low.coils.keys()].filter((coil) => travel.some((levels) => isHeard(levels, coil)));
  const heard = new Set(heardCoils.map((coil) => circuit.elements[coil]!.part));
  const { change, hz } = largestChange(travel);
  const common = { heard, change, hz, silenced: new Map<PartId, number>() };
  if (heardCoils.length === 0) return { ...common, kind: 'nothing' };
  if (Math.abs(change) < noticeable && !heardCoils.some((coil) => coilMoves(travel, coil))) return { ...common, kind: 'nothing' };

  const gone = (levels: Levels): ElementId[] => heardCoils.filter((coil) => levels.coils.get(coil)!.level < silence);
  const [goneLow, goneHigh] = [gone(low), gone(high)];
  if (goneLow.length > 0 && goneHigh.length > 0) {
    const apart = goneLow.length + goneHigh.length <= heardCoils.length && goneLow.every((coil) => !goneHigh.includes(coil));
    return { ...common, kind: !apart ? 'mixed' : heard.size > 1 ? 'blend' : 'spread' };
  }
  if (goneLow.length + goneHigh.length > 0) {
    const silentAt = goneLow.length > 0 ? 0 : 10;
    const open = silentAt === 0 ? high : low;
    const silent = silentAt === 0 ? goneLow : goneHigh;
    const parts = [...heard].filter((part) =>
      heardCoils.every((coil) => circuit.elements[coil]!.part !== part || silent.includes(coil)),
    );
    // One coil of a pickup that goes silent while the other goes on is a split, not a volume.
    if (parts.length === 0) return { ...common, kind: 'spread' };
    const fall = (part: PartId): number =>
      Math.max(...heardCoils.filter((coil) => circuit.elements[coil]!.part === part).map((coil) => loss(open, middle, coil)));
    return {
      ...common,
      kind: silent.length === heardCoils.length ? 'volume' : 'fade',
      silentAt,
      silenced: new Map(parts.map((part) => [part, fall(part)])),
    };
  }
  return { ...common, ...withoutSilence(circuit, low, high, heardCoils) };
}

function withoutSilence(
  circuit: Circuit,
  low: Levels,
  high: Levels,
  heard: readonly ElementId[],
): Pick<Role, 'kind' | 'silentAt'> {
  const moved = heard.map((coil) => ({ part: circuit.elements[coil]!.part, by: loss(high, low, coil) }));
  const most = moved.reduce((a, b) => (b.by > a.by ? b : a));
  const least = moved.reduce((a, b) => (b.by < a.by ? b : a));
  if (most.by - least.by >= 3) return { kind: most.part === least.part ? 'spread' : 'blend' };
  const [bass, ...above] = low.total.map((level, i) => level - high.total[i]!) as [number, ...number[]];
  const treble = above.slice(1).reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  // Behind a high impedance, or a capacitor, a tone takes a little bass along: what counts is that it takes far more treble.
  const isStill = Math.abs(bass) <= Math.max(2, Math.abs(treble) / 4) && Math.abs(bass) < Math.abs(bass - treble) / 2;
  if (isStill && Math.abs(treble) >= 1) return { kind: 'tone', silentAt: treble < 0 ? 0 : 10 };
  // A bass cut shifts the resonance a little by what it takes off the load, so only the proportion is asked for.
  const [at2k, at4k] = [2000, 4000].map((hz) => Math.abs(above[comparedHz.findIndex((other) => other === hz) - 1]!)) as [
    number,
    number,
  ];
  if (Math.abs(bass) >= 1 && Math.abs(bass) > 2 * Math.max(at2k, at4k)) return { kind: 'bass-cut' };
  return { kind: 'mixed' };
}

function isHeard({ coils }: Levels, coil: ElementId): boolean {
  const { level, volts } = coils.get(coil)!;
  let loudest = 0;
  for (const other of coils.values()) loudest = Math.max(loudest, other.volts);
  return level >= silence && volts > 0 && volts * 20 >= loudest;
}

/** dB that a coil loses from one place of the travel to another. */
function loss(from: Levels, to: Levels, coil: ElementId): number {
  return toDb(from.coils.get(coil)!.level) - toDb(to.coils.get(coil)!.level);
}

function coilMoves(travel: readonly Levels[], coil: ElementId): boolean {
  const levels = travel.map(({ coils }) => toDb(coils.get(coil)!.level));
  return Math.max(...levels) - Math.min(...levels) >= noticeable;
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
