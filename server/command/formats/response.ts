/** A frequency response as a small plot on the terminal, as JSON and as comma-separated values. */
import { firstOf, lastOf } from '../../../language/collections.js';
import type { Response } from '../../../language/electrics/index.js';
import { decibels, hertz, sixFigures, thousandths } from '../output/figures.js';
import { decadeMarks, levelAt, plotRange, silence } from '../output/plot.js';
import { csvTable } from '../output/table.js';

/** The JSON that the language's contract fixes. */
export function responseJson(response: Response, set: Readonly<Record<string, string>>): string {
  return `${JSON.stringify(
    {
      set,
      points: response.points.map(({ hz, db, deg }) => ({ hz: sixFigures(hz), db: thousandths(db), deg: thousandths(deg) })),
      peak: response.peak ? { hz: sixFigures(response.peak.hz), db: thousandths(response.peak.db) } : null,
      cutoff_hz: response.cutoffHz === null ? null : sixFigures(response.cutoffHz),
    },
    null,
    2,
  )}\n`;
}

export function responseCsv({ points }: Response): string {
  return csvTable({
    heads: ['hz', 'db', 'deg'],
    rows: points.map(({ hz, db, deg }) => [sixFigures(hz), thousandths(db), thousandths(deg)].map(String)),
  });
}

/** Level, peak and corner in words, then the plot in as many columns as there are, 100 at most. */
export function responseText(response: Response, columns: number): string {
  if (response.points.length === 0) return `${response.problem ?? 'No frequency was asked for.'}\n`;
  if (response.points.every(({ db }) => db <= silence)) return 'Silent: no signal reaches the amplifier in this setting.\n';
  const { peak, cutoffHz, levelDb } = response;
  const words =
    levelDb === null
      ? ['thin: the coils cancel each other']
      : [
          `level ${decibels(levelDb, true)}`,
          peak ? `peak ${decibels(peak.db, true)} above it at ${hertz(peak.hz)}` : 'no peak',
          cutoffHz === null ? 'no -3 dB corner in the band' : `-3 dB at ${hertz(cutoffHz)}`,
        ];
  return `${words.join(', ')}\n\n${responsePlot(response.points, columns)}`;
}

/** The plot in as many columns as there are, 100 at most: rows of 3 dB from the top down, one mark a column. */
export function responsePlot(points: Response['points'], columns: number): string {
  const width = Math.max(24, Math.min(100, columns) - 10);
  const { top, bottom } = plotRange(points, 36);
  const step = 3;
  const rows = Array.from({ length: (top - bottom) / step + 1 }, () => Array<string>(width).fill(' '));
  const [lowest, highest] = [firstOf(points).hz, lastOf(points).hz];
  const from = Math.log(lowest);
  const span = Math.log(highest) - from;
  for (let column = 0; column < width; column++) {
    const db = levelAt(points, Math.exp(from + (span * column) / (width - 1)));
    const row = rows[Math.round((top - db) / step)];
    if (row !== undefined) row[column] = '*';
  }
  const lines = rows.map((cells, index) => {
    const db = top - index * step;
    const label = db % 6 === 0 ? `${db > 0 ? '+' : ''}${db} dB` : '';
    return `${label.padStart(7)} |${cells.join('')}`.trimEnd();
  });
  const axis = Array<string>(width).fill('-');
  const legend = Array<string>(width + 8).fill(' ');
  for (const { hz, label } of decadeMarks(lowest, highest)) {
    const column = Math.round(((Math.log(hz) - from) / span) * (width - 1));
    axis[column] = '+';
    const begin = Math.max(0, Math.min(legend.length - label.length, column - Math.floor(label.length / 2)));
    if (legend.slice(Math.max(0, begin - 1), begin + label.length + 1).every((cell) => cell === ' ')) {
      legend.splice(begin, label.length, ...label);
    }
  }
  return [...lines, `${' '.repeat(8)}+${axis.join('')}`, `${' '.repeat(9)}${legend.join('')}`.trimEnd(), ''].join('\n');
}
