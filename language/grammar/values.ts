/** Values as a parts list and a schematic write them, read into SI units, and quantities written for people. */
import { editDistance } from '../nearest.js';
import { gaugeOf } from './gauge.js';

/** What a value is counted in; `count` for a bare number, `percent` as 10 for 10 %, `awg` as the gauge number, which is no whole one where a wire's section is given. */
export type ValueUnit =
  | 'ohm'
  | 'farad'
  | 'henry'
  | 'metre'
  | 'awg'
  | 'volt'
  | 'hertz'
  | 'ampere'
  | 'ampere-hour'
  | 'siemens'
  | 'percent'
  | 'decibel'
  | 'count';

/** A value in SI base units with whatever else its printing says. */
export interface ParsedValue {
  readonly value: number;
  readonly unit: ValueUnit;
  /** Relative, 0.05 for ±5 %: the letter of `223J`, `4K7K`. */
  readonly tolerance?: number;
  /** The letter before a pot's value, `A250K`: A audio, B linear, C reverse-audio (common practice). */
  readonly taper?: 'linear' | 'audio' | 'reverse-audio';
  /** Volts, of `0.022/100V`. */
  readonly voltage?: number;
}

/**
 * Reads a value: number and unit (`6.2k`, `22nF`, `.022u`, `85mm`, `15%`), a letter for the decimal point (`4k7`, `R47`, `p47`; IEC 60062),
 * a pot's print (`A250K`), a capacitor's (`223J`, `0.022/100V`), a bare number. `expected` settles what is ambiguous by itself: as a capacitance
 * `104K` is 100 nF ±10 % and `223` is 22 nF. Answers `undefined` where the text is no value; `valueProblem` then says why.
 * The value is the double nearest to the decimal number that is written.
 */
export function parseValue(text: string, expected?: ValueUnit): ParsedValue | undefined {
  // Both code points of each sign: micro U+00B5 and Greek mu, ohm U+2126 and Greek omega.
  const plain = text.normalize('NFKC').replace(/^±/, '').replace(/^−/, '-');
  return (
    (expected === 'farad' ? capacitorCode(plain, threeDigitsOfACapacitor) : undefined) ??
    number(plain) ??
    capacitorCode(plain, threeDigits) ??
    withTaper(plain) ??
    withVoltage(plain) ??
    letterForPoint(plain) ??
    withTolerance(plain) ??
    crossSection(plain)
  );
}

/** Whether a word that starts with a letter is a value all the same: `R47`, `p47`, `A250K`. */
export function isLetterCode(text: string): boolean {
  return /^\p{L}\d/u.test(text) && parseValue(text) !== undefined;
}

/**
 * Why a text is no value, with the nearest that would be: an unknown unit, a comma for the point, an ambiguous letter.
 * `undefined` where `parseValue` reads it.
 */
export function valueProblem(text: string, expected?: ValueUnit): string | undefined {
  if (parseValue(text, expected) !== undefined) return undefined;
  const parts = /^([-±]?)(\d*\.?\d+)([\p{L}%].*)$/u.exec(text.normalize('NFKC'));
  if (!parts) return `\`${text}\` is not a value; a value is a number with its unit, such as 6.2k, 22nF or 85mm`;
  const [, , digits, unit = ''] = parts;
  if (/^(mfd|mf|uf?d?|μfd)$/i.test(unit)) return `\`${text}\` may mean micro or milli; write \`${digits}uF\` for microfarad`;
  if (/^(mmfd?|μμfd?|uufd?)$/i.test(unit)) return `\`${unit}\` is an old unit for picofarad; write \`${digits}pF\``;
  const other = nearestUnit(unit);
  const all = 'units are R k M (ohm), p n u (farad), H, mm cm m in, awg, mm2, V, Hz, dB, %, A';
  return `\`${unit}\` in \`${text}\` is not a unit; ${other === undefined ? all : `did you mean \`${digits}${other}\`?`}`;
}

/** Powers of ten of the prefixes. */
const prefixes: Readonly<Record<string, number>> = { p: -12, n: -9, μ: -6, u: -6, m: -3, '': 0, k: 3, K: 3, M: 6 };

/** What stands behind a number: its unit, its power of ten, and a factor where it is no power of ten. */
const units = new Map<string, { unit: ValueUnit; power: number; factor?: bigint }>();

const addUnits = (unit: ValueUnit, names: readonly string[], allowed: string) => {
  for (const shown of allowed.split(' ')) {
    const prefix = shown === '_' ? '' : shown;
    for (const name of names) units.set(prefix + name, { unit, power: prefixes[prefix] ?? 0 });
  }
};
addUnits('ohm', ['Ω', 'ohm', 'ohms', 'Ohm'], 'm _ k K M');
addUnits('farad', ['F', 'f'], 'p n u μ');
addUnits('farad', ['F'], '_');
addUnits('henry', ['H', 'h'], 'n u μ m _');
addUnits('metre', ['m'], 'u μ m _');
addUnits('volt', ['V', 'v'], 'u μ m _ k');
addUnits('hertz', ['Hz', 'hz'], 'm _ k K M');
addUnits('ampere', ['A'], 'n u μ m _');
addUnits('ampere-hour', ['Ah'], 'm _');
addUnits('siemens', ['S'], 'n u μ m _');
for (const [name, unit, power] of [
  ['R', 'ohm', 0],
  ['k', 'ohm', 3],
  ['K', 'ohm', 3],
  ['M', 'ohm', 6],
  ['meg', 'ohm', 6],
  ['Meg', 'ohm', 6],
  ['p', 'farad', -12],
  ['n', 'farad', -9],
  ['u', 'farad', -6],
  ['μ', 'farad', -6],
  ['P', 'farad', -12],
  ['N', 'farad', -9],
  ['U', 'farad', -6],
  ['PF', 'farad', -12],
  ['NF', 'farad', -9],
  ['UF', 'farad', -6],
  ['cm', 'metre', -2],
  ['awg', 'awg', 0],
  ['AWG', 'awg', 0],
  ['%', 'percent', 0],
  ['dB', 'decibel', 0],
  ['db', 'decibel', 0],
  ['', 'count', 0],
] as const) {
  units.set(name, { unit, power });
}
units.set('in', { unit: 'metre', power: -4, factor: 254n });
units.set('ft', { unit: 'metre', power: -4, factor: 3048n });

/** Letters that stand for the decimal point, IEC 60062, and what they make of the number. */
const pointLetters: Readonly<Record<string, string>> = {
  R: 'R',
  r: 'R',
  Ω: 'R',
  k: 'k',
  K: 'k',
  M: 'M',
  p: 'p',
  P: 'p',
  n: 'n',
  N: 'n',
  u: 'u',
  U: 'u',
  μ: 'u',
};

/** Letters of tolerance, IEC 60062; J, K, M from memory, the rest common practice. */
const toleranceLetters: Readonly<Record<string, number>> = {
  B: 0.001,
  C: 0.0025,
  D: 0.005,
  F: 0.01,
  G: 0.02,
  J: 0.05,
  K: 0.1,
  M: 0.2,
};

/** Three digits in picofarad and a tolerance letter that is no unit besides. */
const threeDigits = /^(\d\d)(\d)([JG])$/;
/** The same where a capacitance is expected: any tolerance letter, or none. */
const threeDigitsOfACapacitor = /^([1-9]\d)([0-6])([BCDFGJKM]?)$/;

/** The double nearest to a decimal number shifted by a power of ten. */
function scaled(digits: string, power: number, factor = 1n): number {
  if (factor === 1n) return Number(`${digits}e${power}`);
  const [whole = '', fraction = ''] = digits.split('.');
  return Number(`${BigInt(whole + fraction) * factor}e${power - fraction.length}`);
}

function number(text: string): ParsedValue | undefined {
  const [, sign = '', digits = '', name = ''] = /^(-?)(\d+(?:\.\d+)?|\.\d+)([\p{L}%]*)$/u.exec(text) ?? [];
  const unit = units.get(name);
  if (digits === '' || !unit) return undefined;
  const value = scaled(digits, unit.power, unit.factor);
  return { value: sign !== '' && value !== 0 ? -value : value, unit: unit.unit };
}

function capacitorCode(text: string, form: RegExp): ParsedValue | undefined {
  const [, digits = '', power, letter = ''] = form.exec(text) ?? [];
  if (digits === '') return undefined;
  const tolerance = toleranceLetters[letter];
  return { value: scaled(digits, Number(power) - 12), unit: 'farad', ...(tolerance === undefined ? {} : { tolerance }) };
}

/** A wire's section as its gauge number: that of a round conductor with this section. */
function crossSection(text: string): ParsedValue | undefined {
  const [, digits] = /^(\d+(?:\.\d+)?|\.\d+)mm2$/.exec(text) ?? [];
  const area = Number(digits) * 1e-6;
  return digits === undefined || area <= 0 ? undefined : { value: gaugeOf(area), unit: 'awg' };
}

const tapers = { A: 'audio', B: 'linear', C: 'reverse-audio' } as const;

function withTaper(text: string): ParsedValue | undefined {
  const [, letter, rest = ''] = /^([ABC])(\d.*)$/.exec(text) ?? [];
  const value = number(rest) ?? letterForPoint(rest);
  if (value?.unit !== 'ohm' || !/[kKM]/.test(rest)) return undefined;
  return { ...value, taper: tapers[letter as keyof typeof tapers] };
}

function withVoltage(text: string): ParsedValue | undefined {
  const [, printed = '', rated = ''] = /^([^/]+)\/([\d.]+k?[vV])$/.exec(text) ?? [];
  const voltage = number(rated);
  if (!voltage) return undefined;
  // A bare number beside a voltage is printed in microfarad, three digits without a point in picofarad.
  const bare = /^\d*\.?\d+$/.test(printed) && number(printed + 'u');
  const value = capacitorCode(printed, threeDigitsOfACapacitor) ?? (bare ? bare : parseValue(printed, 'farad'));
  return value?.unit === 'farad' && value.voltage === undefined ? { ...value, voltage: voltage.value } : undefined;
}

function letterForPoint(text: string): ParsedValue | undefined {
  const [, whole, printed = '', fraction, tail = ''] = /^(\d*)([RrΩkKMpPnNuUμ])(\d+)([FHΩ]?)$/u.exec(text) ?? [];
  const letter = pointLetters[printed];
  if (letter === undefined) return undefined;
  const value = number(`${whole || '0'}.${fraction}${letter}`);
  const fits = { F: 'farad', H: 'henry', Ω: 'ohm' } as const;
  if (!value || tail === '' || fits[tail as keyof typeof fits] === value.unit) return value;
  return tail === 'H' && value.unit === 'farad' ? { ...value, unit: 'henry' } : undefined;
}

function withTolerance(text: string): ParsedValue | undefined {
  const [, printed = '', letter = ''] = /^(.*\D.*)([BCDFGJKM])$/u.exec(text) ?? [];
  const value = letterForPoint(printed) ?? number(printed);
  const tolerance = toleranceLetters[letter];
  if (tolerance === undefined || (value?.unit !== 'ohm' && value?.unit !== 'farad') || /[ΩF]|ohm/.test(printed)) return undefined;
  // Behind a lone unit letter only J and G are not read as a slip of the unit (`10kM`).
  if (!/\p{L}\d+$/u.test(printed) && !/[JGK]/.test(letter)) return undefined;
  return { ...value, tolerance };
}

/** Units as they are offered, the usual ones first. */
const offered = [
  'k',
  'R',
  'M',
  'nF',
  'pF',
  'uF',
  'H',
  'mH',
  'mm',
  'cm',
  'm',
  'in',
  'awg',
  'mm2',
  'V',
  'kHz',
  'Hz',
  '%',
  'mA',
  'A',
];

function nearestUnit(unit: string): string | undefined {
  const lower = unit.toLowerCase();
  const same = offered.find((name) => name.toLowerCase() === lower);
  if (same !== undefined) return same;
  const ranked = offered.map((name) => ({ name, distance: editDistance(lower, name.toLowerCase()) }));
  const best = Math.min(...ranked.map(({ distance }) => distance));
  return best <= (unit.length > 2 ? 2 : 1) ? ranked.find(({ distance }) => distance === best)?.name : undefined;
}
