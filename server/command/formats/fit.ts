/** The values that a fit found, as text, JSON and a picture: measured, fitted, and what is left between them. */
import { amount } from '../../../language/circuit/index.js';
import { escapeXml, oneLine } from '../../../language/escape.js';
import { computed, type Curve, type Fit, type FittedValue, type ValueName } from '../../../language/fit/index.js';
import { decibels, hertz, sixFigures, thousandths } from '../output/figures.js';
import { decadeMarks } from '../output/plot.js';
import { textTable } from '../output/table.js';

/** What a fit is shown of. */
export interface FitShown {
  readonly name: string;
  readonly fit: Fit;
  /** The measured curves by the names of their files. */
  readonly curves: readonly (Curve & { readonly file: string })[];
  /** Sentences on what the data say and don't say. */
  readonly remarks: readonly string[];
}

const units = {
  resistance: 'ohm',
  inductance: 'henry',
  capacitance: 'farad',
  loss: 'ohm',
  'eddy-inductance': 'percent',
  'eddy-resistance': 'ohm',
} as const;

/** `part neck : single-coil { resistance 6.31k, … }`. */
export function partLine({ name, fit }: Pick<FitShown, 'name' | 'fit'>): string {
  return `part ${name} : single-coil { ${fit.values.map((one) => `${one.name} ${written(one.name, one.value)}`).join(', ')} }`;
}

export function fitText(shown: FitShown): string {
  const { fit, curves, remarks } = shown;
  const values = textTable({
    heads: ['value', 'found', 'from … to (95 %)', 'by'],
    rows: fit.values.map((one) => [one.name, written(one.name, one.value), rangeText(one), origins[one.origin]]),
  });
  const tables = curves.map((curve) => {
    const { measured } = curve;
    const points = spread(measured.hz.length, 16);
    const rest = restOf(fit, curve);
    const heads =
      measured.kind === 'response'
        ? ['frequency', 'measured', 'fitted', 'left']
        : ['frequency', 'measured', 'fitted', 'left', 'angle', 'fitted'];
    const found = computed(fit.pickup, curve);
    const rows = points.map((i) => {
      const left = decibels(rest[i] ?? 0, true);
      if (measured.kind === 'response')
        return [hertz(measured.hz[i] ?? 0), decibels(measured.db[i] ?? 0), decibels(found.db[i] ?? 0), left];
      const [ohm, deg] = [measured.ohm[i] ?? 0, measured.deg[i] ?? 0];
      return [
        hertz(measured.hz[i] ?? 0),
        amount(ohm, 'ohm'),
        amount(found.ohm[i] ?? 0, 'ohm'),
        left,
        `${deg.toFixed(1)}°`,
        `${(found.deg[i] ?? 0).toFixed(1)}°`,
      ];
    });
    return `${oneLine(curve.file)}: left between measurement and fit ${decibels(worst(rest))} at most, ${decibels(rootMeanSquare(rest), false)} in the mean\n\n${textTable({ heads, rows })}`;
  });
  return [partLine(shown), values.trimEnd(), ...remarks, ...tables.map((one) => one.trimEnd())].join('\n\n') + '\n';
}

const origins = { fitted: 'the data', stated: 'you', usual: 'the usual range; the data leave it open' } as const;

export function fitJson(shown: FitShown): string {
  const { fit, curves, remarks } = shown;
  return `${JSON.stringify(
    {
      part: partLine(shown),
      values: fit.values.map(({ name, value, origin, low, high }) => ({
        name,
        value: figure(value),
        origin,
        ...(low === undefined || high === undefined ? {} : { low: figure(low), high: figure(high) }),
      })),
      remarks,
      curves: curves.map((curve) => {
        const rest = restOf(fit, curve);
        return {
          file: curve.file,
          kind: curve.measured.kind,
          points: curve.measured.hz.map((hz, i) => ({ hz: sixFigures(hz), left_db: thousandths(rest[i] ?? 0) })),
        };
      }),
    },
    null,
    2,
  )}\n`;
}

/** In the form of a part line, with three figures: `7.35k`, `125pF`, `12.4%`. */
function written(name: ValueName, value: number): string {
  if (name === 'eddy-inductance') return `${(value * 100).toPrecision(3)}%`;
  const text = amount(value, units[name]).replace(' ', '').replace('Ω', '');
  return /\d$/.test(text) ? `${text}R` : text;
}

function rangeText({ name, low, high }: FittedValue): string {
  return low === undefined || high === undefined ? '' : `${written(name, low)} … ${written(name, high)}`;
}

function figure(value: number): number {
  return Number(value.toPrecision(6));
}

/** Fitted minus measured, dB; of an impedance that of its size. */
function restOf(fit: Fit, curve: Curve): readonly number[] {
  const found = computed(fit.pickup, curve);
  const { measured } = curve;
  return measured.kind === 'response'
    ? measured.db.map((db, i) => (found.db[i] ?? 0) - db)
    : measured.ohm.map((ohm, i) => 20 * Math.log10((found.ohm[i] ?? ohm) / ohm));
}

function worst(values: readonly number[]): number {
  return Math.max(0, ...values.map(Math.abs));
}

function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / Math.max(values.length, 1));
}

/** At most so many of the points, evenly. */
function spread(points: number, most: number): readonly number[] {
  if (points <= most) return Array.from({ length: points }, (_, i) => i);
  return Array.from({ length: most }, (_, i) => Math.round((i * (points - 1)) / (most - 1)));
}

const width = 760;
const frame = { left: 74, right: 736, top: 84 };
const panel = { high: 260, low: 90, gap: 40 };

/** Each curve in a panel, measured as dots and fitted as a line, and below it what is left between them. */
export function fitSvg(shown: FitShown): string {
  const { fit, curves, name } = shown;
  const each = panel.high + panel.low + 2 * panel.gap + 30;
  const height = frame.top + curves.length * each;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-labelledby="title about">
<title id="title">${escapeXml(`Values of ${name} from measured curves`)}</title>
<desc id="about">${escapeXml([partLine(shown), ...shown.remarks].join(' '))}</desc>
<style>
svg { background: #ffffff; font: 13px system-ui, sans-serif; }
text { fill: #1c1c1c; } .head { font-size: 16px; font-weight: 600; } .faint { fill: #5a5a5a; }
.grid { stroke: #d8d8d8; } .frame { fill: none; stroke: #5a5a5a; }
.curve { fill: none; stroke: #0b5cad; stroke-width: 2; stroke-linejoin: round; } .dot { fill: #1c1c1c; } .left { fill: none; stroke: #a33c00; stroke-width: 1.5; }
@media (prefers-color-scheme: dark) {
svg { background: #1b1b1b; } text { fill: #ececec; } .faint { fill: #b0b0b0; }
.grid { stroke: #3a3a3a; } .frame { stroke: #9a9a9a; }
.curve { stroke: #6cb6ff; } .dot { fill: #ececec; } .left { stroke: #ff9d5c; }
}
</style>
<text class="head" x="${frame.left}" y="26">${escapeXml(`Values of ${name} from measured curves`)}</text>
${[fit.values.slice(0, 3), fit.values.slice(3)].map((some, i) => valuesLine(some, 48 + 18 * i)).join('\n')}
${curves.map((curve, i) => curvePanels(fit, curve, frame.top + i * each)).join('\n')}
</svg>
`;
}

function valuesLine(values: readonly FittedValue[], y: number): string {
  const words = values.map((one) => `${one.name} ${written(one.name, one.value)}`).join(', ');
  return `<text class="faint" x="${frame.left}" y="${y}">${escapeXml(words)}</text>`;
}

function curvePanels(fit: Fit, curve: FitShown['curves'][number], top: number): string {
  const { measured, file } = curve;
  const found = computed(fit.pickup, curve);
  const isResponse = measured.kind === 'response';
  const sizes = isResponse ? measured.db : measured.ohm.map((ohm) => 20 * Math.log10(ohm / 1000));
  const line = isResponse ? found.db : found.ohm.map((ohm) => 20 * Math.log10(ohm / 1000));
  const rest = restOf(fit, curve);
  const most = Math.max(1, Math.ceil(worst(rest)));
  const words = isResponse ? 'level, dB' : 'impedance, dB over 1 kΩ';
  return [
    `<text class="faint" x="${frame.left}" y="${top + 14}">${escapeXml(file)}</text>`,
    plot(measured.hz, {
      top: top + 22,
      height: panel.high,
      words,
      range: rangeOf([...sizes, ...line]),
      dots: sizes,
      line,
      kind: 'curve',
    }),
    plot(measured.hz, {
      top: top + 22 + panel.high + panel.gap,
      height: panel.low,
      words: 'left, dB',
      range: [-most, most],
      dots: [],
      line: rest,
      kind: 'left',
    }),
  ].join('\n');
}

interface Plot {
  readonly top: number;
  readonly height: number;
  readonly words: string;
  readonly range: readonly [low: number, high: number];
  readonly dots: readonly number[];
  readonly line: readonly number[];
  readonly kind: 'curve' | 'left';
}

function plot(hz: readonly number[], { top, height, words, range: [low, high], dots, line, kind }: Plot): string {
  const [from, to] = [Math.min(...hz), Math.max(...hz)];
  const x = (at: number): string =>
    (frame.left + ((frame.right - frame.left) * Math.log(at / from)) / Math.log(to / from)).toFixed(1);
  const y = (db: number): string => (top + (height * (high - db)) / (high - low)).toFixed(1);
  const bottom = top + height;
  const step = kind === 'left' ? high : 6;
  const levels = Array.from({ length: Math.round((high - low) / step) + 1 }, (_, i) => high - i * step);
  return [
    ...decadeMarks(from, to).map(
      (mark) =>
        `<line class="grid" x1="${x(mark.hz)}" y1="${top}" x2="${x(mark.hz)}" y2="${bottom}"/><text x="${x(mark.hz)}" y="${bottom + 18}" text-anchor="middle">${mark.label}</text>`,
    ),
    ...levels.map(
      (db) =>
        `<line class="grid" x1="${frame.left}" y1="${y(db)}" x2="${frame.right}" y2="${y(db)}"/><text x="${frame.left - 8}" y="${(Number(y(db)) + 4).toFixed(1)}" text-anchor="end">${db > 0 ? '+' : ''}${db}</text>`,
    ),
    `<rect class="frame" x="${frame.left}" y="${top}" width="${frame.right - frame.left}" height="${height}"/>`,
    ...dots.map((db, i) => `<circle class="dot" cx="${x(hz[i] ?? from)}" cy="${y(db)}" r="2.5"/>`),
    `<polyline class="${kind}" points="${line.map((db, i) => `${x(hz[i] ?? from)},${y(db)}`).join(' ')}"/>`,
    `<text transform="translate(22 ${top + height / 2}) rotate(-90)" text-anchor="middle">${words}</text>`,
  ].join('\n');
}

/** Whole steps of 6 dB around all of it. */
function rangeOf(values: readonly number[]): readonly [number, number] {
  return [6 * Math.floor(Math.min(...values) / 6), 6 * Math.ceil(Math.max(...values) / 6)];
}
