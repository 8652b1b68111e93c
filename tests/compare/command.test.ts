/** `lugwork compare` as a process: its forms, its exit code, and what it refuses. */
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { inProcessAsync } from '../harness/in-process.js';
import { folderWith, lugwork } from '../harness/process.js';
import { base, edited } from './cases.js';

const old = base('two');
const moved = edited(old, '- wire neck.hot to selector.B3\n+ wire neck.hot to selector.A3\n');
const recoloured = old.replace('output.tip white', 'output.tip yellow');
const folder = folderWith({
  'old.lug': old,
  'moved.lug': moved,
  'recoloured.lug': recoloured,
  'broken.lug': `${old}wire neck.hto to volume.3\n`,
});

async function compare(...words: string[]): Promise<string> {
  const { code, out, err } = await inProcessAsync(['compare', ...words], folder);
  expect([code, err]).toEqual([0, '']);
  return out;
}

describe('text', () => {
  test('names both files and the summary in its first line, whatever differs the exit code is 0', async () => {
    expect((await compare('old.lug', 'moved.lug')).split('\n')[0]).toBe('old.lug → moved.lug: electrical change');
    expect(await compare('old.lug', 'old.lug')).toBe('old.lug → old.lug: no electrical change\n');
    expect(await compare('old.lug', 'recoloured.lug')).toContain('no electrical change');
  });

  test('says nothing electrical of files that hold types alone', async () => {
    const types = (value: string) => `type house-pot : pot { takes resistance ${value}, taper audio|linear }\n`;
    const files = folderWith({ 'a.lug': types('500k'), 'b.lug': types('250k') });
    const { code, out } = await inProcessAsync(['compare', 'a.lug', 'b.lug'], files);
    expect([code, out]).toEqual([0, 'a.lug → b.lug: neither file contains a circuit; compare the circuits that use them\n']);
  });

  test('says first where a text has errors, in every format, and compares the rest', async () => {
    for (const format of ['text', 'markdown', 'json']) {
      const { code, out, err } = await inProcessAsync(['compare', '--format', format, 'old.lug', 'broken.lug'], folder);
      expect(code).toBe(0);
      expect(err).toMatch(/^lugwork: broken\.lug has 1 error in its text/);
      expect(out).not.toMatch(/no (electrical )?change/);
      expect(out).toContain('incomplete comparison: 1 error in the text of the new version');
      expect(out).toMatch(/line 28: neck has no lug hto/);
    }
    const change = JSON.parse(
      await inProcessAsync(['compare', '--format', 'json', 'old.lug', 'broken.lug'], folder).then(({ out }) => out),
    ) as object;
    expect(change).toMatchObject({
      electrical: true,
      expectations: [],
      unread: [{ version: 'new', errors: 1, range: { range: { start: { line: 27 } } } }],
    });
  });

  test('says so of conflict markers too', async () => {
    const conflict = old.replace(
      'wire neck.hot to selector.B3\n',
      '<<<<<<< ours\nwire neck.hot to selector.B3\n=======\nwire neck.hot to selector.A3\n>>>>>>> theirs\n',
    );
    const files = folderWith({ 'old.lug': old, 'conflict.lug': conflict });
    const { out } = await inProcessAsync(['compare', 'old.lug', 'conflict.lug'], files);
    expect(out.split('\n')[0]).toMatch(
      /^old\.lug → conflict\.lug: incomplete comparison: \d+ errors in the text of the new version$/,
    );
  });
});

describe('json', () => {
  test('is the change with places by path, counted from 0', async () => {
    const change = JSON.parse(await compare('--format', 'json', 'old.lug', 'moved.lug')) as Record<string, unknown>;
    const line = old.split('\n').indexOf('wire neck.hot to selector.B3');
    expect(change).toMatchObject({
      old: { path: 'old.lug', title: 'Alder Lane no. 42' },
      new: { path: 'moved.lug' },
      electrical: true,
      wires: [
        {
          kind: 'moved',
          joint: 'wire',
          ends: { before: ['neck.hot', 'selector.B3'], after: ['neck.hot', 'selector.A3'] },
          before: { path: 'old.lug', range: { start: { line } } },
          after: { path: 'moved.lug', range: { start: { line } } },
        },
      ],
      positions: [{ label: 'selector "both"', hum: { before: 'cancelled', after: 'present' } }],
    });
  });
});

describe('svg', () => {
  test('marks by letter and line style what is new, gone, moved and otherwise', () => {
    const text = edited(
      old,
      '- wire saddle to volume.case black 22awg\n- wire neck.hot to selector.B3\n+ wire neck.hot to selector.A3\n',
    ).replace('volume.2 to output.tip white', 'volume.2 to output.tip yellow');
    const four = folderWith({ 'old.lug': old, 'new.lug': `${text}wire bridge.ground to output.sleeve\n` });
    const { out, err, code } = lugwork(['compare', '--format', 'svg', 'old.lug', 'new.lug'], four);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    // On the drawing, and before its sentence; what has moved also where it was.
    const badges = [...out.matchAll(/>([NGMC])\d+<\/text>/g)].map(([, letter]) => letter);
    expect(badges.sort()).toEqual(['C', 'C', 'G', 'G', 'M', 'M', 'M', 'N', 'N']);
    for (const [kind, dashes] of [
      ['moved', '14 5 4 5'],
      ['changed', '4 5'],
    ] as const) {
      expect(out).toContain(`.change.${kind} .line{stroke-dasharray:${dashes}}`);
      expect(out).toContain(`<g class="change ${kind}"><path class="line" `);
    }
    expect(out).toMatch(/\.change \.was\{[^}]*stroke-dasharray:9 6/);
    expect(out).toContain('<g class="change gone"><path class="was" ');
    expect(out).toMatch(/>M1<\/text><text [^>]*>wire neck.hot to selector.B3: the end at selector.B3 moves to selector.A3</);
  });
});

describe('markdown for a comment', () => {
  interface Token {
    readonly type: string;
    readonly content: string;
    readonly children: readonly Token[] | null;
  }
  const MarkdownIt = createRequire(import.meta.url)('markdown-it') as new (options: object) => {
    parse(text: string, environment: object): readonly Token[];
    readonly linkify: { set(options: object): void };
  };
  const all = (tokens: readonly Token[]): Token[] => tokens.flatMap((token) => [token, ...all(token.children ?? [])]);

  test('holds a table of the positions', async () => {
    const out = await compare('--format', 'markdown', 'old.lug', 'moved.lug');
    expect(out).toContain('### Alder Lane no. 42: electrical change');
    expect(out).toContain('| position | sounds | hum | reads | peak | level |');
    expect(out).toContain('- **moved** wire neck.hot to selector.B3: the end at selector.B3 moves to selector.A3');
  });

  test('puts findings and expectations before the wires, and the claims of one position into one line', async () => {
    const expecting = `${old}expect selector "neck" : sounds neck, hum present, reads 7.1k within 20%\n`;
    const files = folderWith({
      'a.lug': expecting,
      'b.lug': expecting.replace('wire neck.hot to selector.B3\n', ''),
    });
    const { out } = await inProcessAsync(['compare', '--format', 'markdown', 'a.lug', 'b.lug'], files);
    const headings = [...out.matchAll(/^#### (.*)$/gm)].map(([, heading]) => heading);
    expect(headings).toEqual(['Positions', 'Findings', 'Expectations', ...headings.slice(3)]);
    expect(headings.slice(3)).toContain('Wires');
    const lines = out.split('\n').filter((line) => line.startsWith('- broken at selector "neck"'));
    expect(lines).toHaveLength(1);
    // The volume's track alone: 500 k less and more 20 %, the meter's 1 % and one in the third digit.
    expect(lines[0]).toMatch(
      /: sounds neck, hum present \(nothing is heard\); reads 7\.1k within 20% \(the meter reads 500k \(395k to 607k\)\)$/,
    );
  });

  test('names no folder of this machine', async () => {
    const files = folderWith({ 'a/x.lug': old, 'b/x.lug': moved, 'c/y.lug': old });
    for (const [one, other, name] of [
      [`${files}/a/x.lug`, `${files}/b/x.lug`, 'x.lug'],
      [`${files}/c/y.lug`, `../${files.split('/').at(-1)!}/b/x.lug`, 'y.lug → x.lug'],
      [`${files}/a`, `${files}/b`, 'a → b'],
      ['a/x.lug', 'b/x.lug', 'a/x.lug → b/x.lug'],
    ] as const) {
      for (const format of ['markdown', 'release-note']) {
        const { out, code } = await inProcessAsync(['compare', '--format', format, one, other], files);
        expect(code).toBe(0);
        if (format === 'markdown') expect(out.replaceAll('\\', '')).toContain(`\n${name}\n`);
        expect(out).not.toContain(files);
      }
    }
  });

  test('makes no markup, link, mention or reference of a name', async () => {
    const hostile = [
      '<img src=x onerror=alert(1)> @everyone #12 GH-7 [x](javascript:alert(1)) **b** https://example.org | a',
      '<script>alert(1)</script> `x` </details> $x$ www.example.org &lt;b&gt; ~~s~~ _i_ ![p](http://e.org/x.png)',
    ];
    const name = (text: string): string =>
      old
        .replace('Alder Lane no. 42', text)
        .replace('"bridge" "both"', `"${hostile[1]!}" "${hostile[0]!}"`)
        .replace('selector "both"', 'selector 2');
    const files = folderWith({
      'a.lug': name(hostile[0]!),
      'b.lug': name(hostile[1]!).replace('to selector.B3', 'to selector.A3'),
    });
    const { out, code } = await inProcessAsync(['compare', '--format', 'markdown', 'a.lug', 'b.lug'], files);
    expect(code).toBe(0);
    const reader = new MarkdownIt({ html: true, linkify: true });
    // As the sites do: what begins with a scheme or www is a link, not every name with a dot.
    reader.linkify.set({ fuzzyLink: false });
    const tokens = all(reader.parse(out, {}));
    const markup = tokens.filter(({ type }) => /^(html|link|image|em_|s_|code)/.test(type));
    // The comment's own folds are the only markup.
    expect(markup.filter(({ content }) => !/^<\/?details>\n?(<summary>.* \(\d+\)<\/summary>\n?)?$/.test(content))).toEqual([]);
    const shown = tokens
      .filter(({ type }) => type === 'text')
      .map(({ content }) => content)
      .join(' ');
    expect(shown).not.toMatch(/@[a-z]|#\d|GH-\d|:\/\/|www\.[a-z]/i);
    expect(shown).toContain('<script>alert(1)</script>');
  });
});

describe('refuses what it cannot compare, with exit code 2', () => {
  test.each([
    [['old.lug'], /needs OLD NEW/],
    [['old.lug', 'moved.lug', 'old.lug'], /one argument too many/],
    [['old.lug', 'none.lug'], /none\.lug: this file can’t be read/],
    [['--git', '-x', 'old.lug'], /is no revision|needs a value/],
    [['--git', '--upload-pack=x', 'old.lug'], /is no revision|no option/],
    [['--git', 'HEAD', 'old.lug', 'moved.lug'], /takes one FILE/],
    [['--textconv', 'old.lug', 'moved.lug'], /takes one FILE/],
    [['--git', 'HEAD', 'old.lug'], /no commit HEAD/],
  ] as const)('%j', async (words, message) => {
    const { code, out, err } = await inProcessAsync(['compare', ...words], folder);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });
});

describe('several outputs', () => {
  const two = base('jacks');
  const files = folderWith({ 'two.lug': two, 'one.lug': edited(two, '- wire rear-volume.2 to second.tip yellow 24awg\n') });
  const of = async (format: string): Promise<string> =>
    (await inProcessAsync(['compare', '--format', format, 'two.lug', 'one.lug'], files)).out;

  test('each row says at which it is heard', async () => {
    expect(await of('text')).toContain('\n  at second.tip: sounds rear becomes silent; reads 7.39 kΩ becomes open\n');
    expect(await of('markdown')).toContain('| at second.tip | rear → **silent** |');
    expect(JSON.parse(await of('json'))).toMatchObject({
      positions: [{ output: 'second.tip', label: 'at second.tip', sounds: { before: 'rear', after: 'silent' } }],
    });
  });

  test('and so does each row of the facts that git compares', async () => {
    const { out } = await inProcessAsync(['compare', '--textconv', 'two.lug'], files);
    // 7.5 k beside 500 k at both; levels and peaks by the closed form of `cases/10`.
    expect(out).toContain('position at output.tip: sounds front; reads 7.39 kΩ;');
    expect(out).toContain('position at second.tip: sounds rear; reads 7.39 kΩ;');
  });
});
