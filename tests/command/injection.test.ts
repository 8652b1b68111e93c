/** Hostile texts in every field that holds text, through every output: nothing of them is obeyed by a terminal, a browser, a spreadsheet, a build server or a circuit solver. */
import { createRequire } from 'node:module';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { folderWith, lugwork } from '../harness/process.js';
import { readMarkup } from '../harness/well-formed.js';
import { clean } from './circuits.js';

const evil = [
  `</title></text></script><script>alert(1)</script><img src=x onerror=alert(1)>`,
  `& " ' ]]> --> &lt;b&gt; x\` \`\` \`\`\` [a](javascript:alert(1)) ![p](http://example.org/x.png)`,
  `[c](command:workbench.action.quit) | **b** %0A::error file=x::y \u001b[31m\u001b]0;title\u0007\b\u009b31m`,
  `\u202egnol\u202c \u2066x\u2069 \u2028.include /etc/passwd \u2029 \uffff`,
].join(' ');
const quoted = (text: string): string => `"${text.replaceAll('\\', '\\\\').replaceAll('"', '\\"')}"`;
const hostile = clean
  .replace(/^instrument.*/, `/** ${evil} */\ninstrument ${quoted(evil)}`)
  .replace('"bridge" "both" "neck"', `${quoted(`=1+1 ${evil}`)} "@SUM(A1)" ${quoted(`-2+3 ${evil}`)}`)
  .replace('selector "both"', `selector "@SUM(A1)"`)
  .replace('part volume ', `/** ${evil} */\npart volume `)
  .replace('wire bridge.hot ', 'part spare : lever-3 { positions "+1" "\t=1+1" "x" }\nwire bridge.hot ')
  .concat(
    `allow idle-switch on spare ${quoted(evil)}\n`,
    `allow no-such-rule ${quoted(evil)}\n`,
    `expect selector ${quoted(`no such ${evil}`)} : silent\n`,
    `measured selector "@SUM(A1)" : reads 5k\n`,
    `use ${quoted(evil)}\n`,
    `type odd : switch {\n  lugs a b\n  positions ${quoted(evil)} "b"\n  at ${quoted(evil)} joins a b\n}\n`,
    `wire bridge.<script> to neck.\u001b[31mhot\n`,
    `part ${evil}\n`,
    `part ${'long-'.repeat(3000)}name : pot ${quoted('x'.repeat(5000))}\n`,
  );

/** It comes without types. */
const MarkdownIt = createRequire(import.meta.url)('markdown-it') as new (options: object) => { render(text: string): string };

/** A name that no file should have. */
const file = 'a \u001b[31m,b:c%0A::error\u202e.lug';
let folder: string;
const outputs = new Map<string, string>();

const told: readonly (readonly [string, ...string[]])[] = [
  ...['text', 'json', 'sarif', 'junit', 'github'].map((format) => ['check', '--format', format, file] as const),
  ...['text', 'json', 'markdown', 'csv'].map((format) => ['positions', '--format', format, file] as const),
  ...['text', 'json', 'csv', 'svg'].map((format) => ['response', '--format', format, file] as const),
  ...['text', 'markdown', 'json', 'svg'].map((format) => ['compare', '--format', format, file, 'other.lug'] as const),
  ...['text', 'json'].map((format) => ['locate', '--format', format, file] as const),
  ['netlist', file],
  ['expect', file],
  ['circuit', file],
  ['format', '--check', file],
  ['draw', file, '-o', 'drawing.svg'],
  ['sheet', file, '-o', 'sheet.html'],
  ['sheet', file, '-o', 'sheet.md'],
  ...['order', 'cut', 'parts', 'meter', 'buy'].map((list) => ['sheet', file, '--list', list, '-o', `${list}.csv`] as const),
];

beforeAll(() => {
  folder = folderWith({ [file]: hostile, 'other.lug': hostile.replaceAll('=1+1', '=2+2').replace('250k', '500k') });
  for (const words of told) {
    const { out, err, code } = lugwork(words, folder);
    expect(err).not.toContain('a fault in lugwork itself');
    expect(code === 0 || (code === 1 && words[0] !== 'sheet'), `${words.join(' ')}: ${err}`).toBe(true);
    outputs.set(
      words
        .slice(0, 3)
        .filter((word) => word !== file)
        .join(' '),
      `${out}${err}`,
    );
  }
  for (const name of readdirSync(folder)) {
    if (!name.endsWith('.lug')) outputs.set(name, readFileSync(join(folder, name), 'utf8'));
  }
}, 300_000);

const output = (name: string): string => {
  const text = outputs.get(name);
  if (text === undefined || text === '') throw new Error(`no ${name} among ${[...outputs.keys()].join(', ')}`);
  return text;
};

test('no output holds a sign that a terminal obeys, or a mark that turns the direction of writing', () => {
  // JSON is data: what is no control character stands in it as it is.
  for (const [name, text] of outputs) {
    // eslint-disable-next-line no-control-regex
    expect([name, /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/.exec(text)?.[0]]).toEqual([name, undefined]);
    if (!/json|sarif/.test(name))
      expect([name, /[\u2028\u2029\u202a-\u202e\u2066-\u2069]/.exec(text)?.[0]]).toEqual([name, undefined]);
  }
});

test.each([
  [
    'drawing.svg',
    /^(svg|title|desc|style|g|path|rect|circle|ellipse|line|polyline|polygon|text|tspan|defs|use|clipPath|marker)$/,
  ],
  [
    'compare --format svg',
    /^(svg|title|desc|style|g|path|rect|circle|ellipse|line|polyline|polygon|text|tspan|defs|use|clipPath|marker)$/,
  ],
  ['response --format svg', /^(svg|title|desc|style|g|path|rect|circle|line|polyline|text|tspan)$/],
  ['check --format junit', /^(testsuites|testsuite|testcase|failure|properties|property|system-out)$/],
])('%s is well-formed and holds no element of a name', (name, own) => {
  const text = output(name);
  const { problem, elements, attributes } = readMarkup(text.slice(text.indexOf('<'), text.lastIndexOf('>') + 1));
  expect(problem).toBeUndefined();
  expect([...elements].filter((element) => !own.test(element))).toEqual([]);
  expect([...attributes].filter((attribute) => /^on|href|src/.test(attribute))).toEqual([]);
});

test('a drawing in the comparison is laid out as any other', () => {
  expect(output('compare --format svg')).not.toContain('laid out plainly');
});

test('the sheet as HTML holds only tags of its own, and a policy that lets no script run', () => {
  const html = output('sheet.html');
  expect(html).toContain(`default-src 'none'`);
  const tags = new Set([...html.matchAll(/<\/?([a-z!][\w-]*)/gi)].map(([, tag]) => tag));
  expect([...tags].filter((tag) => /^(script|img|iframe|object|embed|a|form|input|link|base)$/i.test(tag!))).toEqual([]);
  expect(html.replace(/<style>[^]*?<\/style>/g, '').match(/<[^>]*\s(on\w+|href|src)=/g)).toBeNull();
});

test.each(['positions --format markdown', 'compare --format markdown', 'sheet.md'])(
  '%s holds no HTML, link or picture',
  (name) => {
    // As a site reads it that lets HTML through; what goes into a review's comment makes no link of a bare address either.
    const html = new MarkdownIt({ html: true, linkify: name.startsWith('compare') }).render(
      output(name).replace(/<\/?(details|summary)>/g, ''),
    );
    expect(html.match(/<(script|img|a|iframe|title)\b[^>]*>[^<]{0,40}/)).toBeNull();
  },
);

test('CSV holds no formula, and as many cells in each line as in the first', () => {
  for (const name of [...outputs.keys()].filter((one) => /csv/.test(one))) {
    const rows = csvRows(output(name).replace(/lugwork: [^\n]*\n/g, ''));
    for (const row of rows) {
      expect([name, row.length]).toEqual([name, rows[0]!.length]);
      for (const cell of row) expect(/^\s*[=+@]|^-(?![\d.]+$)/.test(cell) ? [name, cell] : []).toEqual([]);
    }
  }
});

test('annotations are one line each, with the commands of the findings alone', () => {
  const lines = output('check --format github')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('lugwork:'));
  expect(lines.length).toBeGreaterThan(5);
  for (const line of lines)
    expect(line).toMatch(
      /^::(error|warning|notice) file=[^:,]*,line=\d+,endLine=\d+(,col=\d+,endColumn=\d+)?,title=[\w-]+::[^\r]*$/,
    );
});

test('JSON and SARIF are read back', () => {
  for (const [name, text] of outputs) {
    if (/json|sarif|^circuit/.test(name))
      expect(() => JSON.parse(text.replace(/lugwork: [^\n]*\n/g, '')) as unknown, name).not.toThrow();
  }
});

describe('the deck', () => {
  test('holds comments, elements and its own commands alone', () => {
    for (const line of output('netlist').split('\n'))
      expect(line).toMatch(/^(\*.*|[RCLVKE]_\w+ [\w ().+-]+|\.(ac|print|end)\b[\w ().+-]*|lugwork: .*|)$/);
  });
  test('of a circuit from JSON too, whatever its names hold', () => {
    const json = JSON.parse(lugwork(['circuit', file], folder).out) as Record<string, unknown>;
    const text = JSON.stringify(json)
      .replaceAll('"volume"', JSON.stringify('volume\n.control\nshell id\n.endc'))
      .replaceAll('"volume.', '"volume\\n.control\\nshell id\\n.endc.');
    writeFileSync(join(folder, 'hostile.json'), text);
    const { out } = lugwork(['netlist', 'hostile.json'], folder);
    expect(out).not.toMatch(/^\.control/m);
  });
});

/** Cells of comma-separated values after RFC 4180. */
function csvRows(text: string): string[][] {
  const rows: string[][] = [[]];
  for (const [, between, bare, whole] of text.matchAll(/(^|,|\n)(?:([^",\n]*)|"((?:[^"]|"")*)")(?=,|\n|$)/g)) {
    if (between === '\n') rows.push([]);
    rows.at(-1)!.push(bare ?? whole!.replaceAll('""', '"'));
  }
  return rows.filter((row) => row.length > 1 || row[0] !== '');
}
