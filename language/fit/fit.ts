/** The values of a pickup from measured curves: fitted, with their uncertainty; taken from the usual range where the data leave them open. */
import { leastSquares, type Bound } from './least-squares.js';
import { fitted, residualsOf, type Curve, type PickupValues, type ValueName } from './model.js';

/** How a value came about: from the data, stated, or from the usual range because the data leave it open. */
export type Origin = 'fitted' | 'stated' | 'usual';

/** One value of the pickup, SI units. */
export interface FittedValue {
  readonly name: ValueName;
  readonly value: number;
  readonly origin: Origin;
  /** Ends between which the true value lies with 95 %; absent of a stated value. */
  readonly low?: number;
  readonly high?: number;
}

export interface Fit {
  readonly values: readonly FittedValue[];
  readonly pickup: PickupValues;
  /** Root of the mean square of the residuals, as decibels. */
  readonly spreadDb: number;
}

/** What is usual where the data leave a value open (H. Lemme, "The Secrets of Electric Guitar Pickups", 2003/2009, for coil and winding; resistances from memory). */
const usual: Readonly<Partial<Record<ValueName, readonly [least: number, most: number]>>> = {
  capacitance: [80e-12, 200e-12],
  resistance: [4e3, 16e3],
  inductance: [1, 10],
};

/** What no pickup exceeds. */
const bounds: Readonly<Record<ValueName, Bound>> = {
  resistance: { least: Math.log(50), most: Math.log(200e3) },
  inductance: { least: Math.log(5e-3), most: Math.log(100) },
  capacitance: { least: Math.log(1e-12), most: Math.log(20e-9) },
  loss: { least: Math.log(1e3), most: Math.log(100e6) },
  'eddy-inductance': { least: Math.log(0.003), most: Math.log(0.97) },
  'eddy-resistance': { least: Math.log(100), most: Math.log(10e6) },
};

/** A value is open where its ends are further apart than this factor on either side. */
const openFactor = 1.25;
/** Eddy currents are taken in where chance would improve the fit so much with this probability. */
const chance = 0.01;
/** Student's t is near this for 95 %. */
const normal95 = 1.959964;

/**
 * Fits resistance, inductance, winding capacitance and loss to all curves at once, and eddy currents where the data call for them: where an F test on two
 * more parameters finds the improvement less likely than 1 % by chance. `stated` values stay. A value that the data leave open is taken from the usual
 * range, and the range counts in the intervals of the others. Intervals are those of least squares with the curvature at the solution, in the logarithms.
 */
export function fitPickup(curves: readonly Curve[], stated: Partial<Record<ValueName, number>> = {}): Fit {
  const isFree = (name: ValueName): boolean => stated[name] === undefined;
  const plain = bestOf(curves, stated, plainNames.filter(isFree), plainStarts(curves, stated));
  const lossy = bestOf(curves, stated, fitted.filter(isFree), lossyStarts(curves, plain));
  const freedom = Math.max(freedomOf(curves) - lossy.free.length, 1);
  const gain = ((plain.squares - lossy.squares) / 2 / lossy.squares) * freedom;
  // The F distribution with two degrees of freedom above has a closed form.
  const isByChance = (1 + (2 * Math.max(gain, 0)) / freedom) ** (-freedom / 2) > chance;
  return reported(curves, stated, withUsual(curves, stated, isByChance ? plain : lossy));
}

const plainNames = ['resistance', 'inductance', 'capacitance', 'loss'] as const;

/** A solution: its free values, all values, the standard errors of the logarithms, and which values came from the usual range. */
interface Found {
  readonly free: readonly ValueName[];
  readonly values: PickupValues;
  readonly errors: ReadonlyMap<ValueName, number>;
  readonly usual: readonly ValueName[];
  readonly squares: number;
}

type Stated = Partial<Record<ValueName, number>>;
type Start = Readonly<Record<ValueName, number>>;

/** Takes open values from their usual range, first the capacitance, until the data and the ranges determine the rest; a loss that is still open then leaves the model. */
function withUsual(curves: readonly Curve[], stated: Stated, first: Found): Found {
  const spread = Math.sqrt(first.squares / Math.max(freedomOf(curves) - first.free.length, 1));
  let found = first;
  for (;;) {
    const { free, errors, values } = found;
    const open = free.filter(
      (name) => normal95 * (errors.get(name) ?? Infinity) * unusualness(name, values) > Math.log(openFactor),
    );
    const next = (Object.keys(usual) as ValueName[]).find((name) => open.includes(name) && !found.usual.includes(name));
    const start = values as Start;
    if (next !== undefined) found = bestOf(curves, stated, free, [start], { names: [...found.usual, next], spread });
    else if (free.includes('loss') && errors.get('loss') === Infinity)
      found = bestOf(
        curves,
        stated,
        free.filter((name) => name !== 'loss'),
        [start],
        { names: found.usual, spread },
      );
    else return found;
  }
}

/** How many times a value is above the middle of its usual range, 1 at least: one that came out far too large seems to be determined, as its share of error is small. */
function unusualness(name: ValueName, values: PickupValues): number {
  const [least, most] = usual[name] ?? [Infinity, Infinity];
  return Math.max((values[name] ?? 0) / Math.sqrt(least * most), 1);
}

/** Values that are drawn to their usual range, as strongly as a spread of the data of this size leaves them. */
interface Drawn {
  readonly names: readonly ValueName[];
  readonly spread: number;
}

/** The best of several starts. */
function bestOf(
  curves: readonly Curve[],
  stated: Stated,
  free: readonly ValueName[],
  starts: readonly Start[],
  drawn: Drawn = { names: [], spread: 0 },
): Found {
  const valuesAt = (parameters: readonly number[]): PickupValues => ({
    ...stated,
    ...(Object.fromEntries(free.map((name, i) => [name, Math.exp(parameters[i] ?? 0)])) as PickupValues),
  });
  const residuals = (parameters: readonly number[]): readonly number[] => {
    const values = valuesAt(parameters);
    return [
      ...curves.flatMap((curve) => residualsOf(values, curve)),
      ...drawn.names.map((name) => pull(name, values, drawn.spread)),
    ];
  };
  const [best] = starts
    .map((start) =>
      leastSquares(
        residuals,
        free.map((name) => Math.log(start[name])),
        free.map((name) => bounds[name]),
        freedomOf(curves) + drawn.names.length,
      ),
    )
    .sort((a, b) => a.squares - b.squares);
  if (best === undefined) throw new Error('There is no start for a fit.');
  return {
    free,
    values: valuesAt(best.parameters),
    errors: new Map(free.map((name, i) => [name, best.errors[i] ?? Infinity])),
    usual: drawn.names,
    squares: best.squares,
  };
}

/** How far a value is from the middle of its usual range, in the measure of the residuals. */
function pull(name: ValueName, values: PickupValues, spread: number): number {
  const [least, most] = usual[name] ?? [1, 1];
  // Anywhere in the range alike: the standard deviation is the width over √12.
  const [middle, deviation] = [Math.log(least * most) / 2, Math.log(most / least) / Math.sqrt(12)];
  return ((Math.log(values[name] ?? 1) - middle) / deviation) * spread;
}

/** Starts from the frequency at which the first curve is highest, with two capacitances and two losses. */
function plainStarts(curves: readonly Curve[], stated: Stated): readonly Start[] {
  const [first] = curves;
  if (first === undefined) return [];
  const { measured, load } = first;
  const sizes = measured.kind === 'response' ? measured.db : measured.ohm;
  const highest = measured.hz[sizes.indexOf(Math.max(...sizes))] ?? 3000;
  const resistance = measured.kind === 'impedance' ? (measured.ohm[0] ?? 6500) : 6500;
  return [80e-12, 250e-12].flatMap((farad) =>
    [2, 8].map((times) => {
      const inductance = 1 / ((2 * Math.PI * highest) ** 2 * ((stated.capacitance ?? farad) + load.farad));
      const wave = 2 * Math.PI * highest * inductance;
      return { resistance, inductance, capacitance: farad, loss: wave * times, 'eddy-inductance': 0.1, 'eddy-resistance': wave };
    }),
  );
}

/** Starts from the fit without eddy currents: little and much of the inductance shorted, by much and by little. */
function lossyStarts(curves: readonly Curve[], { values }: Found): readonly Start[] {
  const wave = 2 * Math.PI * 3000 * values.inductance;
  return [0.1, 0.35].flatMap((share) =>
    [0.3, 1.5].map((path) => ({
      resistance: values.resistance,
      inductance: values.inductance,
      capacitance: values.capacitance,
      loss: (values.loss ?? wave) * 2,
      'eddy-inductance': share,
      'eddy-resistance': wave * path,
    })),
  );
}

/** How many measured numbers there are, without the level of each response, which is taken from them. */
function freedomOf(curves: readonly Curve[]): number {
  return curves.reduce((sum, { measured: { kind, hz } }) => sum + (kind === 'response' ? hz.length - 1 : 2 * hz.length), 0);
}

function reported(curves: readonly Curve[], stated: Stated, { free, values, errors, usual: taken, squares }: Found): Fit {
  const freedom = Math.max(freedomOf(curves) - free.length, 1);
  const shown = fitted.flatMap((name): readonly FittedValue[] => {
    const value = values[name];
    if (value === undefined) return [];
    if (stated[name] !== undefined) return [{ name, value, origin: 'stated' }];
    const reach = Math.exp(quantile(freedom) * (errors.get(name) ?? 0));
    const origin = taken.includes(name) ? 'usual' : 'fitted';
    return [{ name, value, origin, low: value / reach, high: value * reach }];
  });
  return { values: shown, pickup: values, spreadDb: (Math.sqrt(squares / freedom) * 20) / Math.LN10 };
}

/** Student's t for 95 %, by the first terms of its expansion (M. Abramowitz and I. A. Stegun, "Handbook of Mathematical Functions", 26.7.5; from memory). */
function quantile(freedom: number): number {
  const z = normal95;
  return z + (z ** 3 + z) / (4 * freedom) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * freedom ** 2);
}
