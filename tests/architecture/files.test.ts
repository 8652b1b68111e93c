/** The house's policy for files: lengths, the line that says what a file is for, the top level, no path of one machine. */
import { homedir } from 'node:os';
import { describe, expect, test } from 'vitest';
import { filesUnder, isGenerated, read, root, sources } from '../harness/checkout.js';

const written = [
  ...sources('language', 'server', 'extension', 'tests'),
  ...['server', 'extension', 'tests'].flatMap(filesUnder).filter((path) => path.endsWith('.mjs')),
];

describe('lengths of files written by hand', () => {
  const lengths = written.map((path) => ({ path, lines: read(path).split('\n').length - 1 }));
  const sorted = lengths.map(({ lines }) => lines).sort((a, b) => a - b);

  test('none is over 500 lines', () => {
    expect(lengths.filter(({ lines }) => lines > 500)).toEqual([]);
  });

  test('nine in ten are under 350, half at most 120', () => {
    expect(sorted[Math.floor(sorted.length * 0.9)]).toBeLessThan(350);
    expect(sorted[Math.floor(sorted.length / 2)]).toBeLessThanOrEqual(120);
  });
});

describe('folders', () => {
  test('none holds more than 22 files, but for the flat list of rules', () => {
    const counts = new Map<string, number>();
    for (const path of sources('language', 'server', 'extension')) {
      const folder = path.slice(0, path.lastIndexOf('/'));
      counts.set(folder, (counts.get(folder) ?? 0) + 1);
    }
    expect([...counts].filter(([folder, files]) => files > 22 && folder !== 'language/checks/rules')).toEqual([]);
  });
});

describe('each file says what it is for', () => {
  test('in a comment on its first line', () => {
    const silent = written.filter((path) => {
      const [first, second] = read(path).split('\n', 2);
      return !/^(\/\*\*|\/\/) \S.{10,}/.test(first!.startsWith('#!') ? second! : first!);
    });
    expect(silent).toEqual([]);
  });

  test('and so does each example', () => {
    const silent = filesUnder('examples').filter((path) => path.endsWith('.lug') && !/^\/[/*]/.test(read(path)));
    expect(silent).toEqual([]);
  });

  test('each stage of language/ has an index.ts', () => {
    const stages = new Set(sources('language').flatMap((path) => path.split('/').slice(1, -1).slice(0, 1)));
    const without = [...stages].filter((stage) => !written.includes(`language/${stage}/index.ts`));
    expect(without).toEqual([]);
  });

  test('what a stage’s index.ts exports by name bears a doc comment', () => {
    const bare = written
      .filter((path) => /^language\/\w+\/index\.ts$/.test(path))
      .flatMap((path) => undocumented(read(path)).map((name) => `${path}: ${name}`));
    expect(bare).toEqual([]);
  });
});

test('the top level is the one the house has', () => {
  const folders = ['examples', 'extension', 'guides', 'language', 'server', 'tests'];
  const files = [
    'CHANGELOG.md',
    'DEVELOPERS.md',
    'LICENSE',
    'README.md',
    // A forge looks for an action here.
    'action.yml',
    'eslint.config.js',
    'package-lock.json',
    'package.json',
    'package.nls.json',
    'vitest.config.mjs',
  ];
  const tsconfigs = ['tsconfig.base.json', 'tsconfig.json'];
  const top = new Set(filesUnder('').map((path) => path.split('/')[0]!));
  expect([...top].filter((name) => !name.startsWith('.') && !/\.(tgz|vsix)$/.test(name)).sort()).toEqual(
    [...folders, ...files, ...tsconfigs].sort(),
  );
});

test('no file names a path of one machine', () => {
  const isText = (path: string) => /\.(ts|mjs|js|json|md|lug|css|html|txt|langium|yml)$/.test(path) || path.startsWith('.ci/');
  const naming = filesUnder('')
    .filter((path) => isText(path) && path !== 'package-lock.json')
    .filter((path) => {
      const text = read(path);
      return text.includes(`${root}/`) || text.includes(`${homedir()}/`) || /\/(?:home|Users)\/[a-z]/.test(text);
    });
  expect(naming.filter((path) => path !== 'tests/architecture/files.test.ts')).toEqual([]);
});

test('nothing compiled lies beside its source', () => {
  const compiled = ['language', 'server', 'extension', 'tests']
    .flatMap(filesUnder)
    .filter((path) => /(\.d\.ts|\.js|\.map|\.tsbuildinfo)$/.test(path));
  expect(compiled).toEqual([]);
});

test('generated files are told apart', () => {
  expect(isGenerated('language/parts/generated/library.ts')).toBe(true);
  expect(isGenerated('language/source.ts')).toBe(false);
});

/** Names that a module declares and exports without a doc comment before them; re-exports are documented where they are declared. */
function undocumented(text: string): string[] {
  const lines = text.split('\n');
  return lines.flatMap((line, index) => {
    const declared = /^export (?:declare )?(?:async )?(?:function|const|interface|type|class) (\w+)/.exec(line);
    return declared && !/\*\/\s*$/.test(lines[index - 1] ?? '') ? [declared[1]!] : [];
  });
}
