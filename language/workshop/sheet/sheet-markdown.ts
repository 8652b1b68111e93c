/** The sheet as Markdown. */
import { escapeMarkdown } from '../../escape.js';
import { finished, type Steps } from '../../steps.js';
import { endText, type Block, type Sheet } from './sheet-model.js';

/** Texts are escaped, so that no name of a part reads as a mark. */
export function sheetMarkdown(sheet: Sheet): string {
  return finished(sheetMarkdownSteps(sheet));
}

/** The same in steps of one block each. */
export function* sheetMarkdownSteps(sheet: Sheet): Steps<string> {
  const fields = sheet.fields
    .map((field) => (field.includes(': ') ? escapeMarkdown(field) : `${escapeMarkdown(field)}: ________`))
    .join('  ');
  const lines = [`# ${escapeMarkdown(sheet.title)}`, ...(fields === '' ? [] : ['', fields])];
  lines.push('', '## Cautions', '', ...sheet.cautions.map((text) => `- ${escapeMarkdown(text)}`));
  for (const { title, blocks, isSub } of sheet.sections) {
    lines.push('', `${isSub === true ? '###' : '##'} ${escapeMarkdown(title)}`);
    for (const block of blocks) {
      lines.push('', ...blockLines(block, sheet.instruments ?? []));
      yield;
    }
  }
  return `${lines.join('\n')}\n`;
}

function blockLines(block: Block, instruments: readonly string[]): string[] {
  switch (block.kind) {
    case 'text':
      return [escapeMarkdown(block.text)];
    case 'list':
      return block.items.map((item) => `- ${escapeMarkdown(item)}`);
    case 'ticks':
      return block.rows.map(({ number, text, ends, minding, isDone, isHead, isRead }) => {
        if (isHead === true) return `- ${escapeMarkdown(text)}`;
        const before = number === '' ? '' : `${number}. `;
        const row = [text, ...(ends ?? []).map(endText)].map(escapeMarkdown).join(' · ');
        const besides = minding === undefined ? '' : `. ${escapeMarkdown(minding)}`;
        const blank = isRead === true ? ' ____' : '';
        const reads = instruments.length === 0 ? blank : instruments.map((mark) => ` ${mark} ☐${blank}`).join('');
        return `- [${isDone === true ? 'x' : ' '}] ${before}${row}${besides}${reads}`;
      });
    case 'table': {
      const heads = [...block.heads, ...(block.blanks ?? [])];
      const empty = (block.blanks ?? []).map(() => '');
      const line = (cells: readonly string[]): string => `| ${cells.map(escapeMarkdown).join(' | ')} |`;
      return [line(heads), `|${' --- |'.repeat(heads.length)}`, ...block.rows.map((row) => line([...row, ...empty]))];
    }
    case 'picture':
      return ['The drawing is in the HTML form of this sheet; `lugwork draw` makes it separately.'];
  }
}
