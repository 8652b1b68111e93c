/** Every line that the pages and the help show for the shell is run as it stands, in a folder as they assume it. */
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { commands } from '../../server/command/commands/index.js';
import { read, root } from '../harness/checkout.js';
import { folderWith } from '../harness/process.js';

/** What sets up the checkout or a project around it, or belongs to a shell or an editor: tried elsewhere. */
const elsewhere = /^npm (start|test|install|ci|run)\b|\blugwork (completion|language-server)\b/;
/** What says on stderr what it has done. */
const account = /--diff\b/;

const pages = [
  'README.md',
  'guides/bench.md',
  'guides/build.md',
  'guides/measure-a-pickup.md',
  'guides/review.md',
  'guides/wrong-pin.md',
  'DEVELOPERS.md',
  'server/README.md',
  'extension/README.md',
  'language/reference.md',
  'language/reference-versions.md',
];
const shown = pages.flatMap((page) =>
  [...read(page).matchAll(/```sh\n([^]*?)```/g)].flatMap(([, block]) =>
    block!
      .split('\n')
      .filter((line) => line !== '' && !elsewhere.test(line))
      .map((line) => ({ page, line })),
  ),
);
const inHelp = commands.flatMap(({ name, examples }) =>
  examples.filter((line) => !elsewhere.test(line)).map((line) => ({ page: `lugwork ${name} --help`, line })),
);

let folder: string;
let path: string;

beforeAll(() => {
  const three = read('examples/two-single-coils-lever-3.lug');
  folder = folderWith({
    '.gitattributes': '*.lug diff=lug\n',
    'first.lug': /```lug\n([^]*?)```/.exec(read('server/README.md'))![1]!,
    'second.lug': read('examples/one-pickup-volume-tone.lug'),
    'no-3.lug': three,
    'draft.txt': three,
    'no-3.no-2.lug': read('examples/two-single-coils-lever-3.no-2.lug').replaceAll('two-single-coils-lever-3.lug', 'no-3.lug'),
    // Small enough for one page.
    'no-17.lug': `${read('examples/one-pickup-volume-tone.lug')}\ncavity rear\nplate controls in rear { volume at 20 20, tone at 60 20 }\n`,
    'no-291.lug': /```lug\n([^]*?)```/.exec(read('guides/wrong-pin.md'))![1]!,
    'no-31.lug': read('examples/old-instrument-traced.lug'),
    'base.lug': three,
    'ours.lug': three,
    'theirs.lug': three.replace('white 22awg', 'blue 22awg'),
    'old.lug': three,
    'new.lug': read('examples/two-single-coils-lever-4.lug'),
    'circuits/no-1.lug': read('examples/one-pickup-volume-tone.lug'),
    'wires.csv':
      'from,to,colour\nneck.hot,volume.3,white\nneck.ground,volume.case,black\nbridge.north-start,volume.3,\nbridge.south-start,volume.case,\nvolume.2,output.tip,\nvolume.case,output.sleeve,\n',
    'impedance.csv': read('examples/measured/covered-pickup-impedance.csv'),
    'alone.csv': read('examples/measured/covered-pickup-470pf.csv'),
    'with-1nF.csv': read('examples/measured/covered-pickup-1470pf.csv'),
    'known.json': '{ "version": 1, "findings": [] }\n',
    'bin/lugwork': `#!/bin/sh\nexec "${process.execPath}" "${join(root, 'dist', 'lugwork.mjs')}" "$@"\n`,
    // `npx` finds the installed command; here it stands on the path.
    'bin/npx': '#!/bin/sh\nexec "$@"\n',
  });
  for (const name of ['lugwork', 'npx']) chmodSync(join(folder, 'bin', name), 0o755);
  path = `${join(folder, 'bin')}${delimiter}${process.env['PATH']}`;
  mkdirSync(join(folder, 'examples'));
  cpSync(join(root, 'examples'), join(folder, 'examples'), { recursive: true });
  git('init', '-q', '-b', 'main');
  git('add', '.');
  git('commit', '-q', '-m', 'As it was');
  git('tag', 'v1.0');
  git('checkout', '-q', '-b', 'change');
  writeFileSync(join(folder, 'no-3.lug'), three.replace('white 22awg', 'blue 22awg'));
  git('commit', '-q', '-a', '-m', 'A blue wire');
  git('tag', 'v1.1');
  // Something waits for the next commit, which is looked at before.
  writeFileSync(join(folder, 'circuits', 'no-2.lug'), three);
  git('add', '.');
});

describe.skipIf(process.platform === 'win32')('runs and complains of nothing', () => {
  test('there are lines', () => expect(Math.min(shown.length, inHelp.length)).toBeGreaterThan(15));

  test.each([...shown, ...inHelp])('$page: $line', ({ line }) => {
    // What goes on until Ctrl+C gets it.
    const isEndless = line.includes('--watch');
    const ended = isEndless ? ({ timeout: 5000, killSignal: 'SIGINT' } as const) : {};
    const env = { ...process.env, PATH: path };
    const run = spawnSync('/bin/sh', ['-c', isEndless ? `exec ${line}` : line], { cwd: folder, encoding: 'utf8', env, ...ended });
    expect({ code: run.status, err: run.stderr }, run.stdout).toEqual({
      code: 0,
      err: account.test(line) ? expect.stringMatching(/fix/) : '',
    });
  });
});

function git(...words: string[]): void {
  const who = ['-c', 'user.name=Alder Lane', '-c', 'user.email=bench@example.org', '-c', 'commit.gpgsign=false'];
  execFileSync('git', [...who, ...words], { cwd: folder, stdio: ['ignore', 'ignore', 'inherit'] });
}
