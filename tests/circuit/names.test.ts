/** Every mention of a name knows what it means and where that is declared. */
import { describe, expect, test } from 'vitest';
import type { SourceRange } from '../../language/source.js';
import { typesOf } from '../../language/circuit/index.js';
import { libraryText } from '../../language/parts/index.js';
import { circuitOf, lugOf, partOf, URI } from './harness.js';

const TEXT = `instrument "Alder Lane no. 0"
part neck : humbucker { wound reverse, lead hot white }
part selector : lever-3 { positions "a" "b" "c" }
part volume : pot 250k audio
part out : jack
part c : capacitor 22nF from volume.1 to volume.case
cavity control shield
plate top in control metal { volume at 10 10, out }
wire neck.hot to selector.A1
wire selector.A0 to control
solder out.sleeve to top
expect selector "b", volume 3 : sounds neck.north
allow some-rule on volume.case "why not"
type own : pot {
  lugs extra
  takes resistance 1M
}
`;

function word(range: SourceRange): string {
  const text = range.uri === URI ? TEXT : libraryText(range.uri)!;
  return text.split('\n')[range.start.line]!.slice(range.start.character, range.end.character);
}

const circuit = circuitOf(TEXT);

test('the text has nothing wrong with it', () => {
  expect(circuit.problems).toEqual([]);
});

/** `kind word → defined word`, a star where it is the definition itself. */
const shown = circuit.names.map(
  (use) =>
    `${use.kind} ${word(use.range)}${use.isDefinition ? ' *' : use.definition === undefined ? '' : ` → ${word(use.definition)}`}`,
);

describe('mentions, line by line', () => {
  test.each([
    [1, ['part neck *', 'type humbucker → humbucker', 'property wound → wound', 'lug hot → hot']],
    [2, ['part selector *', 'type lever-3 → lever-3', 'position "a" *', 'position "b" *', 'position "c" *']],
    [3, ['part volume *', 'type pot → pot']],
    [
      5,
      ['part c *', 'type capacitor → capacitor', 'part volume → volume', 'lug 1 → 1', 'part volume → volume', 'lug case → case'],
    ],
    [6, ['cavity control *']],
    [7, ['plate top *', 'cavity control → control', 'part volume → volume', 'part out → out']],
    [8, ['part neck → neck', 'lug hot → hot', 'part selector → selector', 'lug A1 → A1']],
    [9, ['part selector → selector', 'lug A0 → A0', 'cavity control → control']],
    [10, ['part out → out', 'lug sleeve → sleeve', 'plate top → top']],
    [11, ['part selector → selector', 'position "b" → "b"', 'part volume → volume', 'part neck → neck', 'coil north → north']],
    [12, ['rule some-rule', 'part volume → volume', 'lug case']],
    [13, ['type own *', 'type pot → pot']],
    [14, ['lug extra *']],
    [15, ['property resistance *']],
  ])('line %i', (line, expected) => {
    const found = circuit.names.flatMap((use, index) => (use.range.start.line === line ? [shown[index]!] : []));
    expect(found).toEqual(expected);
  });
});

test('a mention of a lug knows its part and its number; the definition of a standard lug lies in the library', () => {
  const use = circuit.names.find((name) => name.kind === 'lug' && name.name === 'A1')!;
  expect(use).toMatchObject({ part: partOf(circuit, 'selector').id, lug: lugOf(circuit, 'selector.A1').id });
  expect(use.definition!.uri).toBe('lugwork:/parts/levers.lug');
});

test('a lug knows every place that names it', () => {
  expect(lugOf(circuit, 'volume.case').uses.map(word)).toEqual(['volume.case']);
  expect(lugOf(circuit, 'control').uses.map(word)).toEqual(['control']);
});

test('mentions stand from top to bottom', () => {
  const places = circuit.names.map(({ range }) => range.start.line * 1000 + range.start.character);
  expect(places).toEqual([...places].sort((a, b) => a - b));
});

test('types come with what a completion needs', () => {
  const own = circuit.types!.find((type) => type.name === 'own')!;
  expect(own).toMatchObject({ standard: false, base: 'control', ancestry: ['own', 'pot', 'control'], metal: ['case'] });
  expect(own.lugs).toEqual(['1', '2', '3', 'case', 'extra']);
  expect(own.parameters.slice(0, 2)).toMatchObject([
    { name: 'resistance', kind: 'value', unit: 'ohm', value: { value: 1e6 } },
    { name: 'taper', kind: 'choice', choices: ['linear', 'audio', 'reverse-audio'] },
  ]);
  expect(typesOf(circuit).some((type) => type.name === 'lever-5' && type.standard)).toBe(true);
});
