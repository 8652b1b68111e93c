/** What people bring from other notations: a decimal comma, an arrow, no `to` between two ends. Each has one message, and what it says to write is right. */
import { describe, expect, test } from 'vitest';
import { lower } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';

const parts = 'part n : single-coil\npart v : pot 250k\npart o : jack\npart c : capacitor 22nF\n';

/** The text with every edit of the first fix of each problem of its syntax, and those problems' messages. */
function rewritten(text: string): { readonly text: string; readonly messages: readonly string[] } {
  const problems = lower(parseText('memory:/a.lug', text)).problems.filter(({ rule }) => rule === 'syntax');
  const edits = problems.flatMap(({ fixes }) => fixes[0]?.edits ?? []);
  const lines = text.split('\n');
  const inOrder = edits.sort((a, b) => b.range.start.character - a.range.start.character);
  for (const { range, text: written } of inOrder) {
    const line = lines[range.start.line]!;
    lines[range.start.line] = line.slice(0, range.start.character) + written + line.slice(range.end.character);
  }
  return { text: lines.join('\n'), messages: problems.map(({ message }) => message) };
}

describe('one message and its fix', () => {
  test.each([
    [
      'part k : capacitor 0,022uF/100V',
      'part k : capacitor 0.022uF/100V',
      'a decimal is written with a point: write `0.022uF/100V`',
    ],
    ['part k : pot 2,2 M', 'part k : pot 2.2M', 'a decimal is written with a point: write `2.2M`'],
    ['part k : pot 22 k', 'part k : pot 22k', 'a value can’t contain spaces: write `22k`'],
    [
      'part k : single-coil 6,3k 2,5H { lead hot white 30,5mm }',
      'part k : single-coil 6.3k 2.5H { lead hot white 30.5mm }',
      'a decimal is written with a point: write `6.3k`',
    ],
    [
      'expect v 10 : reads 6,2k within 2,5%',
      'expect v 10 : reads 6.2k within 2.5%',
      'a decimal is written with a point: write `6.2k`',
    ],
    ['expect v 5 : level -3,5dB', 'expect v 5 : level -3.5dB', 'a decimal is written with a point: write `-3.5dB`'],
    ['wire n.hot -> v.3', 'wire n.hot to v.3', '`->` is not a sign of the language: write `to`'],
    ['wire n.hot->v.3 red', 'wire n.hot to v.3 red', '`->` is not a sign of the language: write `to`'],
    ['wire n.hot → v.3 --> o.tip', 'wire n.hot to v.3 to o.tip', '`→` is not a sign of the language: write `to`'],
    ['solder v.1 => v.case', 'solder v.1 to v.case', '`=>` is not a sign of the language: write `to`'],
    [
      'wire n.hot v.3 red 22awg',
      'wire n.hot to v.3 red 22awg',
      'found `v` where `to` is expected; a wire needs two ends: wire PART.LUG to PART.LUG',
    ],
    [
      'solder v.1 v.case',
      'solder v.1 to v.case',
      'found `v` where `to` is expected; a direct joint needs two lugs: solder PART.LUG to PART.LUG',
    ],
  ])('%s', (wrong, right, message) => {
    const { text, messages } = rewritten(`${parts}${wrong}\n`);
    expect(messages).toEqual([message]);
    expect(text).toBe(`${parts}${right}\n`);
    expect(parseText('memory:/a.lug', text).problems).toEqual([]);
  });
});

describe('no fix where another thing may be meant', () => {
  test.each([
    ['expect v 10 -> silent', '`>` is not a sign of the language'],
    ['part k -> pot 250k', '`>` is not a sign of the language'],
    ['wire n.hot red 22awg', 'found `red` where `to` is expected; a wire needs two ends: wire PART.LUG to PART.LUG'],
    ['wire n.hot bare', 'found `bare` where `to` is expected; a wire needs two ends: wire PART.LUG to PART.LUG'],
  ])('%s', (wrong, message) => {
    const { text, messages } = rewritten(`${parts}${wrong}\n`);
    expect(messages).toEqual([message]);
    expect(text).toBe(`${parts}${wrong}\n`);
  });
});

test('a wire in another notation joins the lugs that are meant', () => {
  for (const wire of ['wire n.hot -> v.3', 'wire n.hot v.3']) {
    const { joints } = lower(parseText('memory:/a.lug', `${parts}${wire}\n`));
    const right = lower(parseText('memory:/a.lug', `${parts}wire n.hot to v.3\n`)).joints;
    expect(joints.map(({ a, b }) => [a, b])).toEqual(right.map(({ a, b }) => [a, b]));
  }
});

describe('commas that separate', () => {
  test.each([
    'plate p in k { v at 20,30mm }',
    'plate p in k size 120,60mm { v at 20,30 }',
    'type s : switch {\n  lugs 1,2,3\n  positions 1,2\n  at 1 joins 1 2\n}',
    'part k : single-coil { turns 8000,magnet south }',
    'expect v 10,c 2 : silent',
  ])('%s', (text) => expect(parseText('memory:/a.lug', `${text}\n`).problems).toEqual([]));
});
