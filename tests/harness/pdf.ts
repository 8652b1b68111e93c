/** What is drawn on the pages of a PDF, read from its content streams: filled rectangles and closed curves, in millimetres. */
import { inflateSync } from 'node:zlib';

/** A shape's bounds, millimetres, as the page counts them: X from the left, Y from below. */
export interface Shape {
  readonly kind: 'rectangle' | 'curve';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PdfPage {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

type Matrix = readonly [number, number, number, number, number, number];

/** A point of PDF is 1/72 of an inch (ISO 32000-1, 8.3.2.3). */
const MILLIMETRE = 25.4 / 72;

/** The pages in order. Throws where the file is not laid out as Chromium writes it. */
export function pagesOfPdf(pdf: Buffer): readonly PdfPage[] {
  const text = pdf.toString('latin1');
  const objects = new Map<string, string>();
  for (const [, id = '', body = ''] of text.matchAll(/(?:^|\n)(\d+) 0 obj\n([^]*?)\nendobj/g)) objects.set(id, body);
  const pages = [...objects.values()].filter((body) => /\/Type\s*\/Page\b/.test(body));
  if (pages.length === 0) throw new Error('No page was found in the PDF.');
  return pages.map((body) => {
    const [, width, height] = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(body) ?? [];
    const content = objects.get(/\/Contents (\d+) 0 R/.exec(body)?.[1] ?? '');
    if (width === undefined || height === undefined || content === undefined) throw new Error('A page without size or content.');
    return { width: Number(width) * MILLIMETRE, height: Number(height) * MILLIMETRE, shapes: shapesIn(streamOf(content)) };
  });
}

function streamOf(body: string): string {
  const start = body.indexOf('stream\n') + 'stream\n'.length;
  const bytes = Buffer.from(body.slice(start, body.lastIndexOf('\nendstream')), 'latin1');
  return (body.includes('/FlateDecode') ? inflateSync(bytes) : bytes).toString('latin1');
}

function shapesIn(content: string): Shape[] {
  const shapes: Shape[] = [];
  const saved: Matrix[] = [];
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  let figures: number[] = [];
  let points: (readonly [number, number])[] = [];
  let isCurved = false;
  const at = (x = 0, y = 0): void => {
    const [a, b, c, d, e, f] = matrix;
    points.push([(a * x + c * y + e) * MILLIMETRE, (b * x + d * y + f) * MILLIMETRE]);
  };
  const painted = (): void => {
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    if (points.length > 2)
      shapes.push({ kind: isCurved ? 'curve' : 'rectangle', x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y });
  };
  const operators: Readonly<Record<string, () => void>> = {
    q: () => saved.push(matrix),
    Q: () => {
      matrix = saved.pop() ?? matrix;
    },
    cm: () => {
      matrix = times(figures as unknown as Matrix, matrix);
    },
    m: () => at(figures[0], figures[1]),
    l: () => at(figures[0], figures[1]),
    // The end of each quarter of a circle lies on its bounds; the two points between do not lie on it.
    c: () => {
      isCurved = true;
      at(figures[4], figures[5]);
    },
    re: () => {
      const [x = 0, y = 0, width = 0, height = 0] = figures;
      at(x, y);
      at(x + width, y);
      at(x + width, y + height);
      at(x, y + height);
    },
  };
  for (const token of content.replace(/\((?:\\.|[^\\)])*\)|<[\dA-Fa-f]*>/g, '').split(/\s+/)) {
    if (/^[-+.\d]/.test(token)) {
      figures.push(Number(token));
      continue;
    }
    if (['f', 'f*', 'F', 'S', 's', 'B', 'n'].includes(token)) {
      if (token !== 'n') painted();
      points = [];
      isCurved = false;
    } else operators[token]?.();
    figures = [];
  }
  return shapes;
}

function times([a, b, c, d, e, f]: Matrix, [A, B, C, D, E, F]: Matrix): Matrix {
  return [a * A + b * C, a * B + b * D, c * A + d * C, c * B + d * D, e * A + f * C + E, e * B + f * D + F];
}
