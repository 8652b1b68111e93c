/** Pages: a drawing on paper, on one sheet where its letters can be read there, else as an overview and the pages of an atlas. */
import type { Drawing } from '../draw.js';
import { isWithin } from '../geometry.js';
import type { SheetNotes } from '../scene/notes.js';
import type { Picture } from '../scene.js';
import { type Block, blocksOf } from './blocks.js';
import { detailPicture } from './detail.js';
import { leastScale, onPaper, type PageTexts, type PrintPage, roomFor, trimmed } from './fit.js';
import { overviewPicture } from './overview.js';
import { figure, leastPoints, type Paper, papers } from './paper.js';
import { partition } from './partition.js';
import { extentOf, type Sheet, sheetOf, type Window, windowOf } from './window.js';

export { figure, leastPoints, type Paper, papers, type PrintPage };

export interface PrintOptions {
  readonly paper: Paper;
  readonly sheet?: SheetNotes;
  /** A line for the title block, the setting that is shown. */
  readonly says?: string;
}

/** The letters that a part or a wire bears, in drawing units. */
const smallest = 11;
/** A little more than the least, for what rounding takes. */
const ease = 1.002;

/** The smallest text in points where the whole drawing is on one sheet of any of these. */
export function pointsOnOne(drawing: Pick<Drawing, 'scene' | 'diagram'>, { sheet = {} }: Pick<PrintOptions, 'sheet'>): number {
  const picture = trimmed(drawing.scene);
  const on = (paper: Paper): number => onPaper({ drawing, sheet, lines: [] }, paper, () => ({ picture, textScale: 1 })).points;
  return Math.min(...Object.values(papers).map(on));
}

/** The drawing's pages; of several the first is the overview. No part is cut; a wire that leaves a page says where it goes on. */
export function printPages(drawing: Pick<Drawing, 'scene' | 'diagram'>, { paper, sheet = {}, says }: PrintOptions): PrintPage[] {
  const own = says === undefined ? [] : [says];
  const picture = trimmed(drawing.scene);
  const texts = (lines: readonly string[]): PageTexts => ({ drawing, sheet, lines: [...own, ...lines] });
  const one = onPaper(texts([]), paper, () => ({ picture, textScale: 1 }));
  if (one.points >= leastPoints) return [one];
  const all = sheetOf(picture, blocksOf(picture));
  const rooms = roomFor(texts(['Page 99 of 99']), paper, withEveryNote(picture), ease * leastScale(smallest));
  const windows = windowsOf(all, (window) => {
    const { width, height } = extentOf(window);
    return rooms.some((room) => width <= room.width && height <= room.height);
  });
  if (windows.length === 1) return [one];
  const numbers = new Map(windows.flatMap(({ blocks }, index) => [...blocks].map((block) => [block, index + 2] as const)));
  const pageOf = (block: number | undefined): number => (block === undefined ? 1 : (numbers.get(block) ?? 1));
  const count = windows.length + 1;
  const details = windows.map((window, index) => {
    const shown = detailPicture(all, window, pageOf);
    return onPaper(texts([`Page ${index + 2} of ${count}`]), paper, () => ({ picture: shown, textScale: 1 }));
  });
  return [overviewOn(texts([`Page 1 of ${count}: overview`]), paper, all.blocks, picture, windows), ...details];
}

/** A picture in which a page's notes are as high as on any page. */
function withEveryNote(picture: Picture): Picture {
  const leaving = { id: 'leaves:', lug: '', says: '', shapes: [], labels: [] };
  return { ...picture, marks: [...picture.marks, leaving] };
}

function windowsOf(sheet: Sheet, fits: (window: Window) => boolean): Window[] {
  const groups = groupsOf(sheet);
  const pages = partition(
    sheet.blocks.map(({ body }) => body),
    (indices) => {
      // The whole drawing did not fit: outlines reach beyond the parts, so that their own boxes alone would.
      if (indices.length === sheet.blocks.length) return Infinity;
      const window = windowOf(sheet, indices);
      if (!fits(window)) return Infinity;
      const torn = groups.filter(
        (group) => group.some((block) => window.blocks.has(block)) && !group.every((block) => window.blocks.has(block)),
      );
      return 1000 + window.cuts.length + 20 * torn.length;
    },
  );
  return pages.map((indices) => windowOf(sheet, indices)).sort(inReadingOrder);
}

/** Blocks in each plate and cavity: those of one stay together where nothing is against it. */
function groupsOf({ picture, blocks }: Sheet): number[][] {
  return picture.groups.map(({ shapes }) =>
    blocks.flatMap(({ body }, index) => (shapes.some((shape) => shape.kind === 'box' && isWithin(body, shape)) ? [index] : [])),
  );
}

/** From above, then from the left. */
function inReadingOrder({ box: a }: Window, { box: b }: Window): number {
  const middle = (box: typeof a): number => box.y + box.height / 2;
  if (middle(a) > b.y && middle(a) < b.y + b.height) return a.x - b.x;
  return middle(a) - middle(b);
}

function overviewOn(
  texts: PageTexts,
  paper: Paper,
  blocks: readonly Block[],
  picture: Picture,
  windows: readonly Window[],
): PrintPage {
  const pages = windows.map(({ box }, index) => ({ number: index + 2, box }));
  return onPaper(texts, paper, (scale) => {
    const textScale = Math.max(1, (ease * leastScale(1)) / scale / smallest);
    return { picture: overviewPicture(picture, blocks, pages, smallest * textScale), textScale };
  });
}
