/** The sheet of texts that mean harm or are broken: nothing of a name becomes mark-up, a formula or a command; nothing throws. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  buildOf,
  benchFindings,
  benchSheet,
  sheetHtml,
  sheetMarkdown,
  type Block,
  type Sheet,
} from '../../language/workshop/index.js';
import { lower } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';
import { sheetCsv } from '../../server/command/formats/sheet.js';

const circuitOf = (text: string) => lower(parseText('file:///bench/no-0.lug', text));

const evil = '</title><script>alert(1)</script>"\'&lt; | `x` [a](javascript:b) \u202egnol *b*';
const circuit = circuitOf(`instrument ${JSON.stringify(evil)}
part välume_ : pot 250k { positions "<img src=x>" }
part sel : lever-3 { positions "<b>&" "=1+1" "|x|" }
part p : single-coil { lead hot white 3mm }
part o : jack
wire p.hot to sel.A1
wire p.ground to o.sleeve
wire sel.A0 to välume_.3
wire välume_.2 to o.tip
solder välume_.1 to välume_.case
wire välume_.case to o.sleeve
`);

test('HTML holds no mark of a name', () => {
  const html = sheetHtml(benchSheet(buildOf(circuit)));
  expect(html).not.toMatch(/<script|<img|<b>&|javascript:b\)<|\u202e/);
  expect(html).toContain('&lt;script&gt;');
  // Every tag is one that the renderer writes.
  const tags = new Set([...html.matchAll(/<\/?([a-z!]\w*)/g)].map((match) => match[1]));
  const own =
    'html head meta title style body h1 h2 h3 p span i b section ul li table thead tbody tr th td figure div small !doctype'.split(
      ' ',
    );
  expect([...tags].filter((tag) => !own.includes(tag!))).toEqual([]);
});

test('Markdown holds no mark of a name', () => {
  const text = sheetMarkdown(benchSheet(buildOf(circuit)));
  expect(text).not.toMatch(/<script|<img|[^\\]`x|\u202e/);
  expect(text).toContain('\\|x\\|');
  for (const line of text.split('\n').filter((line) => line.startsWith('|'))) expect(line.endsWith('|')).toBe(true);
});

test('comma-separated values hold no formula', () => {
  for (const list of ['cut', 'parts', 'sleeves', 'order', 'meter', 'tap'] as const) {
    for (const line of sheetCsv(buildOf(circuit), list).split('\n')) expect(line).not.toMatch(/(^|,)"?[=+@]/);
  }
});

test('any sheet can be rendered: names of every kind, in every kind of block', () => {
  const block: fc.Arbitrary<Block> = fc.oneof(
    fc.record({ kind: fc.constant('text' as const), text: fc.string() }),
    fc.record({ kind: fc.constant('list' as const), items: fc.array(fc.string()) }),
    fc.record({
      kind: fc.constant('table' as const),
      heads: fc.constant(['a', 'b']),
      rows: fc.array(fc.tuple(fc.string(), fc.string())),
    }),
  );
  const sheet: fc.Arbitrary<Sheet> = fc.record({
    title: fc.string(),
    fields: fc.array(fc.string()),
    cautions: fc.array(fc.string()),
    sections: fc.array(fc.record({ title: fc.string(), blocks: fc.array(block, { maxLength: 3 }) }), { maxLength: 3 }),
  });
  fc.assert(
    fc.property(sheet, (made) => {
      const body = sheetHtml(made).split('</style>')[1]!;
      const text = body.replace(/<[^<>]*>/g, '');
      expect(text).not.toMatch(/[<>]/);
      expect(text.replace(/&(amp|lt|gt|quot|#39);/g, '')).not.toContain('&');
      expect(typeof sheetMarkdown(made)).toBe('string');
    }),
    { numRuns: 200 },
  );
});

const whole = `instrument "x" { batch 2 }
cavity c shield depth 30mm
cavity d
channel c to d 50mm bore 3mm
plate q in c metal { v at 1 2, s at 30 4 }
place p in d
part p : humbucker-4 { lead north-start white 90mm }
part v : pot-push-pull 250k
part s : lever-5
part k : capacitor 22nF from v.1 to v.case { body 12mm }
part b : bridge-ground
part o : jack
wire p.north-start to v.3
wire v.2 to o.tip shielded screen to o.sleeve
solder v.1 to v.case to v.3
wire v.case to v.case
wire b to v.case to s.frame
build { slack 10mm }
`;

test('no text makes it throw: lines taken away, exchanged, cut short', () => {
  const lines = whole.split('\n');
  const text = fc
    .tuple(fc.shuffledSubarray(lines, { minLength: 1 }), fc.nat(400))
    .map(([some, cut]) => some.join('\n').slice(0, Math.max(20, some.join('\n').length - (cut % 40))));
  fc.assert(
    fc.property(text, (made) => {
      const broken = circuitOf(made);
      benchFindings(buildOf(broken));
      expect(sheetHtml(benchSheet(buildOf(broken)))).not.toMatch(/undefined|NaN|Infinity|\[object/);
    }),
    { numRuns: 150 },
  );
});
