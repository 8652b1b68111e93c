/** Where parts stand: by what they are, never by their wires; from the neck to the bridge, the jack at the edge; small parts between their lugs. */
import { describe, expect, test } from 'vitest';
import { families, familyOf } from '../../language/drawing/arrange/families.js';
import { placeAll } from '../../language/drawing/arrange/groups.js';
import { byPlace, isCalledAfter } from '../../language/drawing/arrange/stations.js';
import { createDiagram, simpleLayout, type LayoutFunction } from '../../language/drawing/index.js';
import { unitsPerMillimetre } from '../../language/drawing/geometry.js';
import { leadedKinds } from '../../language/drawing/diagram/part-kind.js';
import { elkLayout } from '../../server/elk.js';
import { drawPractice } from '../practice/index.js';
import { circuitOf, circuitOfText, exampleText, examples } from './support.js';
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import type { PlacedSymbol } from '../../language/drawing/placed.js';

const unused: LayoutFunction = () => Promise.reject(new Error('no layout was to be asked for'));

async function placed(circuit: AnalysedCircuit, layout: LayoutFunction = elkLayout): Promise<readonly PlacedSymbol[]> {
  const { symbols } = await placeAll(createDiagram(circuit, { grounds: 'wires' }), layout, (reason) => {
    throw new Error(reason);
  });
  return symbols;
}

interface Place {
  readonly corner: readonly [x: number, y: number];
  readonly size: readonly [width: number, height: number];
  readonly lugs: ReadonlyMap<string, string>;
}

/** All that could move or turn. */
async function placesOf(circuit: AnalysedCircuit): Promise<ReadonlyMap<string, Place>> {
  const symbols = await placed(circuit);
  return new Map(
    symbols.map(({ part, symbol, x, y }) => [
      part.id,
      {
        corner: [x, y],
        size: [symbol.width, symbol.height],
        lugs: new Map(symbol.pads.map((pad) => [pad.lug, `${pad.x} ${pad.y}`])),
      },
    ]),
  );
}

/** What is not where it was. Metal that is drawn only where something is soldered to it may come and go. */
function moved(before: ReadonlyMap<string, Place>, after: ReadonlyMap<string, Place>): string[] {
  const found: string[] = [];
  for (const [id, { corner, size, lugs }] of before) {
    const now = after.get(id);
    if (now === undefined) {
      if (lugs.size > 1) found.push(`${id} is gone`);
      continue;
    }
    if (String(now.corner) !== String(corner)) found.push(`${id} from ${corner} to ${now.corner}`);
    if (String(now.size) !== String(size)) found.push(`${id} has another size`);
    for (const [lug, place] of lugs) if ((now.lugs.get(lug) ?? place) !== place) found.push(`${lug} is elsewhere on ${id}`);
  }
  return found;
}

/** A wire, but for one on a lug that a pickup may lack: its cover and its base are drawn only where something is soldered to them. */
const isWire = (line: string): boolean => /^wire \S+ +to \S+/.test(line) && !/\.(cover|base)\b/.test(line);

/** The text with each wire taken out, each wire's last lug moved to each other lug of its part, and each wire doubled to another lug. */
function* rewired(name: string): Generator<readonly [what: string, text: string]> {
  const circuit = circuitOf(name);
  const lines = exampleText(name).split('\n');
  for (const [index, line] of lines.entries()) {
    if (!isWire(line)) continue;
    const put = (...now: string[]): string => [...lines.slice(0, index), ...now, ...lines.slice(index + 1)].join('\n');
    yield [`without ${line}`, put()];
    const [, lug] = /^wire \S+ +to (\S+)/.exec(line)!;
    const own = circuit.lugs.find(({ label }) => label === lug);
    if (own === undefined) continue;
    const others = circuit.parts[own.part]!.lugs.map((id) => circuit.lugs[id]!.label).filter((label) => label !== lug);
    const [other] = others;
    if (other === undefined) continue;
    yield [`${line}, moved to ${other}`, put(line.replace(lug!, other))];
    yield [`${line}, and one more to ${other}`, put(line, `wire ${lug} to ${other} pink`)];
  }
}

describe.each(examples)('%s', (name) => {
  test('no part moves or turns when a wire is moved, added or taken out', async () => {
    const before = await placesOf(circuitOf(name));
    const edits = [...rewired(name)];
    expect(edits.length).toBeGreaterThan(3);
    for (const [what, text] of edits)
      expect({ what, moved: moved(before, await placesOf(circuitOf(name, text))) }).toEqual({ what, moved: [] });
  });
});

/** Seeds that nothing was tuned on. */
const drawn = Array.from({ length: 40 }, (_, index) => circuitOfText(drawPractice(2101 + index).text));
const all = [...examples.map((name) => circuitOf(name)), ...drawn];

test('pickups stand from the neck on the left to the bridge on the right', async () => {
  let pairs = 0;
  for (const circuit of all) {
    const pickups = (await placed(circuit)).filter(({ part }) => part.kind === 'pickup' || part.kind === 'humbucker');
    const at = (word: string): number[] => pickups.flatMap(({ part, x }) => (part.name.split('-').includes(word) ? [x] : []));
    const [neck, middle, bridge] = [at('neck'), at('middle'), at('bridge')];
    for (const [left, right] of [
      [neck, middle],
      [middle, bridge],
      [neck, bridge],
    ] as const) {
      if (left.length === 0 || right.length === 0) continue;
      pairs++;
      expect(Math.max(...left)).toBeLessThan(Math.min(...right));
    }
  }
  expect(pairs).toBeGreaterThan(30);
});

test('the jack is at an edge, unless its place is declared', async () => {
  let jacks = 0;
  for (const circuit of all) {
    const symbols = await placed(circuit);
    const [jack] = symbols.filter(({ part }) => part.kind === 'jack');
    if (jack === undefined || jack.part.at !== undefined) continue;
    jacks++;
    const isBeside = ({ part }: PlacedSymbol): boolean =>
      part.group === jack.part.group && !leadedKinds.has(part.kind) && part.kind !== 'jack';
    const [right, bottom] = [jack.x + jack.symbol.width, jack.y + jack.symbol.height];
    for (const other of symbols.filter(isBeside)) {
      const isLevel = other.y < bottom && jack.y < other.y + other.symbol.height;
      expect(other.x + other.symbol.width).toBeLessThanOrEqual(isLevel ? jack.x : right);
    }
  }
  expect(jacks).toBeGreaterThan(40);
});

test('no two parts lie on each other', async () => {
  for (const circuit of all) {
    const symbols = await placed(circuit);
    const clashing = symbols.flatMap((a, index) =>
      symbols
        .slice(index + 1)
        .filter(
          (b) =>
            a.x < b.x + b.symbol.width &&
            b.x < a.x + a.symbol.width &&
            a.y < b.y + b.symbol.height &&
            b.y < a.y + a.symbol.height,
        )
        .map((b) => `${a.part.name} and ${b.part.name}`),
    );
    expect(clashing).toEqual([]);
  }
});

test('declared places are to scale: as far apart as they are in the wood', async () => {
  const circuit = circuitOfText(
    'cavity rout\npart a : pot 250k\npart b : pot 250k\npart c : pot 250k\nplate p in rout { a at 20 20, b at 80 20, c at 20 90 }',
  );
  const symbols = await placed(circuit, unused);
  const shaft = (name: string): { x: number; y: number } => {
    const { x, y, symbol } = symbols.find(({ part }) => part.name === name)!;
    return { x: x + symbol.centre.x, y: y + symbol.centre.y };
  };
  // 60 mm to the right, 70 mm down, each shaft on the line of the grid that is nearest to it.
  expect(Math.abs(shaft('b').x - shaft('a').x - 60 * unitsPerMillimetre)).toBeLessThanOrEqual(10);
  expect(shaft('b').y).toBe(shaft('a').y);
  expect(Math.abs(shaft('c').y - shaft('a').y - 70 * unitsPerMillimetre)).toBeLessThanOrEqual(10);
});

test('a part on the floor below one on the plate keeps neither from its place, and the plate its outline and lug', async () => {
  const circuit = circuitOfText(
    'cavity rout\npart s : star\npart a : pot 250k\nplace s in rout at 10 10\nplate p in rout metal { a at 10 10 }\nwire p to a.case',
  );
  const { symbols, outlines } = await placeAll(createDiagram(circuit), unused, () => undefined);
  expect(symbols.map(({ part }) => part.name).sort()).toEqual(['a', 'p', 's']);
  expect([...outlines.keys()].sort()).toEqual(['cavity:rout', 'plate:p']);
});

test('a capacitor lies between the two lugs of its statement, not where its name would put it', async () => {
  const circuit = circuitOfText(
    'part volume : pot 250k\npart tone : pot 250k\npart volume-cap : capacitor 22nF from tone.1 to tone.case\npart output : jack\nwire volume.2 to output.tip',
  );
  const symbols = await placed(circuit, unused);
  const middle = (name: string): number[] => {
    const { x, y, symbol } = symbols.find(({ part }) => part.name === name)!;
    return [x + symbol.width / 2, y + symbol.height / 2];
  };
  const far = (a: string, b: string): number => Math.hypot(middle(a)[0]! - middle(b)[0]!, middle(a)[1]! - middle(b)[1]!);
  expect(far('volume-cap', 'tone')).toBeLessThan(far('volume-cap', 'volume'));
});

test('a capacitor that is wired stands beside the part it is named after', async () => {
  const circuit = circuitOfText(
    'part neck-tone : pot 250k\npart bridge-tone : pot 250k\npart bridge-tone-cap : capacitor 22nF\nwire neck-tone.1 to bridge-tone-cap.a\npart output : jack',
  );
  const symbols = await placed(circuit, unused);
  const middle = (name: string): number => {
    const { x, symbol } = symbols.find(({ part }) => part.name === name)!;
    return x + symbol.width / 2;
  };
  expect(Math.abs(middle('bridge-tone-cap') - middle('bridge-tone'))).toBeLessThan(
    Math.abs(middle('bridge-tone-cap') - middle('neck-tone')),
  );
});

describe('a bleed that is wired', () => {
  const types =
    'type two-part : assembly {\n  lugs a b\n  part c : capacitor 1nF from a to b\n  part r : resistor 150k from a to b\n}\n';
  const pots = 'part neck-volume : pot 500k\npart bridge-volume : pot 500k\npart tone : pot 500k\npart output : jack\n';
  /** Empty paper between two parts, the larger of across and along. */
  const gap = async (text: string, one: string, other: string): Promise<number> => {
    const symbols = await placed(circuitOfText(text));
    const [a, b] = [one, other].map((name) => symbols.find(({ part }) => part.name === name)!) as [PlacedSymbol, PlacedSymbol];
    return Math.max(
      a.x - (b.x + b.symbol.width),
      b.x - (a.x + a.symbol.width),
      a.y - (b.y + b.symbol.height),
      b.y - (a.y + a.symbol.height),
    );
  };
  /** A little more than the room for one wire. */
  const near = 25;

  test.each([
    ['the only volume', 'part volume : pot 500k\npart tone : pot 500k\npart output : jack\n', 'bleed', 'volume'],
    ['the volume of the same place', pots, 'bridge-bleed', 'bridge-volume'],
    ['the volume of the same place', pots, 'neck-bleed', 'neck-volume'],
  ])('stands beside %s, whatever it is wired to', async (_, parts, bleed, volume) => {
    for (const lug of [`${volume}.3`, 'tone.1']) {
      const wired = `solder ${bleed}.a to ${lug}\nsolder ${bleed}.b to ${volume}.2\n`;
      expect(await gap(`${types}${parts}part ${bleed} : two-part\n${wired}`, bleed, volume)).toBeLessThan(near);
    }
  });

  test('stands apart where two volumes could have it', async () => {
    const text = `${types}${pots}part bleed : two-part\nwire bleed.a to neck-volume.3\n`;
    for (const volume of ['neck-volume', 'bridge-volume']) expect(await gap(text, 'bleed', volume)).toBeGreaterThan(near);
  });
});

describe('families', () => {
  test('have each station in one place', () => {
    for (const { id, columns } of families) {
      const stations = columns.flat().flatMap((row) => row.stations);
      expect({ id, stations: [...stations].sort() }).toEqual({ id, stations: [...new Set(stations)].sort() });
      expect(stations).toHaveLength(17);
    }
  });

  test.each([
    ['four controls and a toggle', ['pickup', 'pickup', 'toggle', 'volume', 'volume', 'tone', 'tone', 'jack']],
    ['one plate', ['pickup', 'pickup', 'pickup', 'selector', 'volume', 'tone', 'tone', 'jack']],
    ['one plate', ['pickup', 'pickup', 'toggle', 'volume', 'tone', 'jack']],
    ['row of slides', ['pickup', 'pickup', 'slide', 'slide', 'slide', 'volume', 'tone', 'jack']],
    ['bass row', ['pickup', 'pickup', 'volume', 'blend', 'tone', 'jack']],
    ['bass row', []],
  ] as const)('%s is for %o', (id, stations) => {
    expect(familyOf(stations).id).toBe(id);
  });
});

test('names are ordered from the neck to the bridge, then by their numbers', () => {
  const names = ['tone-10', 'bridge-tone', 'tone-9', 'middle-tone', 'neck-tone', 'tone'];
  expect([...names].sort(byPlace)).toEqual(['neck-tone', 'middle-tone', 'tone', 'tone-9', 'tone-10', 'bridge-tone']);
});

test('a small part is called after another whose name it begins with', () => {
  expect(isCalledAfter('tone-cap', 'tone')).toBe(true);
  expect(isCalledAfter('tone', 'tone')).toBe(false);
  expect(isCalledAfter('toneless', 'tone')).toBe(false);
  expect(isCalledAfter('bridge-tone-cap', 'tone')).toBe(false);
});

test('a layout is asked only for more than four parts that no family has a place for', async () => {
  let asked = 0;
  const counting: LayoutFunction = (graph) => {
    asked++;
    return Promise.resolve(simpleLayout(graph));
  };
  const text = (count: number): string =>
    Array.from({ length: count }, (_, index) => `part spot${index} : junction`).join('\n') + '\npart output : jack\n';
  await placed(circuitOfText(text(4)), counting);
  expect(asked).toBe(0);
  await placed(circuitOfText(text(5)), counting);
  expect(asked).toBe(1);
});
