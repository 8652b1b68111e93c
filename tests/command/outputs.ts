/** What each form of output may not hold, whatever names, texts, files and folders are called: a checker a form, by a reader of that form. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { expect } from 'vitest';
import { root } from '../harness/checkout.js';
import { readMarkup } from '../harness/well-formed.js';

/** They come without types. */
const MarkdownIt = createRequire(import.meta.url)('markdown-it') as new (options: object) => {
  render(text: string): string;
  readonly linkify: { set(options: object): void };
};

/** Stands in every hostile text; a checker may look for what became of it. */
export const mark = 'HOSTILE';

// eslint-disable-next-line no-control-regex
const control = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/;
const turning = /[\u2028\u2029\u202a-\u202e\u2066-\u2069]/;

/** For a terminal and the log of a build: nothing that either would obey. */
function text(out: string): void {
  expect(control.exec(out)?.[0]).toBeUndefined();
  expect(turning.exec(out)?.[0]).toBeUndefined();
  // A build's runner obeys a line that begins so, whatever wrote it.
  expect(/^\s*(::|##\[).*/m.exec(out)?.[0]).toBeUndefined();
}

const ownTags = 'h1 h2 h3 h4 p table thead tbody tr th td ul li strong em details summary'.split(' ');

/** As a site reads it that lets HTML through and makes links of addresses: only the writer's own elements, no attribute, no mention. */
function markdown(out: string): void {
  expect(control.exec(out)?.[0]).toBeUndefined();
  expect(turning.exec(out)?.[0]).toBeUndefined();
  const reader = new MarkdownIt({ html: true, linkify: true });
  // A bare `example.org` is no link where reviews are written.
  reader.linkify.set({ fuzzyLink: false });
  const html = reader.render(out);
  const tags = [...html.matchAll(/<(\/?)([a-z][\w-]*)([^>]*)>/gi)];
  expect(tags.filter(([, , tag]) => !ownTags.includes(tag!.toLowerCase())).map(([all]) => all)).toEqual([]);
  expect(tags.filter(([, , , attributes]) => attributes!.trim() !== '').map(([all]) => all)).toEqual([]);
  expect(/<!|<\?/.exec(html)?.[0]).toBeUndefined();
  expect(/(^|[^\p{L}\p{N}])[@#][\p{L}\p{N}]|\bwww\.|:\/\//mu.exec(html)?.[0]).toBeUndefined();
  // A formula is looked for in the text as it is written.
  expect(/(?<!\\)\$\S/.exec(out)?.[0]).toBeUndefined();
  for (const [, rows] of html.matchAll(/<table>([^]*?)<\/table>/g)) {
    const widths = [...rows!.matchAll(/<tr>([^]*?)<\/tr>/g)].map(([, row]) => row!.match(/<t[hd]>/g)!.length);
    expect(new Set(widths).size).toBe(1);
  }
}

function json(out: string): void {
  expect(control.exec(out)?.[0]).toBeUndefined();
  JSON.parse(out);
}

function markup(own: RegExp): (out: string) => void {
  return (out) => {
    expect(turning.exec(out)?.[0]).toBeUndefined();
    const { problem, elements, attributes } = readMarkup(out);
    expect(problem).toBeUndefined();
    expect([...elements].filter((element) => !own.test(element))).toEqual([]);
    expect([...attributes].filter((attribute) => /^on|href|src/.test(attribute))).toEqual([]);
  };
}

const drawn = /^(svg|title|desc|style|g|path|rect|circle|ellipse|line|polyline|polygon|text|tspan|defs|use|clipPath|marker)$/;

function html(out: string): void {
  expect(out).toContain(`default-src 'none'`);
  expect(turning.exec(out)?.[0]).toBeUndefined();
  const body = out.replace(/<style>[^]*?<\/style>/g, '').replace(/<svg[^]*?<\/svg>/g, '');
  const tags = new Set([...body.matchAll(/<\/?([a-z!][\w-]*)/gi)].map(([, tag]) => tag!.toLowerCase()));
  const own =
    'html head meta title body h1 h2 h3 p span i b section div small ul li table thead tbody tr th td figure !doctype'.split(' ');
  expect([...tags].filter((tag) => !own.includes(tag))).toEqual([]);
  expect(body.replace(/="[^"]*"/g, '=""').match(/<[^>]*\s(on\w+|href|src)=/g)).toBeNull();
  for (const [svg] of out.matchAll(/<svg[^]*?<\/svg>/g)) markup(drawn)(svg);
}

/** The page that has a script: the script is the program's own, its data are JSON, and the rest is as in any sheet. */
function page(out: string): void {
  const own = /<script>([^]*?)<\/script>/.exec(readFileSync(join(root, 'dist', 'page.html'), 'utf8'))![0];
  expect(out).toContain(own);
  const rest = out.replace(own, () => '');
  const [data, text] = /<script type="application\/json" id="instrument">([^<]*)<\/script>/.exec(rest)!;
  json(text!);
  const other = rest.replace(data, () => '');
  expect(other).not.toContain('<script');
  // Its own two, which a sheet does not have.
  html(
    other
      .replace('<main>', '')
      .replace('</main>', '')
      .replace(/<\/?(noscript|strong)>/g, '')
      .replace('<a href="#cautions">All cautions</a>', ''),
  );
}

/** No cell that a spreadsheet runs, and as many in each row, whichever of comma, semicolon and tab it parts them at. */
function csv(out: string): void {
  expect(control.exec(out)?.[0]).toBeUndefined();
  for (const separator of [',', ';', '\t']) {
    const rows = csvRows(out, separator);
    for (const row of rows) {
      if (separator === ',') expect(row.length, row.join(' | ')).toBe(rows[0]!.length);
      for (const cell of row)
        expect(/^\s*[=+@＝＋＠]|^\s*[-－](?![\d.]+$)/.exec(cell) === null ? undefined : cell).toBeUndefined();
    }
  }
}

/** One line a finding or a circuit that differs, and one for a search that was stopped or for all of them; no other command. */
function github(out: string): void {
  expect(control.exec(out)?.[0]).toBeUndefined();
  const lines = out.split('\n').filter((line) => line !== '');
  for (const line of lines)
    expect(line).toMatch(
      /^::(notice (file|title)=[^:,]*|(error|warning|notice) file=[^:,]*,line=\d+(,endLine=\d+)?(,col=\d+,endColumn=\d+)?,title=[^:,]+)::[^\r]*$/,
    );
}

/** Comments, elements and its own commands alone. */
function deck(out: string): void {
  text(out);
  for (const line of out.split('\n')) expect(line).toMatch(/^(\* .*|[RCLVKE]_\w+ [\w ().+-]+|\.(ac|print|end)\b[\w ().+-]*|)$/);
}

/** Its lines begin with their signs, and its names are quoted; what follows the sign is the text itself, so that it can be applied. */
function diff(out: string): void {
  let left = [0, 0] as [number, number];
  for (const line of out.split('\n').slice(0, -1)) {
    const head = /^@@ -\d+(?:,(\d+))? \+\d+(?:,(\d+))? @@$/.exec(line);
    if (head !== null) left = [Number(head[1] ?? 1), Number(head[2] ?? 1)];
    else if (left[0] > 0 || left[1] > 0) {
      expect(line).toMatch(/^[ +-]/);
      if (!line.startsWith('+')) left[0] -= 1;
      if (!line.startsWith('-')) left[1] -= 1;
    } else {
      expect(line).toMatch(/^(--- |\+\+\+ |\\ No newline)/);
      text(line);
    }
  }
  expect(left).toEqual([0, 0]);
}

export const checkers = {
  text,
  markdown,
  json,
  csv,
  github,
  deck,
  diff,
  html,
  page,
  junit: markup(/^(testsuites|testsuite|testcase|failure|properties|property|system-out)$/),
  svg: markup(drawn),
} as const;

export type Form = keyof typeof checkers;

/** Cells of values after RFC 4180, parted at a separator. */
export function csvRows(out: string, separator = ','): string[][] {
  const rows: string[][] = [[]];
  let cell = '';
  let isQuoted = false;
  const end = (): void => {
    rows.at(-1)!.push(cell);
    cell = '';
  };
  for (let at = 0; at < out.length; at++) {
    const sign = out[at]!;
    if (isQuoted && sign === '"' && out[at + 1] === '"') cell += out[at++];
    else if (sign === '"' && (isQuoted || cell === '')) isQuoted = !isQuoted;
    else if (isQuoted) cell += sign;
    else if (sign === separator) end();
    else if (sign === '\n') {
      end();
      rows.push([]);
    } else cell += sign;
  }
  return rows.filter((row) => row.length > 0);
}
