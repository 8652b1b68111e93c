/** A drawing as the figures of a printed document, each of which fits on a page of A4 and of Letter. */
import type { Drawing } from '../draw.js';
import { figure, printPages } from '../pages/index.js';
import type { SheetNotes } from '../scene/notes.js';
import { renderSvg } from './svg.js';

/** One SVG a page, with its size in millimetres; ids differ from page to page, so that all can be in one document. */
export function figuresOf(drawing: Pick<Drawing, 'scene' | 'diagram'>, sheet: SheetNotes = {}): readonly string[] {
  return printPages(drawing, { paper: figure, sheet }).map((page, index) =>
    renderSvg(page.scene, { scheme: 'light', paper: page, idPrefix: `wiring-${index + 1}-` }),
  );
}
