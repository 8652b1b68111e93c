/** Symbols: parts as they look from behind, at one scale, the same however they are wired. */
import { describe, expect, test } from 'vitest';
import { standardTypeInfos } from '../../language/circuit/index.js';
import type { DiagramPart } from '../../language/drawing/diagram/diagram.js';
import { grid, overlaps, unitsPerMillimetre } from '../../language/drawing/geometry.js';
import { createDiagram } from '../../language/drawing/index.js';
import { symbolsOf } from '../../language/drawing/symbols/index.js';
import { shapeBox, type Symbol } from '../../language/drawing/symbols/symbol.js';
import { circuitOfText } from './support.js';

const partsOf = (text: string): readonly DiagramPart[] => createDiagram(circuitOfText(text), { grounds: 'wires' }).parts;

/** A part of each standard type that needs no other part, with its optional lugs in use. */
const types = [
  'single-coil', 'single-coil-tapped', 'humbucker', 'humbucker-4', 'pot', 'pot-no-load', 'pot-push-pull', 'pot-push-push',
  'trimmer', 'pot-dual', 'pot-concentric', 'pot-blend', 'lever-3', 'lever-4', 'lever-5', 'lever-6', 'lever-5x4', 'toggle-3', 'toggle-3-open', 'slide-dpdt',
  'mini-dpdt', 'mini-dpdt-on', 'spst', 'mini-spdt', 'push-on', 'rotary-1x12', 'rotary-2x6', 'rotary-3x4', 'rotary-4x3', 'jack',
  'jack-stereo', 'jack-switched', 'resistor', 'capacitor', 'inductor', 'electrolytic', 'battery', 'buffer', 'bridge-ground', 'star',
  'connector-2', 'connector-8', 'piezo', 'op-amp', 'jfet', 'transistor', 'diode', 'led', 'zener', 'transformer', 'relay', 'optocoupler',
]; // prettier-ignore

function partOfType(type: string): DiagramPart {
  const isPickup = type.startsWith('single-coil') || type.startsWith('humbucker');
  const wires = isPickup ? 'wire p.cover to g\nwire p.base to g\n' : '';
  return partsOf(`part p : ${type}\npart g : star\n${wires}`).find(({ name }) => name === 'p')!;
}

test('each type that is tried is a standard one', () => {
  const known = standardTypeInfos().map(({ name }) => name);
  expect(types.filter((type) => !known.includes(type))).toEqual([]);
});

describe.each(types)('%s', (type) => {
  const part = partOfType(type);
  const symbols = symbolsOf(part);

  test('has every lug, on the grid and two steps from the next', () => {
    for (const { pads } of symbols) {
      expect(pads.map(({ lug }) => lug).sort()).toEqual(part.lugs.map(({ id }) => id).sort());
      const round = pads.filter(({ look }) => look === 'lug');
      for (const pad of round) expect([pad.x % grid, pad.y % grid].map(Math.abs), pad.lug).toEqual([0, 0]);
      for (const [index, a] of round.entries())
        for (const b of round.slice(index + 1))
          expect(Math.hypot(a.x - b.x, a.y - b.y), `${a.lug} ${b.lug}`).toBeGreaterThanOrEqual(2 * grid);
      for (const pad of pads) expect(pad.accesses.length, pad.lug).toBeGreaterThan(0);
    }
  });

  test('has its texts apart from each other and from the lugs', () => {
    for (const { labels, pads, width, height } of symbols) {
      for (const [index, label] of labels.entries()) {
        for (const other of labels.slice(index + 1)) expect(overlaps(label, other), `${label.text} ${other.text}`).toBe(false);
        for (const { x, y, look, lug } of pads) {
          const hole = { x: x - 2, y: y - 2, width: 4, height: 4 };
          if (look === 'lug') expect(overlaps(label, hole), `${label.text} ${lug}`).toBe(false);
        }
        expect(label.x >= 0 && label.y >= 0 && label.x + label.width <= width && label.y + label.height <= height).toBe(true);
      }
    }
  });

  test('is the same whatever is soldered to it', () => {
    const lugs = part.lugs.filter(({ metal }) => !metal || part.lugs.length === 1).map(({ name }) => name);
    const wires = lugs.flatMap((lug) =>
      Array.from({ length: 6 }, () => `wire ${part.lugs.length === 1 ? 'p' : `p.${lug}`} to g`),
    );
    const optional = part.lugs.filter(({ name }) => name === 'cover' || name === 'base').map(({ name }) => `wire p.${name} to g`);
    const wired = partsOf([`part p : ${type}`, 'part g : star', ...optional, ...wires].join('\n')).find(
      ({ name }) => name === 'p',
    )!;
    expect(wired.lugs.some(({ ends }) => ends >= 6)).toBe(true);
    expect(symbolsOf(wired)).toEqual(symbols);
  });
});

/** Widths and heights of what is drawn with a role, in millimetres, the largest first. */
function sizes(symbol: Symbol, ...roles: readonly string[]): (readonly [number, number])[] {
  return symbol.shapes
    .filter(({ role }) => roles.includes(role))
    .map(shapeBox)
    .map(({ width, height }) => [width / unitsPerMillimetre, height / unitsPerMillimetre] as const)
    .sort((a, b) => b[0] * b[1] - a[0] * a[1]);
}

describe('true to size, within a tenth', () => {
  // Typical sizes, common practice: a cover of 84 mm, a case of 24 mm, a frame of 55 to 60 mm.
  test.each([
    ['single-coil', ['body', 'metal'], [19, 84]],
    ['humbucker', ['body', 'metal'], [38, 70]],
    ['pot', ['metal'], [24, 24]],
    ['lever-5', ['metal'], [23, 58]],
    ['jack', ['metal'], [20, 20]],
    ['battery', ['body'], [48, 26]],
    ['bridge-ground', ['metal'], [15, 80]],
    ['capacitor', ['film'], [10, 5.3]],
  ] as const)('%s', (type, roles, [width, height]) => {
    const [size] = sizes(symbolsOf(partOfType(type))[0]!, ...roles);
    expect(size![0]).toBeGreaterThan(0.88 * width);
    expect(size![0]).toBeLessThan(1.12 * width);
    expect(size![1]).toBeGreaterThan(0.88 * height);
    expect(size![1]).toBeLessThan(1.12 * height);
  });
});

describe('what is seen from behind', () => {
  const padOf = (symbol: Symbol, name: string) => symbol.pads.find(({ lug }) => lug === `lug:p.${name}`)!;

  test('lugs 3 2 1 of a pot from left to right, seen from the solder side', () => {
    const [upright] = symbolsOf(partOfType('pot'));
    const at = ['3', '2', '1'].map((name) => padOf(upright!, name));
    expect(at.map(({ x }) => x)).toEqual([...at.map(({ x }) => x)].sort((a, b) => a - b));
    expect(new Set(at.map(({ y }) => y)).size).toBe(1);
  });

  test('a trimmer is far smaller than a pot, and shows the slot that a screwdriver turns', () => {
    const [small] = symbolsOf(partOfType('trimmer'));
    const [pot] = symbolsOf(partOfType('pot'));
    const [body] = sizes(small!, 'wafer');
    expect(body![0] * body![1]).toBeLessThan(sizes(pot!, 'metal')[0]!.reduce((a, b) => a * b));
    expect(small!.shapes.filter(({ role }) => role === 'detail')).toHaveLength(1);
    expect(['3', '2', '1'].map((name) => padOf(small!, name).x)).toEqual(
      ['3', '2', '1'].map((name) => padOf(small!, name).x).sort((a, b) => a - b),
    );
  });

  test('the case of a pot takes many wires, each at its own place', () => {
    const [upright] = symbolsOf(partOfType('pot'));
    const places = padOf(upright!, 'case').accesses.map(({ landing }) => landing);
    expect(places.length).toBeGreaterThanOrEqual(10);
    for (const [index, a] of places.entries())
      for (const b of places.slice(index + 1)) expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThanOrEqual(8);
  });

  test('a lug bent onto its case is drawn on the case, with its solder', () => {
    const [bent] = partsOf('part p : pot 250k\nsolder p.1 to p.case');
    const [symbol] = symbolsOf(bent!);
    const shell = symbol!.shapes.filter(({ role }) => role === 'metal').map(shapeBox)[0]!;
    const centre = { x: shell.x + shell.width / 2, y: shell.y + shell.height / 2 };
    const lug = padOf(symbol!, '1');
    expect(Math.hypot(lug.x - centre.x, lug.y - centre.y)).toBeLessThan(shell.width / 2);
    expect(symbol!.shapes.some((shape) => shape.role === 'bead' && shape.kind === 'circle' && shape.x === lug.x)).toBe(true);
    expect(symbolsOf(partOfType('pot'))[0]!.shapes.some(({ role }) => role === 'bead')).toBe(false);
  });

  // Published (an article of a parts dealer on lever switches): the handle forward joins the throw that is furthest back.
  test('the handle of a lever stands away from the throw that it picks', () => {
    const [upright] = symbolsOf(partOfType('lever-5'));
    const first = padOf(upright!, 'A1');
    const last = padOf(upright!, 'A3');
    const noteOf = (position: number) => upright!.labels.find(({ text }) => text.endsWith(`here: ${position}`))!;
    expect(first.y).toBeLessThan(last.y);
    expect(noteOf(1).y).toBeGreaterThan(last.y);
    expect(noteOf(5).y).toBeLessThan(first.y);
  });

  test('a jumper has its way between the names of a lever’s wafer', () => {
    const [upright] = symbolsOf(partOfType('lever-5'));
    const [a, b] = ['A1', 'B0'].map((name) => upright!.labels.find(({ text }) => text === name)!) as [
      Symbol['labels'][0],
      Symbol['labels'][0],
    ];
    expect(b.x - (a.x + a.width)).toBeGreaterThanOrEqual(2 * grid);
  });

  test('which end is plus is said of what has a plus, and nothing of a film capacitor', () => {
    const lettersOf = (type: string): string[] =>
      symbolsOf(partOfType(type))[0]!
        .labels.filter(({ role }) => role === 'lug')
        .map(({ text }) => text);
    expect(lettersOf('electrolytic').sort()).toEqual(['+', '−'].sort());
    expect(lettersOf('battery').sort()).toEqual(['+', '−'].sort());
    expect(lettersOf('capacitor')).toEqual([]);
  });

  test('the rear gang’s lugs stand above the front one’s, on one case', () => {
    const [upright] = symbolsOf(partOfType('pot-dual'));
    for (const name of ['1', '2', '3']) {
      expect(padOf(upright!, `${name}b`).x).toBe(padOf(upright!, `${name}a`).x);
      expect(padOf(upright!, `${name}b`).y).toBeLessThan(padOf(upright!, `${name}a`).y);
    }
    expect(sizes(upright!, 'metal')).toHaveLength(1);
  });
});
