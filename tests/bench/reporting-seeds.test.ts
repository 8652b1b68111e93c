/** The seeds that are only reported on: they are in the file of the reporting command and nowhere else, so nobody can tune to them. */
import { expect, test } from 'vitest';
import { filesUnder, importsOf, read, sources, targetOf } from '../harness/checkout.js';

const home = 'tests/bench/repair/report.ts';
const [, written] = /firstReportingSeed = ([\d_]+)/.exec(read(home)) ?? [];
/** All seeds of a run begin alike: its circuits are counted in the last three digits. */
const beginning = (written ?? '').replaceAll('_', '').slice(0, -3);

/** Digits with what people put between them taken out. */
function digitsOf(text: string): string {
  return text.replace(/(?<=\d)[_,.' ](?=\d)/g, '');
}

test('the seeds are found where they belong', () => {
  expect(beginning).toMatch(/^\d{6}$/);
  expect(digitsOf(read(home))).toContain(beginning);
});

test('no other file of the project names one of them', () => {
  const isText = (path: string): boolean => !/\.(png|gif|ico|woff2?|vsix|tgz|wasm|zip)$/.test(path);
  const naming = filesUnder('').filter((path) => path !== home && isText(path) && digitsOf(read(path)).includes(beginning));
  expect(naming).toEqual([]);
});

test('only the command reaches them', () => {
  const users = sources('language', 'server', 'extension', 'tests').filter((path) =>
    importsOf(path).some(({ from }) => from.startsWith('.') && targetOf(path, from) === home),
  );
  expect(users).toEqual(['tests/bench/repair.ts']);
});
