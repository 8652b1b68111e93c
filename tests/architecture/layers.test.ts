/** The layers: who may import whom, read from the import statements themselves. */
import { describe, expect, test } from 'vitest';
import { importsOf, read, sources, targetOf } from '../harness/checkout.js';

/** The stages of `language/` in the order of the data; `parts` is text that `circuit` reads. */
const stages = [
  'parts',
  'grammar',
  'coil',
  'circuit',
  'table',
  'fit',
  'numerics',
  'electrics',
  'checks',
  'intent',
  'workshop',
  'drawing',
  'compare',
  'live',
  'hear',
];
/** What every stage may import: words for places, small helpers, the cautions, the count of work and work in steps; other files beside the stages tie them together. */
const leaves = [
  'language/source.ts',
  'language/nearest.ts',
  'language/cautions.ts',
  'language/escape.ts',
  'language/work.ts',
  'language/words.ts',
  'language/steps.ts',
  'language/collections.ts',
  'language/lazy.ts',
  'language/claim.ts',
];
/** Packages without editor, Node or DOM in them. */
const plain = ['langium', 'chevrotain'];

const language = sources('language');
const everything = sources('language', 'server', 'extension');

/** Broken rules as lines `file imports module`. */
function offences(files: readonly string[], isWrong: (from: string, path: string) => boolean): string[] {
  return files.flatMap((path) =>
    importsOf(path)
      .filter(({ from }) => isWrong(from, path))
      .map(({ from }) => `${path} imports ${from}`),
  );
}

function isRelative(from: string): boolean {
  return from.startsWith('.');
}

function stageOf(path: string): number {
  return stages.indexOf(path.split('/')[1]!);
}

describe('language/ is pure', () => {
  test('it imports langium’s core and itself', () => {
    expect(offences(language, (from) => !isRelative(from) && !plain.includes(from))).toEqual([]);
  });

  test('it imports nothing outside its folder', () => {
    expect(offences(language, (from, path) => isRelative(from) && !targetOf(path, from).startsWith('language/'))).toEqual([]);
  });

  test('it is compiled without Node, the DOM or an editor', () => {
    const { compilerOptions } = JSON.parse(read('language/tsconfig.json')) as {
      compilerOptions: { lib: string[]; types: string[] };
    };
    expect(compilerOptions.lib).toEqual(['es2022']);
    expect(compilerOptions.types).toEqual([]);
  });

  test('nothing of it is imported for its effect alone, which the bundler would leave out', () => {
    expect(everything.filter((path) => /^import '[^']*\/language\//m.test(read(path)))).toEqual([]);
    expect(language.filter((path) => /^import '/m.test(read(path)))).toEqual([]);
  });

  test('it asks for no clock and no chance', () => {
    const clock = /\bDate[.(]|\bnew Date\b|\bperformance\b|\bhrtime\b|\bset(Timeout|Interval|Immediate)\b|\bMath\.random\b/;
    expect(language.filter((path) => clock.test(read(path)))).toEqual([]);
  });
});

describe('the stages', () => {
  test('each imports earlier ones only', () => {
    const late = offences(
      language,
      (from, path) => isRelative(from) && stageOf(path) >= 0 && stageOf(targetOf(path, from)) > stageOf(path),
    );
    expect(late).toEqual([]);
  });

  test('none imports what ties them together', () => {
    const isHost = (target: string) => /^language\/[\w-]+\.ts$/.test(target) && !leaves.includes(target);
    expect(offences(language, (from, path) => stageOf(path) >= 0 && isRelative(from) && isHost(targetOf(path, from)))).toEqual(
      [],
    );
  });

  test('from electrics on nothing sees a syntax tree', () => {
    const after = language.filter((path) => stageOf(path) >= stages.indexOf('electrics'));
    expect(offences(after, (from, path) => targetOf(path, from).startsWith('language/grammar/'))).toEqual([]);
  });
});

describe('what is known in one place', () => {
  test('only server/ knows the Language Server Protocol', () => {
    const outside = everything.filter((path) => !path.startsWith('server/'));
    expect(offences(outside, (from) => /^vscode-(languageserver|jsonrpc)/.test(from) || from.startsWith('langium/lsp'))).toEqual(
      [],
    );
  });

  test('only extension/ knows the editor', () => {
    const outside = everything.filter((path) => !path.startsWith('extension/'));
    expect(offences(outside, (from) => from === 'vscode' || from.startsWith('vscode-languageclient'))).toEqual([]);
  });

  test('at most one file knows the layout engine, and it stands in server/', () => {
    const knowing = everything.filter((path) => importsOf(path).some(({ from }) => from.startsWith('elkjs')));
    expect(knowing.length).toBeLessThanOrEqual(1);
    expect(knowing.filter((path) => !path.startsWith('server/'))).toEqual([]);
  });

  test('the command knows no editor and no protocol', () => {
    const command = everything.filter((path) => path.startsWith('server/command/') || path.startsWith('server/docs/'));
    expect(offences(command, (from) => /^(vscode|langium)/.test(from))).toEqual([]);
  });
});

describe('what a text cannot bring about', () => {
  test('another program runs nowhere but for git, where it is asked for; the editor’s own client starts the server', () => {
    expect(offences(everything, (from) => /^(node:)?(child_process|cluster)$/.test(from))).toEqual([
      'server/command/reading/git.ts imports node:child_process',
    ]);
    expect(read('server/command/reading/git.ts')).not.toMatch(/shell:\s*true|\bexec\(|execSync\(/);
  });

  test('nothing is made of a string: no mark-up but through the drawing’s own parser, no code, no trusted Markdown', () => {
    const making = /\.(inner|outer)HTML\b|insertAdjacentHTML|document\.write|\beval\(|new Function\(|isTrusted|supportHtml/;
    expect(everything.filter((path) => making.test(read(path)))).toEqual([]);
  });
});

test('the reader of imports reads all forms', () => {
  const found = importsOf('tests/architecture/forms.txt');
  expect(found.map(({ from }) => from)).toEqual(['a', 'b', 'c', 'd', 'e', 'f', 'g']);
  expect(found.filter(({ isType }) => isType).map(({ from }) => from)).toEqual(['c', 'f']);
});
