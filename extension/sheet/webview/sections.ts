/** Sections of the sheet as elements: steps are rows with a box, lists are tables. */
import { endText, isRowDone, namedPieces, type Block, type Section, type TickRow } from '../../../language/workshop/index.js';
import { element } from './element.js';
import { readingField } from './readings.js';
import { t } from '../../preview/webview/texts.js';

/** Keys of the rows that are ticked. */
export interface Ticked {
  readonly here: ReadonlySet<string>;
  readonly inRecord: ReadonlySet<string>;
}

export function sectionOf({ title, blocks, isSub }: Section, done: Ticked): HTMLElement {
  const heading = isSub === true ? element('h3', {}, title) : element('h2', {}, title);
  return element('section', { 'aria-label': title }, heading, ...blocks.map((block) => blockOf(block, title, done)));
}

function blockOf(block: Block, title: string, done: Ticked): HTMLElement {
  switch (block.kind) {
    case 'text':
      return element('p', {}, block.text);
    case 'list':
      return element('ul', {}, ...block.items.map((item) => element('li', {}, item)));
    case 'ticks':
      return element('ul', { class: 'ticks' }, ...block.rows.map((row) => rowOf(row, done)));
    case 'table': {
      const head = (text: string): HTMLElement => (text === '' ? element('td', {}) : element('th', { scope: 'col' }, text));
      const { readings, blanks } = block;
      // A reading is typed where the paper has room to write it.
      const columns = readings === undefined || blanks !== undefined ? block.heads.length : block.heads.length - 1;
      const heads = readings === undefined ? block.heads : [...block.heads.slice(0, columns), t('reads')];
      const cellsOf = (cells: readonly string[], at: number): readonly (HTMLElement | string)[] => {
        if (readings === undefined) return cells;
        const place = readings[at] ?? null;
        return [...cells.slice(0, columns), place === null ? '' : readingField(place, cells[0] ?? '')];
      };
      const rows = block.rows.map((cells, at) =>
        element('tr', {}, ...cellsOf(cells, at).map((cell) => (typeof cell === 'string' ? element('td', {}, cell) : cell))),
      );
      const table = element(
        'table',
        {},
        element('thead', {}, element('tr', {}, ...heads.map(head))),
        element('tbody', {}, ...rows),
      );
      return element('div', { class: 'wide', role: 'region', 'aria-label': t('{0}, table', title), tabindex: 0 }, table);
    }
    case 'picture':
      // The panel's sheet is asked for without its drawing, which comes as a scene.
      throw new TypeError(block.kind);
  }
}

function rowOf(row: TickRow, done: Ticked): HTMLElement {
  const { key, number, text, ends, minding, isTest, isHead, isDone, names } = row;
  const isRecorded = isDone === true || isRowDone(row, done.inRecord);
  if (isHead === true) return element('li', { class: 'head' }, text);
  const box = element('input', { type: 'checkbox', 'data-key': key });
  box.checked = isRecorded || done.here.has(key);
  // What the record says is taken back in the record.
  if (isRecorded) {
    box.disabled = true;
    box.title = t('ticked in the record');
  }
  const pieces = namedPieces(text, names ?? []).map((piece) => (piece.isName ? element('b', {}, piece.text) : piece.text));
  const words = [
    ...(number === '' ? [] : [element('span', { class: 'number' }, `${number}.`), ' ']),
    element('span', { class: 'text' }, ...pieces),
    ...(ends ?? []).flatMap((end) => [' ', element('span', { class: 'end' }, endText(end))]),
    ...(minding === undefined ? [] : [' ', element('span', { class: 'minding' }, minding)]),
  ];
  const label = element('label', {}, box, element('span', {}, ...words));
  return element('li', isTest ? { class: 'test' } : {}, label);
}
