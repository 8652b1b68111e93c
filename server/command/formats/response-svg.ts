/** A frequency response as a picture that stands by itself: SVG with both axes labelled, light and dark. */
import { firstOf, lastOf } from '../../../language/collections.js';
import { escapeXml } from '../../../language/escape.js';
import type { Response, ResponsePoint } from '../../../language/electrics/index.js';
import { decibels, hertz } from '../output/figures.js';
import { decadeMarks, plotRange, silence } from '../output/plot.js';

const width = 760;
const height = 440;
const frame = { left: 74, right: 736, top: 66, bottom: 380 };

/** What a curve that is no usual response says of itself, and the points on it that are marked. */
export interface OwnWords {
  readonly words: string;
  readonly marks: readonly ResponsePoint[];
}

export function responseSvg(response: Response, title: string, label: string, own?: OwnWords): string {
  const { points, peak } = response;
  const words = own?.words ?? inWords(response);
  if (points.length === 0) return withoutCurve(words, title, label);
  const from = firstOf(points).hz;
  const to = lastOf(points).hz;
  const { top, bottom } = plotRange(points, 60);
  const x = (hz: number) => frame.left + ((frame.right - frame.left) * Math.log(hz / from)) / Math.log(to / from);
  const y = (db: number) => frame.top + ((frame.bottom - frame.top) * (top - db)) / (top - bottom);
  const curve = points.map(({ hz, db }) => `${x(hz).toFixed(1)},${y(Math.max(db, bottom)).toFixed(1)}`).join(' ');
  const levels = Array.from({ length: (top - bottom) / 6 + 1 }, (_, index) => top - 6 * index);
  const marks = (own?.marks ?? []).filter(({ hz, db }) => hz >= from && hz <= to && db >= bottom);
  const isShown = peak !== null && peak.hz >= from && peak.hz <= to;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-labelledby="title about">
<title id="title">${escapeXml(`${title}: ${label}`)}</title>
<desc id="about">${escapeXml(words)}</desc>
<style>
svg { background: #ffffff; font: 13px system-ui, sans-serif; }
text { fill: #1c1c1c; } .head { font-size: 16px; font-weight: 600; } .faint { fill: #5a5a5a; }
.grid { stroke: #d8d8d8; } .main { stroke: #a8a8a8; } .frame { fill: none; stroke: #5a5a5a; }
.curve { fill: none; stroke: #0b5cad; stroke-width: 2; stroke-linejoin: round; } .peak { fill: #0b5cad; }
@media (prefers-color-scheme: dark) {
svg { background: #1b1b1b; } text { fill: #ececec; } .faint { fill: #b0b0b0; }
.grid { stroke: #3a3a3a; } .main { stroke: #5e5e5e; } .frame { stroke: #9a9a9a; }
.curve { stroke: #6cb6ff; } .peak { fill: #6cb6ff; }
}
</style>
<text class="head" x="${frame.left}" y="26">${escapeXml(title)}</text>
<text class="faint" x="${frame.left}" y="48">${escapeXml(label)}</text>
${decadeMarks(from, to)
  .map((mark) => vertical(x(mark.hz), mark.label, mark.isMain))
  .join('\n')}
${levels.map((db) => horizontal(y(db), `${db > 0 ? '+' : ''}${db}`, db === 0)).join('\n')}
<rect class="frame" x="${frame.left}" y="${frame.top}" width="${frame.right - frame.left}" height="${frame.bottom - frame.top}"/>
<polyline class="curve" points="${curve}"/>${marks.map(({ hz, db }) => `\n<circle class="peak" cx="${x(hz).toFixed(1)}" cy="${y(db).toFixed(1)}" r="2.5"/>`).join('')}
${isShown ? peakMark(x(peak.hz), y(levelOf(response)), `${hertz(peak.hz)}, ${decibels(peak.db, true)}`) : ''}
<text x="${(frame.left + frame.right) / 2}" y="${height - 14}" text-anchor="middle">frequency, Hz (logarithmic)</text>
<text transform="translate(22 ${(frame.top + frame.bottom) / 2}) rotate(-90)" text-anchor="middle">level, dB against one unloaded pickup</text>
</svg>
`;
}

function withoutCurve(about: string, title: string, label: string): string {
  const words = escapeXml(about);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} 100" width="${width}" height="100" role="img" aria-labelledby="title about">
<title id="title">${escapeXml(`${title}: ${label}`)}</title>
<desc id="about">${words}</desc>
<rect width="100%" height="100%" fill="#ffffff"/>
<text x="${frame.left}" y="26" font-family="system-ui, sans-serif" font-weight="600">${escapeXml(title)}</text>
<text x="${frame.left}" y="56" font-family="system-ui, sans-serif">${words}</text>
</svg>
`;
}

function levelOf({ peak, levelDb }: Response): number {
  return (levelDb ?? 0) + (peak?.db ?? 0);
}

function vertical(x: number, label: string, isMain: boolean): string {
  const at = x.toFixed(1);
  return `<line class="${isMain ? 'main' : 'grid'}" x1="${at}" y1="${frame.top}" x2="${at}" y2="${frame.bottom}"/><text x="${at}" y="${frame.bottom + 18}" text-anchor="middle">${label}</text>`;
}

function horizontal(y: number, label: string, isMain: boolean): string {
  const at = y.toFixed(1);
  return `<line class="${isMain ? 'main' : 'grid'}" x1="${frame.left}" y1="${at}" x2="${frame.right}" y2="${at}"/><text x="${frame.left - 8}" y="${(y + 4).toFixed(1)}" text-anchor="end">${label}</text>`;
}

/** The words stand on the side where there is room. */
function peakMark(x: number, y: number, words: string): string {
  const isRight = x > (frame.left + frame.right) / 2;
  const at = `x="${(isRight ? x - 9 : x + 9).toFixed(1)}" y="${(y - 7).toFixed(1)}" text-anchor="${isRight ? 'end' : 'start'}"`;
  return `<circle class="peak" cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="4"/><text ${at}>${escapeXml(words)}</text>`;
}

function inWords({ points, peak, cutoffHz, levelDb, problem }: Response): string {
  if (points.length === 0) return `${problem ?? 'No frequency was asked for'}.`;
  if (points.every(({ db }) => db <= silence)) return 'Silent in this setting.';
  if (levelDb === null) return 'Thin: the coils cancel each other.';
  const parts = [`Level ${decibels(levelDb)}`];
  if (peak) parts.push(`peak ${decibels(peak.db, true)} above it at ${hertz(peak.hz)}`);
  if (cutoffHz !== null) parts.push(`3 dB down at ${hertz(cutoffHz)}`);
  return `${parts.join(', ')}.`;
}
