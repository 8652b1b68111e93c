/** Admittances that are worked out anew at each frequency: of windings, of coils that share a field, of piezo elements. */
import { coreImpedance, type CoreSection } from '../../coil/index.js';
import { copyRows, fillRows, reciprocal, type Rows } from '../../numerics/index.js';
import type { Section } from './sections.js';

/** Some rows of admittances that are worked out together. */
export interface Curve {
  /** How many rows it writes. */
  readonly rows: number;
  /** Writes siemens at these angular frequencies from `row` on; `first` is the row of the system's first admittance. */
  evaluate(omega: Float64Array, rows: Rows, row: number, first: number): void;
}

/** A resistance in series with an inductance, a lossy core, or a capacitance. */
export interface Winding {
  readonly ohm: number;
  readonly henry: number;
  /** What acts in place of the inductance; empty where that is the inductance alone. */
  readonly core: readonly CoreSection[];
  /** Across the inductance or the core, ohm; Infinity where there is none. */
  readonly loss: number;
  /** 1/C of a capacitance in series; 0 where there is none. */
  readonly elastance: number;
}

export function windingCurve(winding: Winding): Curve {
  return { rows: 1, evaluate: (omega, rows, row) => windingAdmittance(winding, omega, rows, row) };
}

/** Another row's admittance times what the sections make of one volt: what a source that a cover shades drives through it. */
export function shadedCurve(of: number, sections: readonly Section[]): Curve {
  return {
    rows: 1,
    evaluate(omega, rows, row, first) {
      copyRows(rows, row, first + of, 1);
      for (const section of sections) shade(section, omega, rows, row);
    },
  };
}

/** The filter of a section as 1 / (1 + j t). */
function shade({ w, direct, through }: Section, omega: Float64Array, { re, im, width }: Rows, row: number): void {
  let at = row * width;
  for (const frequency of omega) {
    const t = frequency / w;
    const size = through / (1 + t * t);
    const [x, y] = [direct + size, -size * t];
    const [u, v] = [re[at] ?? 0, im[at] ?? 0];
    re[at] = u * x - v * y;
    im[at++] = u * y + v * x;
  }
}

/** Impedance of a winding without a capacitance at one angular frequency, ohm. */
export function windingImpedance(
  winding: Omit<Winding, 'elastance'>,
  omega: number,
): { readonly re: number; readonly im: number } {
  const { re, im } = coreImpedance(coreOf(winding), winding.loss, omega);
  return { re: winding.ohm + re, im };
}

/** Writes the admittance of a winding, siemens at each of these angular frequencies, into a row. */
export function windingAdmittance(winding: Winding, omega: Float64Array, rows: Rows, row: number): void {
  if (winding.elastance > 0) capacitiveAdmittance(winding, omega, rows, row);
  else if (winding.core.length > 0) lossyAdmittance(winding, omega, rows, row);
  else inductiveAdmittance(winding, omega, rows, row);
}

/**
 * Admittance of a resistance R in series with an inductance whose reactance X has the loss resistance P across it, written with g = 1/P
 * so that one division serves both with and without: y = (R + g·X²·(1 + g·R) − jX) / (R² + X²·(1 + g·R)²).
 */
function inductiveAdmittance({ ohm, henry, loss }: Winding, omega: Float64Array, { re, im, width }: Rows, row: number): void {
  const g = 1 / loss;
  const lossy = 1 + g * ohm;
  const square = ohm * ohm;
  let at = row * width;
  for (const w of omega) {
    const x = w * henry;
    const y = x * lossy;
    const size = 1 / (square + y * y);
    re[at] = (ohm + g * x * y) * size;
    im[at++] = -x * size;
  }
}

/** The same of a core: its sections one after the other, jx across R as (x²/R + jx) / (1 + (x/R)²), then the loss across all of them. */
function lossyAdmittance({ ohm, core, loss }: Winding, omega: Float64Array, rows: Rows, row: number): void {
  const { re, im, width } = rows;
  fillRows(rows, row, 1, 0);
  for (const section of core) {
    const g = 1 / section.ohm;
    let at = row * width;
    for (const w of omega) {
      const x = w * section.henry;
      const ratio = x * g;
      const size = x / (1 + ratio * ratio);
      re[at] = (re[at] ?? 0) + ratio * size;
      im[at] = (im[at] ?? 0) + size;
      at++;
    }
  }
  const g = 1 / loss;
  for (let at = row * width; at < (row + 1) * width; at++) {
    const [x, y] = [re[at] ?? 0, im[at] ?? 0];
    const [u, v] = [1 + g * x, g * y];
    const size = 1 / (u * u + v * v);
    re[at] = ohm + (x * u + y * v) * size;
    im[at] = (y * u - x * v) * size;
  }
  reciprocal(rows, row, row);
}

/** The same with a capacitance in series: y = jω / (S + jωR) with S = 1/C. */
function capacitiveAdmittance({ ohm, elastance }: Winding, omega: Float64Array, { re, im, width }: Rows, row: number): void {
  const square = elastance * elastance;
  let at = row * width;
  for (const w of omega) {
    const r = w * ohm;
    const size = w / (square + r * r);
    re[at] = r * size;
    im[at++] = elastance * size;
  }
}

/** Two windings that share a field, at least one of them lossy. */
export interface LossyPair {
  readonly first: Winding;
  readonly second: Winding;
  /** Mutual inductance as a share of √(L1 L2), section by section. */
  readonly factor: number;
}

/** Rows of a pair, from its first on: both windings, then what a volt in one drives through the other, twice so and twice with the other sign. */
export const pairRows = { first: 0, second: 1, mutual: [2, 3], opposed: [4, 5], count: 6 } as const;

/** A section of both windings: inductances, conductances across them, and L1 L2 − M². */
interface PairSection {
  readonly henry: readonly [number, number];
  readonly mutual: number;
  readonly siemens: readonly [number, number];
  readonly apart: number;
}

/**
 * Admittances of two windings that share a field. A section of both is (1 + jωΛG)⁻¹ jωΛ, with Λ its inductances and G the conductances across them; the
 * sections add up, the losses lie across their sum, and the inverse of all with the resistances is what is asked for.
 */
export function pairCurve({ first, second, factor }: LossyPair): Curve {
  const [one, other] = [coreOf(first), coreOf(second)];
  const sections = Array.from({ length: Math.max(one.length, other.length) }, (_, i): PairSection => {
    const [a, b] = [one[i] ?? absent, other[i] ?? absent];
    const mutual = factor * Math.sqrt(a.henry * b.henry);
    return {
      henry: [a.henry, b.henry],
      mutual,
      siemens: [1 / a.ohm, 1 / b.ohm],
      apart: a.henry * b.henry - mutual * mutual,
    };
  });
  return {
    rows: pairRows.count,
    evaluate(omega, rows, row) {
      fillRows(rows, row, 3, 0);
      for (const section of sections) addSection(section, omega, rows, row);
      finishPair(first, second, rows, row);
      const [mutual, same] = pairRows.mutual;
      copyRows(rows, row + same, row + mutual, 1);
      for (const opposed of pairRows.opposed) negate(rows, row + opposed, row + mutual);
    },
  };
}

const absent: CoreSection = { henry: 0, ohm: Infinity };

function coreOf({ core, henry }: Pick<Winding, 'core' | 'henry'>): readonly CoreSection[] {
  return core.length > 0 ? core : [{ henry, ohm: Infinity }];
}

/** Adds a section: with d = 1 − ω² (L1 L2 − M²) g1 g2 + jω (L1 g1 + L2 g2), its impedances are (jωL − ω² g (L1 L2 − M²)) / d, g the other's, and jωM / d. */
function addSection(section: PairSection, omega: Float64Array, rows: Rows, row: number): void {
  const { henry, mutual, siemens, apart } = section;
  const { re, im, width } = rows;
  let [a, b, m] = [row * width, (row + 1) * width, (row + 2) * width];
  for (const w of omega) {
    const square = w * w * apart;
    const u = 1 - square * siemens[0] * siemens[1];
    const v = w * (henry[0] * siemens[0] + henry[1] * siemens[1]);
    const size = 1 / (u * u + v * v);
    const [p, q] = [u * size, v * size];
    // (x + jy) (p − jq) for each of the three.
    const [x, y] = [-square * siemens[1], w * henry[0]];
    re[a] = (re[a] ?? 0) + x * p + y * q;
    im[a] = (im[a] ?? 0) + y * p - x * q;
    const [s, t] = [-square * siemens[0], w * henry[1]];
    re[b] = (re[b] ?? 0) + s * p + t * q;
    im[b] = (im[b] ?? 0) + t * p - s * q;
    re[m] = (re[m] ?? 0) + w * mutual * q;
    im[m] = (im[m] ?? 0) + w * mutual * p;
    a++;
    b++;
    m++;
  }
}

/** From the impedances of the cores to the admittances of the windings. */
function finishPair(first: Winding, second: Winding, rows: Rows, row: number): void {
  const { re, im, width } = rows;
  const [g, h] = [1 / first.loss, 1 / second.loss];
  for (let f = 0; f < width; f++) {
    const [a, b, m] = [row * width + f, (row + 1) * width + f, (row + 2) * width + f];
    let z: Mutual = { a: [re[a] ?? 0, im[a] ?? 0], b: [re[b] ?? 0, im[b] ?? 0], m: [re[m] ?? 0, im[m] ?? 0] };
    if (g > 0 || h > 0) z = across(z, g, h);
    const y = inverse({ a: [z.a[0] + first.ohm, z.a[1]], b: [z.b[0] + second.ohm, z.b[1]], m: z.m });
    [re[a], im[a]] = y.a;
    [re[b], im[b]] = y.b;
    [re[m], im[m]] = y.m;
  }
}

type Complex = readonly [re: number, im: number];

/** A symmetric matrix of two rows. */
interface Mutual {
  readonly a: Complex;
  readonly b: Complex;
  readonly m: Complex;
}

/** (1 + Z G)⁻¹ Z with conductances g and h across the two. */
function across(z: Mutual, g: number, h: number): Mutual {
  const d = determinant(z);
  const whole: Complex = [1 + g * z.a[0] + h * z.b[0] + g * h * d[0], g * z.a[1] + h * z.b[1] + g * h * d[1]];
  return {
    a: quotient([z.a[0] + h * d[0], z.a[1] + h * d[1]], whole),
    b: quotient([z.b[0] + g * d[0], z.b[1] + g * d[1]], whole),
    m: quotient(z.m, whole),
  };
}

function inverse(z: Mutual): Mutual {
  const d = determinant(z);
  return { a: quotient(z.b, d), b: quotient(z.a, d), m: quotient([-z.m[0], -z.m[1]], d) };
}

function determinant({ a, b, m }: Mutual): Complex {
  return [a[0] * b[0] - a[1] * b[1] - m[0] * m[0] + m[1] * m[1], a[0] * b[1] + a[1] * b[0] - 2 * m[0] * m[1]];
}

function quotient(x: Complex, y: Complex): Complex {
  const size = 1 / (y[0] * y[0] + y[1] * y[1]);
  return [(x[0] * y[0] + x[1] * y[1]) * size, (x[1] * y[0] - x[0] * y[1]) * size];
}

function negate({ re, im, width }: Rows, to: number, from: number): void {
  for (let f = 0; f < width; f++) {
    re[to * width + f] = -(re[from * width + f] ?? 0);
    im[to * width + f] = -(im[from * width + f] ?? 0);
  }
}
