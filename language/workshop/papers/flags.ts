/** Wire flags: for each end of each wire a strip with its number and where that end goes, to fold round the wire. */
import type { Build } from '../build.js';
import { countSaid } from '../lists/buy-list.js';
import { cutList } from '../lists/lists.js';
import { line, linesOf, PAGE, pageSvg, rect, SMALLEST, text } from './paper.js';

/** One flag. Both halves say the same, so that it is read from either side. */
export interface Flag {
  /** The wire's number on the cut list. */
  readonly mark: string;
  /** The lug that this end goes to. */
  readonly to: string;
}

/** Two for each wire of the cut list, in its order. */
export function wireFlags(build: Build): readonly Flag[] {
  return cutList(build).flatMap(({ cuts }) =>
    cuts.flatMap(({ mark, from, to }) => [
      { mark, to: from },
      { mark, to },
    ]),
  );
}

/** Millimetres: a half, the strip between the halves that lies round the wire, and the height. */
const HALF = 28;
const WRAP = 5;
const HEIGHT = 9;
const COLUMNS = 3;
const TOP = 24;
const ROWS = Math.floor((PAGE.height - TOP) / HEIGHT);

/** Pages of flags, as many on each as fit. */
export function flagPages(build: Build): readonly string[] {
  const flags = wireFlags(build);
  if (flags.length === 0)
    return [pageSvg([text(0, 5, 'Wire flags: no wire of this circuit is cut off the reel.', { size: 4, bold: true })])];
  const pages: string[] = [];
  const perPage = COLUMNS * ROWS;
  for (let from = 0; from < flags.length; from += perPage) {
    const here = flags.slice(from, from + perPage);
    const sets = countSaid(build) === '' ? '' : `Print one set for each of the ${build.count} instruments.`;
    const head = [
      text(0, 5, `Wire flags${flags.length > perPage ? `, page ${pages.length + 1}` : ''}`, { size: 5, bold: true }),
      text(
        0,
        11,
        'Cut along the solid lines. Put the wire in the strip between the dashed lines, fold the halves together, and glue them.',
      ),
      text(0, 15.5, 'Each end of a wire has a flag with its number on the cut list and the lug that this end goes to.'),
      ...(sets === '' ? [] : [text(0, 20, sets)]),
    ];
    pages.push(pageSvg([...head, ...here.flatMap(flagAt)]));
  }
  return pages;
}

function flagAt({ mark, to }: Flag, index: number): string[] {
  const width = 2 * HALF + WRAP;
  const x = (index % COLUMNS) * width;
  const y = TOP + Math.floor(index / COLUMNS) * HEIGHT;
  const half = (left: number): string[] => {
    const oneLine = linesOf(to, 2.6, HALF - 2, 2);
    const [size, lines] = oneLine.length === 1 ? [2.6, oneLine] : [SMALLEST, linesOf(to, SMALLEST, HALF - 2, 2)];
    const middle = left + HALF / 2;
    return [
      text(middle, y + 3.4, `${mark} →`, { size: 3, bold: true, anchor: 'middle' }),
      ...lines.map((words, row) =>
        text(middle, y + (lines.length === 1 ? 7 : 5.9 + row * 2.3), words, { size, anchor: 'middle' }),
      ),
    ];
  };
  return [
    rect(x, y, width, HEIGHT),
    line({ x: x + HALF, y }, { x: x + HALF, y: y + HEIGHT }, 0.15, '0.8 0.6'),
    line({ x: x + HALF + WRAP, y }, { x: x + HALF + WRAP, y: y + HEIGHT }, 0.15, '0.8 0.6'),
    ...half(x),
    ...half(x + HALF + WRAP),
  ];
}
