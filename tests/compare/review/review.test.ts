/** The branches of a workshop reviewed: verdict, gates, and the page as a comment takes it. */
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { inProcessAsync } from '../../harness/in-process.js';
import { folderWith } from '../../harness/process.js';
import { repositoryWith } from '../../harness/repository.js';
import { base } from '../cases.js';
import { branches } from './branches.js';
import { createWorkshop, files } from './workshop.js';

const workshop = createWorkshop();
for (const { name, edit } of branches) workshop.branch(name, edit);
const gates = ['silent', 'lost', 'weakened', 'allow', 'reading'];

async function compare(...words: readonly string[]): Promise<string> {
  const { code, out, err } = await inProcessAsync(['compare', ...words], workshop.folder);
  expect([code, err]).toEqual([0, '']);
  return out;
}

describe('a branch gets the verdict that a maintainer gives', () => {
  test.each(branches.map((branch) => [branch.name, branch] as const))('%s', async (name, { verdict, says, stops }) => {
    const text = await compare('--git', `main...${name}`, '.');
    expect(text.split('\n')[0]!.replace(/^.*?: /, '')).toBe(verdict);
    for (const line of says) expect(text).toContain(line);
    const comment = await compare('--git', `main...${name}`, '--format', 'markdown', '.');
    expect(comment.length).toBeLessThan(60_000);
    const stopped: string[] = [];
    for (const gate of gates) {
      const { code } = await inProcessAsync(['compare', '--git', `main...${name}`, '--fail-on', gate, '.'], workshop.folder);
      if (code === 1) stopped.push(gate);
    }
    expect(stopped).toEqual(stops);
  });
});

describe('the page', () => {
  test('is one comment of at most 60,000 characters however much differs, and says how much it leaves out', async () => {
    const many = folderWith(
      Object.fromEntries(
        Array.from({ length: 300 }, (_, number) => [
          [`old/no-${number}.lug`, circuit(number, 'selector.B3')],
          [`new/no-${number}.lug`, circuit(number, number % 2 === 0 ? 'selector.B1' : 'selector.A1')],
        ]).flat(),
      ),
    );
    const { out } = await inProcessAsync(['compare', '--format', 'markdown', 'old', 'new'], many);
    expect(out.length).toBeGreaterThan(50_000);
    expect(out.length).toBeLessThanOrEqual(60_000);
    const listed = out.match(/^### Alder Lane/gm)!.length;
    const omitted = Number(/^(\d+) more circuits not listed\.$/m.exec(out)?.[1] ?? 0);
    expect(listed + omitted).toBe(300);
    expect(out).toContain('### Wiring: 300 circuits: ');
  });

  test('makes no markup, link, mention or reference of a name', async () => {
    const hostile = '<img src=x> @everyone #12 [x](javascript:alert(1)) **b** https://example.org | a </details> `x`';
    const name = (lug: string): string =>
      circuit(1, lug).replace('Alder Lane no. 1', hostile).replace('"bridge" "both"', `"${hostile}" "both"`);
    const files = folderWith({
      'old/a @b.lug': name('selector.B3'),
      'new/a @b.lug': `${name('selector.B1')}allow idle-wire "${hostile}"\n`,
      'new/c `d`.lug': name('selector.B3'),
    });
    const { out } = await inProcessAsync(['compare', '--format', 'markdown', 'old', 'new'], files);
    const MarkdownIt = createRequire(import.meta.url)('markdown-it') as new (options: object) => {
      parse(text: string, environment: object): Token[];
    };
    interface Token {
      readonly type: string;
      readonly content: string;
      readonly children: readonly Token[] | null;
    }
    const all = (tokens: readonly Token[]): Token[] => tokens.flatMap((token) => [token, ...all(token.children ?? [])]);
    const markup = all(new MarkdownIt({ html: true }).parse(out, {})).filter(({ type }) =>
      /^(html|link|image|s_|code)/.test(type),
    );
    const own = /^(<!-- lugwork: wiring review -->|<\/?details>)\n?(<summary>[\w ,]*<\/summary>\n?)?$/;
    expect(markup.filter(({ content }) => !own.test(content))).toEqual([]);
    expect(markup.length).toBeGreaterThan(2);
    expect(out).not.toMatch(/(?<!\\)@[a-z]|(?<!\\)#12/);
  });

  test('a file of parts is reviewed by the circuits that use it', async () => {
    const text = await compare('--git', 'main...mute-exchanged-in-the-house', 'parts/house.lug');
    expect(text).toContain('circuits/no-44.lug');
    expect(text).not.toContain('no circuit');
  });

  test('two folders of the disk are paired by path, then by content', async () => {
    const one = circuit(1, 'selector.B3');
    const files = folderWith({
      'old/a.lug': one,
      'old/gone.lug': circuit(2, 'selector.B3').split('\n').reverse().join('\n'),
      'new/b.lug': one.replace('to selector.B3', 'to selector.B1'),
      'new/fresh.lug': '/** Parts. */\ntype house-pot : pot { takes resistance 500k, taper audio|linear }\n',
    });
    const { out } = await inProcessAsync(['compare', 'old', 'new'], files);
    expect(out).toContain('renamed: a.lug is now b.lug, “Alder Lane no. 1”');
    expect(out).toContain('deleted: gone.lug');
    expect(out).toContain('added: fresh.lug');
    expect(out).toContain('b.lug: 1 position silent');
  });

  test('what an ignore file of a version passes over is in neither', async () => {
    const { folder } = repositoryWith({
      '.lugignore': 'faulty\n',
      'a.lug': circuit(1, 'selector.B3'),
      'faulty/b.lug': circuit(2, 'selector.B1'),
    });
    for (const range of ['HEAD', 'HEAD..HEAD']) {
      const { out } = await inProcessAsync(['compare', '--git', range, '.'], folder);
      expect(out).toContain(': nothing differs in 1 circuit');
    }
  });

  test('paths in JSON are those of the repository, from any folder', async () => {
    const { out } = await inProcessAsync(
      ['compare', '--git', 'main...lead-on-a-dead-lug', '--format', 'json', '.'],
      join(workshop.folder, 'circuits'),
    );
    expect(JSON.parse(out)).toMatchObject({
      version: 1,
      counts: { silent: 1, lost: 0, weakened: 0 },
      circuits: [
        {
          path: 'circuits/no-42.lug',
          because: [],
          change: { wires: [{ kind: 'moved', after: { path: 'circuits/no-42.lug' } }] },
        },
      ],
    });
  });

  test('an annotation is put at the shared file, too, in the line that changed', async () => {
    const text = await compare('--git', 'main...mute-exchanged-in-the-house', '--format', 'github', '.');
    const line = files['parts/house.lug']!.split('\n').findIndex((one) => one.includes('at "play"')) + 1;
    expect(text).toContain(`::error file=parts/house.lug,line=${line},`);
  });

  test('a release note says what is to be done on an instrument that is built, with the cautions', async () => {
    const text = await compare('--git', 'main..lead-on-a-dead-lug', '--format', 'release-note', '.');
    expect(text).toContain('1. Unsolder the lead neck.hot at selector.B3 and solder it to selector.B1.');
    expect(text).toContain('| selector "neck" | 7.39 kΩ → **500 kΩ** |');
    expect(text).toContain('Unplug from the amplifier');
    expect(text).toContain('local code');
    expect(await compare('--git', 'main..part-renamed', '--format', 'release-note', '.')).toContain('No circuit changes');
  });

  test('a gate that is no gate, a folder beside a file and a picture of many are refused', async () => {
    for (const [words, message] of [
      [['--fail-on', 'loud', '.', '.'], /--fail-on takes silent, lost, weakened, allow and reading/],
      [['circuits', 'circuits/no-41.lug'], /two files or two folders/],
      [['--git', 'main', '--format', 'svg', '.'], /draws one circuit/],
    ] as const) {
      const { code, err } = await inProcessAsync(['compare', ...words], workshop.folder);
      expect(code).toBe(2);
      expect(err).toMatch(message);
    }
  });
});

function circuit(number: number, lug: string): string {
  return base('two').replace('no. 42', `no. ${number}`).replace('wire neck.hot to selector.B3', `wire neck.hot to ${lug}`);
}
