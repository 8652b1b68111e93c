/** `expect` lines written anew into a text that has some: what stays, what takes the place of what, and what goes where. */
import { describe, expect, it } from 'vitest';
import { linesOfNow } from '../../language/intent/index.js';
import { mergedText, mergeExpectations, type Means, type Merged } from '../../language/merge-expectations.js';
import { createProject } from '../../language/project.js';
import { edited } from '../../language/edited.js';
import { circuitOf, example, uri } from './harness.js';

const bare = example('two-single-coils-lever-3').replace(/^expect .*\n/gm, '');

function merge(text: string, lines: readonly string[], means: Means = 'now'): Merged & { readonly text: string } {
  const project = createProject({ read: (asked) => (asked === uri ? text : undefined) });
  const merged = mergeExpectations(project, uri, lines, means)!;
  return { ...merged, text: edited(text, merged.edits) };
}

/** The circuit with these lines at its end, merged with others. */
const mergedWith = (own: string, lines: string, means: Means = 'now'): Merged & { readonly text: string } => {
  const made = merge(`${bare}${own}\n`, lines.split('\n'), means);
  return { ...made, text: made.text.slice(bare.length) };
};

describe('the current behaviour', () => {
  it('written twice is written once', () => {
    const lines = linesOfNow(circuitOf(bare), { turns: true });
    const once = merge(bare, lines);
    expect(once.added).toBe(lines.length);
    const twice = merge(once.text, lines);
    expect(twice).toMatchObject({ edits: [], stated: lines.length, text: once.text });
    expect(mergedText(twice)).toBe(`0 lines added, ${lines.length} stated already`);
  });

  it('replaces an outdated line that it wrote, in its place, with columns and comments as they were', () => {
    const own = `// what it should do
expect selector 1        : sounds neck, hum present, reads 6.2k within 5% // measured later
expect volume 0          : silent
`;
    const made = mergedWith(own, 'expect selector "bridge" : sounds bridge, hum present, reads 6.71k within 5%');
    expect(made).toMatchObject({ added: 0, replaced: 1, stated: 0, kept: [] });
    expect(made.text).toBe(`// what it should do
expect selector 1        : sounds bridge, hum present, reads 6.71k within 5% // measured later
expect volume 0          : silent

`);
  });

  it('adds what is new behind the last line', () => {
    const made = mergedWith('expect volume 0 : silent\n', 'expect volume 0 : silent\nexpect selector "neck" : sounds neck');
    expect(made).toMatchObject({ added: 1, stated: 1 });
    expect(made.text).toBe('expect volume 0 : silent\nexpect selector "neck" : sounds neck\n\n');
  });

  it.each([
    ['a wider limit', 'expect selector 3 : sounds neck, hum present, reads 6.5k within 15%'],
    ['more', 'expect selector 3 : hum present, sounds neck, reads 6.06k within 5%, level 0dB'],
    ['two lines', 'expect selector 3 : sounds neck, reads 6.06k\nexpect selector 3 : hum present'],
    ['a pot at its rest', 'expect selector "neck", volume 10 : sounds neck, hum present, reads 6.06k within 5%'],
    ['a line for every position too', 'expect : hum present\nexpect selector 3 : sounds neck, reads 6.06k'],
    ['the jack itself', 'expect at output.tip, selector 3 : sounds neck, hum present, reads 6.06k'],
  ])('is stated already by %s', (_, own) => {
    const made = mergedWith(own, 'expect selector "neck" : sounds neck, hum present, reads 6.06k within 5%');
    expect(made).toMatchObject({ edits: [], stated: 1 });
  });

  it('completes a line that says less and nothing else', () => {
    const made = mergedWith(
      'expect selector "neck" : sounds neck',
      'expect selector "neck" : sounds neck, hum present, reads open',
    );
    expect(made.text).toBe('expect selector "neck" : sounds neck, hum present, reads open\n');
  });

  it.each([
    ['says what somebody meant', 'expect selector "neck" : sounds bridge'],
    ['has other limits', 'expect selector "neck" : sounds neck, hum present, reads 5k within 10%'],
    ['leaves its limits out', 'expect selector "neck" : sounds neck, hum present, reads 5k'],
    ['has a comment', '/** As built. */\nexpect selector "neck" : sounds bridge, hum present, reads 5k within 5%'],
    ['has a comment inside', 'expect selector "neck" : sounds bridge, // as built\n  hum present, reads 5k within 5%'],
    ['is one of two', 'expect selector 3 : sounds bridge, reads 5k within 5%\nexpect selector 3 : hum cancelled'],
  ])('leaves a line that %s, and says which new one is left out', (_, own) => {
    const line = 'expect selector "neck" : sounds neck, hum present, reads 6.06k within 5%';
    const made = mergedWith(own, line);
    expect(made).toMatchObject({ edits: [], stated: 0, text: `${own}\n` });
    expect(made.kept.map(({ instead }) => instead)).toEqual([line]);
    // The line after the comment, counted from 0.
    expect(made.kept[0]!.range.start.line).toBe(bare.split('\n').length - 1 + (own.startsWith('/**') ? 1 : 0));
  });

  it('takes a line with a pot turned, or at another output, for another', () => {
    const own = 'expect volume 5 : reads 60k within 5%';
    expect(mergedWith(own, 'expect : reads 6k within 5%')).toMatchObject({ added: 1 });
    expect(mergedWith(own, 'expect volume 6 : reads 6k within 5%')).toMatchObject({ added: 1 });
    expect(mergedWith('expect selector 1 : silent', 'expect at output.sleeve, selector 1 : silent')).toMatchObject({ added: 1 });
  });

  it('is whole in a text that ends without a line end, or with that of Windows', () => {
    const own = 'expect volume 0 : silent';
    expect(merge(bare + own, ['expect tone 0 : silent']).text).toBe(`${bare}${own}\nexpect tone 0 : silent`);
    const windows = `${bare}${own}\n`.replace(/\n/g, '\r\n');
    expect(merge(windows, ['expect tone 0 : silent']).text).toBe(`${windows}expect tone 0 : silent\r\n`);
  });
});

describe('a pattern', () => {
  it('takes the place of what another pattern said, and of nothing else', () => {
    const own = `expect selector "bridge" : sounds neck
expect selector "neck"   : sounds neck, hum present`;
    const made = mergedWith(own, 'expect selector "bridge" : sounds bridge\nexpect selector "neck" : sounds bridge', 'pattern');
    expect(made.text).toBe(`${own.replace('sounds neck\n', 'sounds bridge\n')}\n`);
    expect(made.kept).toHaveLength(1);
  });

  it('is stated already where a line says it in other words', () => {
    const made = mergedWith(
      'expect selector "both" : sounds parallel(neck, bridge), hum cancelled',
      'expect selector 2 : sounds parallel(bridge, neck)',
      'pattern',
    );
    expect(made).toMatchObject({ edits: [], stated: 1 });
  });
});
