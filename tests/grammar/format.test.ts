/** The one layout: fixed on the reference's example, idempotent, meaning and comments kept, broken statements left alone. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatText, parseText } from '../../language/grammar/index.js';
import { noise, salad, sound, spoilt } from './arbitrary.js';
import { readCases } from './cases.js';
import { circuits } from './circuits.js';

const runs = { seed: 11, numRuns: 300 };

/** What a text means, without places. */
function meaning(text: string): string {
  const tree = parseText('memory:/format.lug', text);
  const drop = (key: string, value: unknown) => (key === 'range' || key === 'line' ? undefined : value);
  return JSON.stringify([tree.statements, tree.problems.map(({ message }) => message)], drop, 1);
}

/** Every sign of a text that is no space, in order. */
function ink(text: string): string {
  return text.replace(/[\s\uFEFF]+/g, '');
}

function keepsItsPromises(text: string): void {
  const once = formatText(text);
  expect(formatText(once)).toBe(once);
  expect(meaning(once)).toBe(meaning(text));
  expect(ink(once)).toBe(ink(text));
}

describe('cases', () => {
  it.each(readCases('format.txt'))('$name', ({ text, expected }) => {
    expect(formatText(text)).toBe(`${expected}\n`);
    keepsItsPromises(text);
  });
});

describe('the layout', () => {
  it('leaves a text that is laid out as it is', () => {
    const laidOut = readFileSync(new URL('cases/laid-out.lug', import.meta.url), 'utf8');
    expect(formatText(laidOut)).toBe(laidOut);
  });

  it.each(Object.entries(circuits))('of the circuit "%s" keeps its promises', (_, text) => keepsItsPromises(text));

  it('ends with one line end, keeps the kind of line end and the byte-order mark, and makes nothing of nothing', () => {
    expect(formatText('part a : star')).toBe('part a : star\n');
    expect(formatText('part a : star\n\n\n')).toBe('part a : star\n');
    expect(formatText('\r\n\r\npart a:star  \r\nwire a  to b')).toBe('part a : star\r\nwire a to b\r\n');
    expect(formatText('\uFEFFpart a:star')).toBe('\uFEFFpart a : star\n');
    expect(formatText('')).toBe('');
    expect(formatText(' \n\n\t\n')).toBe('');
  });

  it('leaves no space at a line end outside of broken statements', () => {
    fc.assert(
      fc.property(sound, (text) => {
        expect(formatText(text)).not.toMatch(/[ \t]\n|\n\n\n|^\n|\n\n$/);
      }),
      runs,
    );
  });

  it('lays well-formed statements out, whatever their spacing', () => {
    fc.assert(
      fc.property(sound, (text) => {
        expect(parseText('memory:/sound.lug', text).problems).toEqual([]);
        keepsItsPromises(text);
        // Squeezed and spread texts come to the same.
        expect(formatText(text.replace(/^[ \t]+/gm, (margin) => margin + ' '))).toBe(formatText(text));
      }),
      runs,
    );
  });

  it('keeps its promises on any text', () => {
    fc.assert(fc.property(fc.oneof(noise, salad, spoilt), keepsItsPromises), { seed: 12, numRuns: 1200 });
  });
});
