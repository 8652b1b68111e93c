/** Sections of the sheet as elements: steps are rows with a box, lists are tables. */
import { endText, namedPieces, type Block, type Section, type TickRow } from '../../../language/workshop/index.js';
import { element } from './element.js';
import { readingField } from './readings.js';
import { t } from '../../preview/webview/texts.js';

export function sectionOf({ title, blocks, isSub }: Section, done: ReadonlySet<string>): HTMLElement {
  const heading = isSub === true ? element('h3', {}, title) : element('h2', {}, title);
  return element('section', { 'aria-label': title }, heading, ...blocks.map((block) => blockOf(block, title, done)));
}

function blockOf(block: Block, title: string, done: ReadonlySet<string>): HTMLElement {
  switch (block.kind) {
    case 'text':
      return element('p', {}, block.text);
    case 'list':
      return element('ul', {}, ...block.items.map((item) => element('li', {}, item)));
    case 'ticks':
      return element('ul', { class: 'ticks' }, ...block.rows.map((row) => rowOf(row, done.has(row.key) || row.isDone === true)));
    case 'table': {
      const head = (text: string): HTMLElement => (text === '' ? element('td', {}) : element('th', { scope: 'col' }, text));
      const { readings, blanks } = block;
      // A reading is typed where the paper has room to write it.
      const columns = readings === undefined || blanks !== undefined ? block.heads.length : block.heads.length - 1;
      const heads = readings === undefined ? block.heads : [...block.heads.slice(0, columns), t('reads')];
      const cellsOf = (cells: readonly string[], at: number): readonly (HTMLElement | string)[] => {
        const place = readings?.[at];
        return place === undefined ? cells : [...cells.slice(0, columns), readingField(place, cells[0] ?? '')];
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

function rowOf(
  { key, number, text, ends, minding, isTest, isHead, isDone: isRecorded, names }: TickRow,
  isDone: boolean,
): HTMLElement {
  if (isHead === true) return element('li', { class: 'head' }, text);
  const box = element('input', { type: 'checkbox', 'data-key': key });
  box.checked = isDone;
  // What the record says is taken back in the record.
  if (isRecorded === true) {
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
