/** What a pickup's values make of a measured curve: the residuals that the fit makes least. */
import { coreImpedance, coreSections } from '../coil/index.js';
import type { Measured } from './measured.js';

/** What was across the pickup when it was measured: farads, ohms (Infinity where there was nothing). */
export interface Load {
  readonly farad: number;
  readonly ohm: number;
}

/** One measured curve with its load. */
export interface Curve {
  readonly measured: Measured;
  readonly load: Load;
}

/** Names of the values that are found, in SI units; the eddy share is of 1. */
export const fitted = ['resistance', 'inductance', 'capacitance', 'loss', 'eddy-inductance', 'eddy-resistance'] as const;
export type ValueName = (typeof fitted)[number];

/** The values of one pickup; without a loss or eddy currents where they are absent. */
export type PickupValues = Readonly<Record<'resistance' | 'inductance' | 'capacitance', number>> &
  Readonly<Partial<Record<ValueName, number>>>;

/** A decibel as a part of a neper: a level and the logarithm of an impedance then weigh alike. */
const neper = Math.LN10 / 20;

/** What the model gives in place of each measured number: decibels (of no certain zero), or ohms and degrees. */
export interface Computed {
  readonly db: readonly number[];
  readonly ohm: readonly number[];
  readonly deg: readonly number[];
}

/** The curve of these values at the measured frequencies. A response is moved up or down so that it lies in the middle of what was measured. */
export function computed(values: PickupValues, { measured, load }: Curve): Computed {
  const points = measured.hz.map((hz) => at(values, load, hz));
  if (measured.kind === 'impedance')
    return { db: [], ohm: points.map(({ ohm }) => ohm), deg: points.map(({ rad }) => (rad * 180) / Math.PI) };
  const db = points.map(({ level }) => level);
  const offset = mean(measured.db.map((value, i) => value - (db[i] ?? 0)));
  return { db: db.map((value) => value + offset), ohm: [], deg: [] };
}

/** Model minus measurement in nepers and radians, a number for each measured one. */
export function residualsOf(values: PickupValues, curve: Curve): readonly number[] {
  const { measured } = curve;
  const { db, ohm, deg } = computed(values, curve);
  if (measured.kind === 'response') return measured.db.map((value, i) => ((db[i] ?? 0) - value) * neper);
  return measured.hz.flatMap((_, i) => [
    Math.log((ohm[i] ?? 1) / (measured.ohm[i] ?? 1)),
    (((deg[i] ?? 0) - (measured.deg[i] ?? 0)) * Math.PI) / 180,
  ]);
}

interface Point {
  /** Level across the load for one volt of the strings, dB. */
  readonly level: number;
  /** Impedance with the load across it, and its angle. */
  readonly ohm: number;
  readonly rad: number;
}

/** 1 / (1 + (R + Z) Y) across the load and (R + Z) / (1 + (R + Z) Y) as an impedance, with Y = 1/Rl + jω(C + Cl). */
function at(values: PickupValues, load: Load, hz: number): Point {
  const omega = 2 * Math.PI * hz;
  const { resistance, inductance, capacitance, loss = Infinity } = values;
  const [share, path] = [values['eddy-inductance'], values['eddy-resistance']];
  const eddy = share === undefined || path === undefined ? undefined : { share, ohm: path };
  const core = coreImpedance(coreSections({ henry: inductance, eddy }), loss, omega);
  const [re, im] = [resistance + core.re, core.im];
  const [conductance, susceptance] = [1 / load.ohm, omega * (capacitance + load.farad)];
  const [u, v] = [1 + re * conductance - im * susceptance, im * conductance + re * susceptance];
  const size = Math.hypot(u, v);
  return {
    level: -20 * Math.log10(size),
    ohm: Math.hypot(re, im) / size,
    rad: Math.atan2(im, re) - Math.atan2(v, u),
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
