/** The sheet as Markdown. */
import type { Block, Sheet } from './sheet-model.js';

/** Texts are escaped, so that no name of a part reads as a mark. */
export function sheetMarkdown(sheet: Sheet): string {
  const fields = sheet.fields.map((field) => (field.includes(': ') ? safe(field) : `${safe(field)}: ________`)).join('  ');
  const lines = [`# ${safe(sheet.title)}`, ...(fields === '' ? [] : ['', fields])];
  lines.push('', '## Cautions', '', ...sheet.cautions.map((text) => `- ${safe(text)}`));
  for (const { title, blocks, isSub } of sheet.sections) {
    lines.push('', `${isSub === true ? '###' : '##'} ${safe(title)}`);
    for (const block of blocks) lines.push('', ...blockLines(block));
  }
  return `${lines.join('\n')}\n`;
}

function blockLines(block: Block): string[] {
  switch (block.kind) {
    case 'text':
      return [safe(block.text)];
    case 'list':
      return block.items.map((item) => `- ${safe(item)}`);
    case 'ticks':
      return block.rows.map(({ number, text, why, isDone, isHead }) => {
        if (isHead === true) return `- ${safe(text)}`;
        const before = number === '' ? '' : `${number}. `;
        return `- [${isDone === true ? 'x' : ' '}] ${before}${safe(text)}${why === '' ? '' : ` *(${safe(why)})*`}`;
      });
    case 'table': {
      const heads = [...block.heads, ...(block.blanks ?? [])];
      const empty = (block.blanks ?? []).map(() => '');
      const line = (cells: readonly string[]): string => `| ${cells.map(safe).join(' | ')} |`;
      return [line(heads), `|${' --- |'.repeat(heads.length)}`, ...block.rows.map((row) => line([...row, ...empty]))];
    }
    case 'picture':
      return ['The drawing stands in the HTML form of this sheet; `lugwork draw` makes it by itself.'];
  }
}

/** Marks of Markdown and of HTML are escaped, line ends and control characters become spaces. */
function safe(text: string): string {
  return plain(text).replace(/[\\`*_{}[\]<>|#~&]/g, (mark) =>
    mark === '<' ? '&lt;' : mark === '>' ? '&gt;' : mark === '&' ? '&amp;' : `\\${mark}`,
  );
}

/** One line of printable text: control characters and marks that turn the direction of writing are taken out. */
export function plain(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').replace(/[\u202a-\u202e\u2066-\u2069\u200e\u200f]/g, '');
}
