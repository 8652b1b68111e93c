/** The little of Markdown that the text's hover uses, as elements: whatever is not understood stays text. */
import { itemAt } from '../../../language/collections.js';
import { html } from './dom.js';

/** Paragraphs, lists, tables, rules, headings and code. */
export function markdown(text: string): HTMLElement[] {
  const lines = text.replace(/<!--[\s\S]*?-->/g, '').split(/\r?\n/);
  const blocks: HTMLElement[] = [];
  let paragraph: string[] = [];
  const flush = (): void => {
    if (paragraph.length > 0) blocks.push(html('p', {}, ...inline(paragraph.join(' '))));
    paragraph = [];
  };
  for (let i = 0; i < lines.length; i++) {
    const line = itemAt(lines, i);
    const taken = (is: (line: string) => boolean): string[] => {
      const from = i;
      const end = lines.findIndex((one, index) => index >= from && !is(one));
      i = end < 0 ? lines.length : end;
      return lines.slice(from, i--);
    };
    if (/^\s*```/.test(line)) {
      flush();
      i++;
      const code = taken((one) => !/^\s*```/.test(one));
      i++;
      blocks.push(html('pre', { tabindex: 0 }, code.join('\n')));
    } else if (/^\s*\|/.test(line)) {
      flush();
      blocks.push(table(taken((one) => /^\s*\|/.test(one))));
    } else if (/^\s*[-*] /.test(line)) {
      flush();
      const items = taken((one) => /^\s*[-*] /.test(one));
      blocks.push(html('ul', {}, ...items.map((item) => html('li', {}, ...inline(item.replace(/^\s*[-*] /, ''))))));
    } else if (/^\s*(-{3,}|\*{3,})\s*$/.test(line)) {
      flush();
      blocks.push(html('hr'));
    } else if (/^#+ /.test(line)) {
      flush();
      blocks.push(html('p', {}, html('strong', {}, ...inline(line.replace(/^#+ /, '')))));
    } else if (line.trim() === '') flush();
    else paragraph.push(line.trim());
  }
  flush();
  return blocks;
}

function table(lines: readonly string[]): HTMLElement {
  const rows = lines
    .map((line) =>
      line
        .trim()
        .replace(/^\||\|$/g, '')
        .split(/(?<!\\)\|/),
    )
    .filter((cells) => !cells.every((cell) => /^\s*:?-+:?\s*$/.test(cell)));
  const row = (cells: readonly string[], tag: 'td' | 'th'): HTMLElement =>
    html('tr', {}, ...cells.map((cell) => html(tag, {}, ...inline(cell.trim()))));
  return html('table', {}, ...rows.map((cells, index) => row(cells, index === 0 ? 'th' : 'td')));
}

/** Emphasis, code, links (as their words) and escapes. */
function inline(text: string): (Node | string)[] {
  const pattern = /`([^`]+)`|\*\*(.+?)\*\*|(?<![\w*])[*_](\S.*?)[*_](?![\w*])|\[([^\]]*)\]\([^)]*\)/;
  const match = pattern.exec(text);
  if (match === null) return text === '' ? [] : [plain(text)];
  const [all, code, strong, soft, link] = match;
  const before = text.slice(0, match.index);
  const node =
    code !== undefined
      ? html('code', {}, code)
      : strong !== undefined
        ? html('strong', {}, ...inline(strong))
        : soft !== undefined
          ? html('em', {}, ...inline(soft))
          : html('span', {}, ...inline(link ?? ''));
  return [...(before === '' ? [] : [plain(before)]), node, ...inline(text.slice(match.index + all.length))];
}

const entities: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', nbsp: '\u00a0' };

function plain(text: string): string {
  return text
    .replace(/\\([\\`*_{}[\]()#+\-.!|<>~$=])/g, '$1')
    .replace(/&(lt|gt|amp|quot|nbsp);/g, (all, name: string) => entities[name] ?? all);
}
