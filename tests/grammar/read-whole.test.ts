/** What is read by the grammar's table alone is what the parser reads: the parser (langium, chevrotain-allstar) is the reference, text by text. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AstNode } from 'langium';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bodyWords, statementWords } from '../../language/grammar/index.js';
import { readWhole } from '../../language/grammar/reading/read-whole.js';
import { parseByLangium } from '../../language/grammar/reading/services.js';
import { soundTokens } from '../../language/grammar/signs.js';
import { longestStatement } from '../../language/grammar/reading/read.js';
import { scanStatements, tokensOf } from '../../language/grammar/statements.js';
import { entryOf, takesValues } from '../../language/grammar/syntax/syntax.js';
import { drawPractice } from '../practice/index.js';
import { salad, sound, spoilt } from './arbitrary.js';
import { circuits } from './circuits.js';

const folders = ['examples', 'examples/faulty', 'language/parts'];
const files = folders.flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.lug'))
    .map((name) => join(folder, name)),
);

describe('the statements of correct texts', () => {
  test.each(files)('%s', (file) => expect(compared(readFileSync(file, 'utf8')).left).toEqual([]));
  test.each(Object.keys(circuits))('the circuit %s', (name) =>
    expect(compared(circuits[name as keyof typeof circuits]).left).toEqual([]),
  );
  test.each(Array.from({ length: 40 }, (_, index) => 3001 + index))('drawn circuit %i', (seed) =>
    expect(compared(drawPractice(seed).text).left).toEqual([]),
  );
});

describe('whatever the text, it reads nothing that the parser refuses', () => {
  const runs = { seed: 20261130, numRuns: 600 };
  test('circuits with letters changed', () => fc.assert(fc.property(spoilt, isAsParsed), runs));
  test('words in any order', () => fc.assert(fc.property(salad, isAsParsed), runs));
  test('statements laid out anyhow', () => fc.assert(fc.property(sound, isAsParsed), runs));
  test('one statement whose names are words of the language', () => fc.assert(fc.property(confusing(), isAsParsed), runs));
});

test('what holds more ways than it follows is left to the parser', () => {
  const tokens = soundTokens(scanStatements(`expect ${'a 1 '.repeat(200)}`).tokens, false).tokens;
  expect(readWhole('Expect', tokens)).toBeUndefined();
});

/** Correct statements in which names, lugs and positions are words that the statement itself might go on with. */
function confusing(): fc.Arbitrary<string> {
  const name = fc.constantFrom('to', 'from', 'at', 'shield', 'series', 'open', 'wiper', 'name', 'and', 'a', 'joins', 'reversed');
  const lug = fc.tuple(name, name).map(([part, own]) => `${part}.${own}`);
  const some = <T>(one: fc.Arbitrary<T>, by: string) => fc.array(one, { minLength: 1, maxLength: 4 }).map((all) => all.join(by));
  const form = (...parts: readonly (string | fc.Arbitrary<string>)[]) =>
    fc.tuple(...parts.map((part) => (typeof part === 'string' ? fc.constant(part) : part))).map((all) => all.join(' '));
  return fc.oneof(
    form('part', some(name, ', '), ':', name, some(name, ' '), 'from', lug, 'to', lug, '{', some(name, ' '), '}'),
    form('wire', lug, 'to', some(lug, ' to '), some(name, ' '), 'screen to', some(lug, ' and ')),
    form('expect', some(form(lug, name), ', '), ':', 'sounds series(', some(lug, ', '), ')', ', silent'),
    form('measured between', lug, 'and', lug, some(form(name, name), ' '), ': reads open'),
    form('cavity', name, 'shield depth', name),
    form('plate', name, 'in', name, 'shield metal thick 2mm {', some(form(name, 'at 1 2'), ', '), '}'),
    form('allow', name, 'on', lug, '"why"'),
    form(
      'type',
      name,
      ':',
      name,
      '{\n coil',
      name,
      'from',
      name,
      'to',
      name,
      '\n track from',
      name,
      'to',
      name,
      'wiper',
      name,
      '\n}',
    ),
    form('type a : switch {\n lugs', some(name, ' '), '\n at', name, 'joins', some(some(name, ' '), ', '), '\n}'),
  );
}

function isAsParsed(text: string): void {
  compared(text);
}

/** Holds what the table reads of each statement against what the parser makes of it. Gives those that only the parser reads, though they are right. */
function compared(text: string): { readonly left: readonly string[] } {
  const scan = scanStatements(text);
  const left: string[] = [];
  for (const chunk of [...scan.chunks, ...scan.chunks.flatMap(({ body }) => body?.chunks ?? [])]) {
    const { word, form } = chunk.head;
    if (word === undefined || form !== 'written') continue;
    const tokens = soundTokens(tokensOf(scan, chunk, longestStatement), takesValues(word));
    if (tokens.problem !== undefined || tokens.missing.length > 0 || tokens.tokens.length === 0 || tokens.deepest > 50) continue;
    const isInFile = (statementWords as readonly string[]).includes(word);
    if (!isInFile && !(bodyWords as readonly string[]).includes(word)) continue;
    const read = readWhole(entryOf(word).rule, tokens.tokens);
    const { value, parserErrors } = parseByLangium(tokens, isInFile ? 'FileStatement' : 'BodyStatement', {
      head: { word, form },
    });
    const written = tokens.tokens.map(({ image }) => image).join(' ');
    if (read === undefined) {
      if (parserErrors.length === 0) left.push(written);
      continue;
    }
    expect({ written, errors: parserErrors.map(({ message }) => message) }).toEqual({ written, errors: [] });
    expect({ written, node: plain(read) }).toEqual({ written, node: plain(value) });
  }
  return { left };
}

/** A node with its place, and all that it holds, without what the parser's nodes know of each other. */
function plain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== 'object' || value === null) return value;
  const { $cstNode, $type, ...fields } = value as AstNode & Record<string, unknown>;
  const own = Object.entries(fields).filter(([name, held]) => !name.startsWith('$') && held !== undefined);
  const { start, end } = $cstNode!.range;
  return {
    $type,
    range: [start.line, start.character, end.line, end.character],
    ...Object.fromEntries(own.map(([name, held]) => [name, plain(held)])),
  };
}
