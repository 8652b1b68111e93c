/** The sheet as one HTML page that prints in black and white on A4 and Letter: no script, nothing fetched. */
import { escapeXml } from '../../escape.js';
import { finished, type Steps } from '../../steps.js';
import { paperStyle } from '../papers/papers.js';
import { namedPieces } from './named-pieces.js';
import type { Block, Section, Sheet, TickEnd, TickRow } from './sheet-model.js';
import { sheetStyle } from './sheet-style.js';

/** `papers` are pages that go behind the sheet, as `paperPages` makes them. All text is escaped; the drawing is taken unchanged, since the renderer of the drawing has escaped it. */
export function sheetHtml(sheet: Sheet, papers: readonly string[] = []): string {
  return finished(sheetHtmlSteps(sheet, papers));
}

/** The same in steps of one section, or a few rows of a long one, each. */
export function* sheetHtmlSteps(sheet: Sheet, papers: readonly string[] = []): Steps<string> {
  const sections = yield* sectionsHtmlSteps(inPlace(sheet.sections), sheet.instruments);
  const body = [
    `<h1>${safe(sheet.title)}</h1>`,
    sheet.fields.length === 0 ? '' : `<p class="fields">${sheet.fields.map(fieldHtml).join(' ')}</p>`,
    `<section class="cautions"><h2>Cautions</h2><ul>${sheet.cautions.map((text) => `<li>${safe(text)}</li>`).join('')}</ul></section>`,
    sections,
    ...papers.map((page) => `<section class="paper-page">\n${page}\n</section>`),
  ];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${safe(sheet.title)}</title>
<style>
${sheetStyle}${papers.length > 0 ? `\n${paperStyle}` : ''}
</style>
</head>
<body${sheet.isLarge === true ? ' class="large"' : ''}>
${body.join('\n')}
</body>
</html>
`;
}

/** Sections alone, for a page that has its own head and style; all text is escaped. */
export function* sectionsHtmlSteps(sections: readonly Section[], instruments: readonly string[] = []): Steps<string> {
  const made: string[] = [];
  for (const section of sections) made.push(yield* sectionHtml(section, instruments));
  return made.join('\n');
}

/** Puts the pages of the drawing just before the solder order, where they are needed, so that the lists follow the cautions on the first page. */
function inPlace(sections: readonly Section[]): readonly Section[] {
  const drawn = sections.filter((section) => drawingIn(section) !== undefined);
  const rest = sections.filter((section) => !drawn.includes(section));
  const fresh = rest.findIndex(({ isFresh }) => isFresh === true);
  return fresh < 0 ? sections : [...rest.slice(0, fresh), ...drawn, ...rest.slice(fresh)];
}

/** The first page of the drawing in a section. */
function drawingIn({ blocks }: Section): string | undefined {
  return blocks.flatMap((block) => (block.kind === 'picture' ? block.svg : []))[0];
}

function* sectionHtml(section: Section, instruments: readonly string[]): Steps<string> {
  const { title, blocks, isSub, isFresh } = section;
  const tag = isSub === true ? 'h3' : 'h2';
  const drawing = drawingIn(section);
  const look =
    drawing !== undefined ? `drawing ${turnOf(drawing)}` : isFresh === true ? 'fresh' : section.isSmall === true ? 'small' : '';
  const made: string[] = [];
  for (const block of blocks) made.push(yield* blockHtml(block, instruments));
  return `<section${look === '' ? '' : ` class="${look}"`}><${tag}>${safe(title)}</${tag}>\n${made.join('\n')}\n</section>`;
}

function* blockHtml(block: Block, instruments: readonly string[]): Steps<string> {
  yield;
  switch (block.kind) {
    case 'text':
      return `<p>${safe(block.text)}</p>`;
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${safe(item)}</li>`).join('')}</ul>`;
    case 'ticks': {
      const look = block.rows.every(({ number }) => number === '') ? 'ticks tests' : 'ticks';
      const table = `<table class="${look}"><tbody>${yield* rowsHtml(block.rows, (row) => tickHtml(row, instruments))}</tbody></table>`;
      return besideHtml(block, instruments.length, table);
    }
    case 'table': {
      const { blanks = [], pictures } = block;
      const heads = [
        ...(pictures === undefined ? [] : ['<td></td>']),
        ...block.heads.map((head) => `<th${shortClass(head)}>${safe(head)}</th>`),
        ...blanks.map((head) => `<th class="blank">${safe(head)}</th>`),
      ];
      const row = (cells: readonly string[], index: number): string =>
        `<tr>${pictures === undefined ? '' : `<td class="picture">${pictures[index] ?? ''}</td>`}${cells.map((cell) => `<td${shortClass(cell)}>${safe(cell)}</td>`).join('')}${blanks.map(() => '<td class="blank"></td>').join('')}</tr>`;
      const table = `<table><thead><tr>${heads.join('')}</tr></thead><tbody>${yield* rowsHtml(block.rows, row)}</tbody></table>`;
      return besideHtml(block, blanks.length, table);
    }
    case 'picture':
      return `<figure class="${turnOf(block.svg)}">${block.svg}</figure>`;
  }
}

/** Two columns beside each other, where a row leaves the room for it. */
function besideHtml(block: Block & { readonly kind: 'ticks' | 'table' }, blanks: number, table: string): string {
  return block.isNarrow === true && blanks < 2 && block.rows.length > 3 ? `<div class="beside">${table}</div>` : table;
}

function* rowsHtml<T>(rows: readonly T[], rowHtml: (row: T, index: number) => string): Steps<string> {
  const made: string[] = [];
  for (const row of rows) {
    if (made.length % 32 === 31) yield;
    made.push(rowHtml(row, made.length));
  }
  return made.join('\n');
}

/** A line to write on, or what is known already. */
function fieldHtml(field: string): string {
  return field.includes(': ') ? `<span>${safe(field)}</span>` : `<span>${safe(field)} <i></i></span>`;
}

function tickHtml(row: TickRow, instruments: readonly string[]): string {
  const { key, number, text, ends, minding, isTest, isHead, isRead, isDone, names } = row;
  const look = isHead === true ? ' class="test head"' : isTest ? ' class="test"' : '';
  const boxes = instruments.length === 0 ? [''] : instruments;
  const box = isHead === true ? '' : boxes.map((mark) => `<b>${isDone === true ? '✓' : safe(mark)}</b>`).join('');
  const words = withNames(text, names ?? []);
  const besides = minding === undefined ? '' : `<span class="minding">${withNames(minding, names ?? [])}</span>`;
  const reads = isRead === true ? `<td class="reads">${boxes.map((mark) => `<i>${safe(mark)}</i>`).join('')}</td>` : '';
  const cells =
    ends === undefined
      ? `<td${reads === '' ? ' colspan="2"' : ''}>${words}${besides}</td>${reads}`
      : `<td colspan="2"><div class="work"><span class="what">${words}</span><span>${ends.map(endHtml).join('')}</span>${besides}</div></td>`;
  return `<tr${look} data-key="${safe(key)}"><td class="box">${box}</td><td class="number">${safe(number)}</td>${cells}</tr>`;
}

function endHtml({ lug, isSoldered, note }: TickEnd): string {
  const [mark, says] = isSoldered ? ['●', 'solder now'] : ['○', 'only hook'];
  const besides = note === '' ? '' : ` <small>${safe(note)}</small>`;
  return `<span class="end"><b>${safe(lug)}</b> <span class="mark" role="img" aria-label="${says}">${mark}</span>${besides}</span>`;
}

/** The text with the names in bold where they stand as words of their own. */
function withNames(text: string, names: readonly string[]): string {
  return namedPieces(text, names)
    .map(({ text: piece, isName }) => (isName ? `<b>${safe(piece)}</b>` : safe(piece)))
    .join('');
}

/** Short words are not broken in a narrow column. */
function shortClass(text: string): string {
  return text.length <= 14 ? ' class="short"' : '';
}

/** Whether a page is on its side. */
function turnOf(svg: string): 'wide' | 'tall' {
  const [, width, height] = /viewBox="[-\d.]+ [-\d.]+ ([\d.]+) ([\d.]+)"/.exec(svg) ?? [];
  return Number(width) > Number(height) ? 'wide' : 'tall';
}

function safe(text: string): string {
  return escapeXml(text.replace(/\s+/g, ' '));
}
