/** The circuits in the documents: each block reads without a problem, and a whole instrument is clean. */
import { describe, expect, test } from 'vitest';
import { parseText } from '../../language/grammar/index.js';
import { findings } from '../../language/findings.js';
import { createProject } from '../../language/project.js';
import { filesUnder, read } from '../harness/checkout.js';

interface Block {
  readonly place: string;
  readonly text: string;
  /** True for a file of a guide, which shows what is found in it. */
  readonly isFollowed: boolean;
}

const documents = filesUnder('').filter(
  (path) => path.endsWith('.md') && !path.startsWith('tests/') && !path.startsWith('language/checks/rules/'),
);
const blocks: Block[] = documents.flatMap((path) => {
  const text = read(path);
  return [...text.matchAll(/```lug\n([^]*?)```/g)].map((match) => ({
    place: `${path}:${text.slice(0, match.index).split('\n').length}`,
    text: match[1]!,
    isFollowed: /<!-- file: \S+ -->\n\n$/.test(text.slice(0, match.index)),
  }));
});

test('the reference shows every statement', () => {
  const kinds = new Set(blocks.flatMap(({ text }) => parseText('lug:/page.lug', text).statements.map(({ kind }) => kind)));
  const all = [
    'instrument',
    'use',
    'part',
    'wire',
    'solder',
    'cavity',
    'channel',
    'plate',
    'place',
    'rig',
    'build',
    'record',
    'actual',
    'expect',
    'measured',
    'allow',
    'type',
  ];
  expect([...kinds].sort()).toEqual(all.sort());
});

const instruments = blocks.filter(({ text, isFollowed }) => !isFollowed && /^instrument\b/m.test(text) && /^wire\b/m.test(text));
const libraries = blocks.filter(({ text }) => /^type\b/m.test(text));

describe('circuits in the documents', () => {
  test.each(blocks)('$place reads without a problem', ({ text }) => {
    expect(parseText('lug:/page.lug', text).problems).toEqual([]);
  });

  test.each(instruments)('$place is clean', ({ text }) => {
    const circuit = createProject({ read: () => text }).circuit('lug:/page.lug')!;
    expect(findings(circuit).filter(({ severity }) => severity === 'error' || severity === 'warning')).toEqual([]);
  });

  test.each(libraries)('$place declares types without a problem', ({ text }) => {
    expect(createProject({ read: () => text }).circuit('lug:/page.lug')!.problems).toEqual([]);
  });
});
