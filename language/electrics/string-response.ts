/** The response as one string sounds: what of each partial a pickup senses at its place, through the circuit of one setting. */
import {
  type AnalysedCircuit,
  type Coil,
  elementById,
  type Part,
  partById,
  type PartId,
  type StringNote,
} from '../circuit/model.js';
import type { ResponsePoint, Setting } from './model.js';
import { nets } from './network/nets.js';
import { decibel, logarithmic } from './response.js';
import { createSolver, type Solver } from './solver/solver.js';

/** Partials above this are left out, hertz. */
const highest = 20_000;
/** A pickup that never delivers this share of what the loudest does needs no place. */
const negligible = 1e-3;
/** Frequencies that are solved at once. */
const block = 32;

/** Where a pickup senses the string, and how much of it, in metres. */
export interface SensedPlace {
  readonly fromBridge: number;
  /** Nothing where the text doesn't state it: a point. */
  readonly aperture: number;
}

/** A partial of the string: its number, 1 the fundamental; its level; and by pickup the signed share of its amplitude that is sensed. */
export interface Partial extends ResponsePoint {
  readonly number: number;
  readonly factors: readonly { readonly pickup: PartId; readonly factor: number }[];
}

export interface StringResponse {
  readonly points: readonly ResponsePoint[];
  readonly partials: readonly Partial[];
  /** Pickups that are heard and whose place isn't known: then there is neither a curve nor a partial. */
  readonly missing: readonly Part[];
  /** Pickups that are heard of which no aperture is stated. */
  readonly pointLike: readonly Part[];
  /** Pickups of several coils that are heard: all of their coils count at the pickup's place. */
  readonly severalCoils: readonly Part[];
  /** Why there is nothing to hear, where nothing reaches the amplifier. */
  readonly problem?: string;
}

/**
 * The signed share of a partial's amplitude that a pickup senses: sin(π f d / (f0 S)) · sinc(f w / (2 f0 S)), sinc u = sin πu / πu, with d from the
 * bridge, w the aperture, S the scale and f0 the fundamental. The n-th mode of an ideal string has the shape sin(nπx/S) (N. H. Fletcher and T. D. Rossing, "The
 * Physics of Musical Instruments", 2nd ed., 1998, chapter 2; from memory), and its mean over the aperture brings the sinc, at the frequency of a
 * partial f = n f0. That the place and the width of a pickup weigh the partials so: J. D. Tillman, "Response Effects of Guitar Pickup Position and Width" (read in part).
 * The string's stiffness, which spreads its partials a little, and what the pickup's pull does to it are left out.
 */
export function sensedShare({ fromBridge, aperture }: SensedPlace, scale: number, fundamental: number, hz: number): number {
  const waves = hz / (fundamental * scale);
  const u = (waves * aperture) / 2;
  const mean = u === 0 ? 1 : Math.sin(Math.PI * u) / (Math.PI * u);
  return Math.sin(Math.PI * waves * fromBridge) * mean;
}

/**
 * Level and phase at the amplifier at logarithmic points, and at each partial of the string up to 20 kHz. 0 dB is a pickup of output 100 %, unloaded, at an
 * antinode; all partials have the same amplitude. Each coil's voltage is weighed by its pickup's share, sign included, before the circuit adds them up, so
 * that pickups at two places neither add nor cancel alike at all partials. Nothing else that is computed of a circuit is made from it.
 */
export function stringResponse(
  circuit: AnalysedCircuit,
  setting: Setting,
  string: StringNote,
  { from = 20, to = highest, points = 200 }: { readonly from?: number; readonly to?: number; readonly points?: number } = {},
): StringResponse {
  const solver = createSolver(circuit, nets(circuit, setting.positions), setting);
  const curve = logarithmic(from, to, points);
  const numbers = Array.from({ length: Math.floor((highest / string.hz) * (1 + 1e-12)) }, (_, i) => i + 1);
  const hz = Float64Array.from([...curve, ...numbers.map((number) => number * string.hz)]);
  const found = transfersAt(solver, hz);
  const heard = heardPickups(circuit, solver, found, hz.length);
  const scale = circuit.strings?.scale ?? 0;
  const placed = heard.map((pickup) => ({ pickup, place: placeOf(pickup, scale) }));
  const missing = placed.flatMap(({ pickup, place }) => (place === undefined ? [pickup] : []));
  const about = {
    missing,
    pointLike: placed.flatMap(({ pickup, place }) => (place?.aperture === 0 ? [pickup] : [])),
    severalCoils: heard.filter(({ elements }) => elements.filter((id) => elementById(circuit, id).kind === 'coil').length > 1),
    ...(found.problem === undefined ? {} : { problem: found.problem }),
  };
  if (missing.length > 0 || found.problem !== undefined) return { points: [], partials: [], ...about };
  const shares = new Map(
    placed.map(({ pickup, place }) => [
      pickup.id,
      Float64Array.from(hz, (one) => (place === undefined ? 0 : sensedShare(place, scale, string.hz, one))),
    ]),
  );
  const at = (f: number): ResponsePoint => {
    let [re, im] = [0, 0];
    for (const [i, id] of solver.coils.entries()) {
      const weight = (solver.weights[i] ?? 0) * (shares.get(elementById(circuit, id).part)?.[f] ?? 0);
      re += weight * (found.re[i * hz.length + f] ?? 0);
      im += weight * (found.im[i * hz.length + f] ?? 0);
    }
    return { hz: hz[f] ?? 0, db: decibel(re, im), deg: (Math.atan2(im, re) * 180) / Math.PI };
  };
  return {
    points: Array.from(curve, (_, f) => at(f)),
    partials: numbers.map((number, i) => ({
      number,
      ...at(curve.length + i),
      factors: placed.map(({ pickup }) => ({ pickup: pickup.id, factor: shares.get(pickup.id)?.[curve.length + i] ?? 0 })),
    })),
    ...about,
  };
}

/** The transfers of all coils, block by block; as in `Solver.transfersAt`. */
function transfersAt(solver: Solver, hz: Float64Array) {
  const re = new Float64Array(solver.coils.length * hz.length);
  const im = new Float64Array(re.length);
  let problem: string | undefined;
  for (let start = 0; start < hz.length; start += block) {
    const some = hz.subarray(start, start + block);
    const found = solver.transfersAt(some);
    problem ??= found.problem;
    for (let coil = 0; coil < solver.coils.length; coil++) {
      const row = coil * some.length;
      re.set(found.re.subarray(row, row + some.length), coil * hz.length + start);
      im.set(found.im.subarray(row, row + some.length), coil * hz.length + start);
    }
  }
  return { re, im, problem };
}

/** The pickups that bring something to the output at some of the frequencies, in the order of the text. */
function heardPickups(
  circuit: AnalysedCircuit,
  { coils, weights }: Solver,
  { re, im }: { readonly re: Float64Array; readonly im: Float64Array },
  count: number,
): readonly Part[] {
  const most = coils.map((_, i) => {
    let level = 0;
    for (let at = i * count; at < (i + 1) * count; at++) level = Math.max(level, Math.hypot(re[at] ?? 0, im[at] ?? 0));
    return level * Math.abs(weights[i] ?? 0);
  });
  const least = negligible * Math.max(...most, 0);
  const ids = coils.flatMap((id, i) => ((most[i] ?? 0) > least ? [(elementById(circuit, id) as Coil).part] : []));
  return [...new Set(ids)].sort((a, b) => a - b).map((id) => partById(circuit, id));
}

/** Undefined where the text doesn't state a place on the string. */
function placeOf({ properties }: Part, scale: number): SensedPlace | undefined {
  const metres = (name: string): number => {
    const property = properties[name];
    return property !== undefined && 'value' in property && property.known ? property.value : 0;
  };
  const fromBridge = metres('from-bridge');
  return fromBridge > 0 && fromBridge <= scale ? { fromBridge, aperture: metres('aperture') } : undefined;
}
