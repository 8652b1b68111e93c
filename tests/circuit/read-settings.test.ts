/** Settings that are given beside a circuit: they mean what they mean in an `expect` line, and whatever is wrong is said with its place. No outside source: the two ways are compared with each other, the sentences are worked by hand. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readSettings } from '../../language/circuit/index.js';
import { createProject } from '../../language/project.js';
import { filesUnder, read } from '../harness/checkout.js';

function circuitOf(text: string) {
  return createProject({ read: (uri) => (uri === 'file:///a.lug' ? text : undefined) }).circuit('file:///a.lug')!;
}

const bench = circuitOf(`type one-shaft : control {
  lugs 1 2 3
  track from 1 to 3 wiper 2 { resistance 250k, taper linear }
}
part sw : toggle-3 { positions "neck" "both" "bridge" }
part v : pot-push-pull 500k
part blend : pot-concentric
part own : one-shaft
part saddle : bridge-ground
part odd : no-such-type
cavity hole`);

const examples = filesUnder('examples').filter((path) => path.endsWith('.lug') && !read(path).includes('use "'));

test.each(examples)('%s: the settings of its expectations are read as there', (path) => {
  const text = read(path);
  const circuit = circuitOf(text);
  for (const { settings } of circuit.expectations) {
    if (settings.length === 0) continue;
    const lines = text.split('\n');
    const said = settings.map(({ range }) => lines[range.start.line]!.slice(range.start.character, range.end.character));
    const again = readSettings(circuit, said.join(', '));
    expect(again).toEqual({ settings: settings.map((setting) => ({ ...setting, range: expect.anything() as unknown })) });
  }
});

test('a number turns the pot and a word moves the switch of a part that is both; shafts go by name', () => {
  const kinds = (text: string) => {
    const found = readSettings(bench, text);
    return 'settings' in found ? found.settings.map((one) => (one.kind === 'shaft' ? one.rotation : one.position)) : found;
  };
  expect(kinds('v 7.5, v up')).toEqual([7.5, 1]);
  expect(kinds('blend.a 2 blend.b 0')).toEqual([2, 0]);
  expect(kinds('sw "both", own 3')).toEqual([1, 3]);
});

test.each([
  ['', 0, /a control is expected.*its position/],
  ['  ', 2, /a control is expected/],
  ['sw', 2, /a position, by number or name, is expected/],
  ['sw 4', 3, /no position 4/],
  ['sw "nck"', 3, /did you mean "neck"\?/],
  ['swi 1', 0, /did you mean sw\?/],
  ['v 11', 2, /from 0 to 10/],
  ['v 5, v 6', 5, /set twice/],
  ['blend 3', 0, /more than one shaft/],
  ['blend.z 3', 6, /has the shafts/],
  ['saddle 1', 0, /neither a switch nor a pot/],
  ['odd 1', 0, /type of this part is not known/],
  ['hole 1', 0, /hole/],
  ['sw 1 : silent', 5, /`:` does not belong here; separate settings by commas/],
  ['sw 1\nv 2', 5, /one line/],
  ['sw 1 // v 2', 5, /comment/],
  ['sw 1 : silent\nexpect sw 2', 14, /one line/],
  ['sw "x', 3, /closing quote/],
  ['sw 1 }', 5, /has no opening bracket/],
  ['v. 5', 4, /is expected/],
])('%j is refused at character %i', (text, character, message) => {
  const found = readSettings(bench, text);
  expect(found).toMatchObject({ character });
  expect('problem' in found && found.problem).toMatch(message);
  expect('problem' in found && found.problem).not.toMatch(/NAME|VALUE|EOF|undefined|\n/);
});

test('never throws, whatever the text', () => {
  const word = fc.constantFrom(
    'sw',
    'v',
    'blend.a',
    '1',
    '"both"',
    ',',
    '.',
    ':',
    '{',
    '}',
    '(',
    '/*',
    '//',
    '\n',
    '"',
    ' ',
    '\u202e',
    '__proto__',
  );
  const text = fc.oneof(
    fc.array(word, { maxLength: 12 }).map((words) => words.join('')),
    fc.string({ unit: 'binary' }),
  );
  fc.assert(
    fc.property(text, (said) => {
      const found = readSettings(bench, said);
      if ('settings' in found) expect(found.settings.length).toBeGreaterThan(0);
      else expect(found.character).toBeLessThanOrEqual(said.length);
    }),
    { numRuns: 500 },
  );
});
