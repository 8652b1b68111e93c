/** Every statement form reads as it should, and what cannot be read is told in trade words at its place. */
import { describe, expect, it } from 'vitest';
import { parseText } from '../../language/grammar/index.js';
import { readCases } from './cases.js';
import { say } from './say.js';

describe('statement forms', () => {
  it.each(readCases('forms.txt'))('$name', ({ text, expected }) => {
    expect(say(text)).toBe(expected);
  });
});

describe('what is said about mistakes', () => {
  it.each(readCases('messages.txt'))('$name', ({ text, expected }) => {
    expect(say(text)).toBe(expected);
  });

  it('speaks no word of the parser', () => {
    const said = readCases('messages.txt')
      .map(({ text }) => say(text))
      .join('\n');
    expect(said).not.toMatch(/\b(token|NAME\b.*(Expecting|expecting)|PLAIN|FREE|VALUE|EOF|undefined|null|keyword|parser?)\b/);
  });
});

describe('how a text is cut into statements', () => {
  const statements = (text: string) => parseText('memory:/cut.lug', text).statements.map((statement) => statement.kind);
  const joined = [
    'wire a.1\n  to b.1',
    'wire a.1 to\nb.1',
    'wire a.1\nto b.1',
    'wire a.1 to b.1\n    white',
    'part a,\nb : star',
  ];

  it.each(joined)('one statement over several lines: %j', (text) => {
    const tree = parseText('memory:/cut.lug', text);
    expect(tree.problems).toEqual([]);
    expect(tree.statements).toHaveLength(1);
  });

  it('reads any line end, tabs, a byte-order mark, and no line end at the end', () => {
    const lines = ['part a : star', 'wire a', '\tto b', '\tto c', '', 'part b : star'];
    for (const end of ['\n', '\r\n', '\r']) {
      const tree = parseText('memory:/cut.lug', `\uFEFF${lines.join(end)}`);
      expect(tree.problems).toEqual([]);
      expect(tree.statements.map(({ kind, line }) => `${kind} ${line}`)).toEqual(['part 0', 'wire 1', 'part 5']);
    }
  });

  it('takes a statement word at a line start for a statement, however deep it stands', () => {
    expect(statements('part a : star\n      wire a to b\n  part b : star')).toEqual(['part', 'wire', 'part']);
  });

  it('does not swallow an unindented line that nothing joins', () => {
    expect(say('wire a.1 to b.1\nwhite\nwire c to d')).toContain('! 2:0-5 `white` is an unknown statement');
  });

  it('reads names in any alphabet, and any word of the language as a name', () => {
    const text = 'part Тон, ηχώ, 音, wire-2 : star\npart to, part, wire : star\nwire Тон to wire.to\nsolder part.from to to.wire';
    expect(parseText('memory:/names.lug', text).problems).toEqual([]);
  });

  it('gives a doc comment to the statement after it, in a type as well', () => {
    const text = '/** One\n * two. */\npart a : star\n/* plain */ part b : star\ntype t : metal {\n  /** Three. */\n  lugs x\n}';
    const [a, b, type] = parseText('memory:/doc.lug', text).statements;
    expect(a!.doc).toBe('One\ntwo.');
    expect(b!.doc).toBeUndefined();
    expect(type!.kind === 'type' && type.body[0]!.doc).toBe('Three.');
  });

  it('counts places from the first line of the statement', () => {
    const [first, second] = parseText('memory:/places.lug', 'part a : star\n  wire a.1\n    to bb.22 white').statements;
    expect(first!.line).toBe(0);
    expect(second!.line).toBe(1);
    if (second!.kind !== 'wire') throw new Error('a wire was expected');
    expect(second.range).toEqual({ start: { line: 0, character: 2 }, end: { line: 1, character: 18 } });
    expect(second.ends[1]!.path[1]!.range).toEqual({ start: { line: 1, character: 10 }, end: { line: 1, character: 12 } });
    expect(second.options[0]!.range.start).toEqual({ line: 1, character: 13 });
  });
});
