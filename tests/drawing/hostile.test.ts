/** Whatever stands in a text, there is a drawing of it: broken texts, odd types, crowded lugs, circuits made by chance. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readFileSync } from 'node:fs';
import { arrange } from '../../language/drawing/arrange/arrange.js';
import { createDiagram, draw, renderSvg, simpleLayout } from '../../language/drawing/index.js';
import { elkLayout } from '../../server/elk.js';
import { generateCircuit } from '../bench/circuits.js';
import { randomCircuitText } from '../fuzz/random-circuit-text.js';
import { filesUnder, root } from '../harness/checkout.js';
import { offences } from './judge.js';
import { circuitOfText, exampleText } from './support.js';

const plain = (graph: Parameters<typeof simpleLayout>[0]) => Promise.resolve(simpleLayout(graph));

describe('the faulty examples', () => {
  test.each(filesUnder('examples/faulty').filter((path) => path.endsWith('.lug')))('%s', async (path) => {
    const { scene } = await draw(circuitOfText(readFileSync(`${root}/${path}`, 'utf8')), elkLayout);
    expect(offences(scene)).toEqual([]);
  });
});

describe('odd circuits', () => {
  test.each([
    ['an empty text', ''],
    ['a title alone', 'instrument "Alder Lane no. 90"'],
    ['a part alone', 'part volume : pot 250k'],
    ['a cavity alone', 'cavity rout shield'],
    ['an unknown type', 'part a : no-such-type\npart output : jack\nwire a.x to output.tip\nwire a.y to output.sleeve'],
    ['a wire from a lug to itself', 'part v : pot 250k\nwire v.1 to v.1'],
    ['one wire twice', 'part v : pot 250k\npart w : pot 250k\nwire v.1 to w.1 red\nwire v.1 to w.1 red\nwire w.1 to v.1 red'],
    ['a part in place on itself', 'part c : capacitor 22nF from c.a to c.b'],
    ['two parts in place on each other', 'part c : capacitor 22nF from d.a to d.b\npart d : resistor 1k from c.a to c.b'],
    [
      'an assembly in an assembly',
      'type inner : assembly {\n  lugs x y\n  part r : resistor 1k from x to y\n}\ntype outer : assembly {\n  lugs p q\n  part i : inner\n  wire p to i.x\n  wire q to i.y\n}\npart o : outer\npart output : jack\nwire o.p to output.tip\nwire o.q to output.sleeve',
    ],
    [
      'long names of lugs',
      'type slab : switch {\n  lugs first-long-lug second-long-lug third-long-lug outer-frame-of-it\n  rows first-long-lug second-long-lug third-long-lug\n  metal outer-frame-of-it\n  positions 1 2\n  at 1 joins first-long-lug second-long-lug\n  at 2 joins second-long-lug third-long-lug\n}\npart s : slab\npart output : jack\nwire s.first-long-lug to output.tip\nwire s.outer-frame-of-it to output.sleeve',
    ],
    [
      'a pot with long names',
      'type wheel : control {\n  lugs the-left-end the-wiper the-right-end shell\n  metal shell\n  rows the-left-end the-wiper the-right-end\n  track from the-left-end to the-right-end wiper the-wiper { resistance 250k }\n}\npart w : wheel\npart output : jack\nwire w.the-wiper to output.tip\nwire w.shell to output.sleeve',
    ],
    ['places on one spot', 'cavity rout\npart a : pot 250k\npart b : pot 250k\nplate p in rout metal { a at 10 10, b at 10 10 }'],
    [
      'places a hair apart',
      'cavity rout\npart a : pot 250k\npart b : pot 250k\nplate p in rout metal { a at 10 10, b at 10.1 10 }',
    ],
  ])('%s', async (_, text) => {
    for (const layout of [elkLayout, plain]) {
      const { scene } = await draw(circuitOfText(text), layout);
      expect(offences(scene)).toEqual([]);
      expect(renderSvg(scene)).toContain('</svg>');
    }
  });

  test('many wires on one lug all come to it', async () => {
    const wires = Array.from(
      { length: 12 },
      (_, index) => `part p${index} : pot 250k\nwire p${index}.1 to hub.2 ${index % 2 ? 'red' : 'blue'}`,
    ).join('\n');
    const { scene, remarks } = await draw(
      circuitOfText(`part hub : pot 250k\npart output : jack\nwire hub.3 to output.tip\n${wires}`),
      elkLayout,
    );
    expect(remarks).toEqual([]);
    expect(offences(scene)).toEqual([]);
  });
});

describe('circuits made by chance', () => {
  test.each([10, 30])('%i parts', async (parts) => {
    for (const seed of [1, 2, 3]) {
      const { scene, remarks } = await draw(circuitOfText(generateCircuit(parts, seed)), elkLayout);
      expect(remarks).toEqual([]);
      expect(offences(scene)).toEqual([]);
    }
  });

  // One has 213 parts, most of them in one pool, on a field of 400,000 points; the other's field has five millions.
  test.each([
    ['made by chance', randomCircuitText(4)],
    ['made by rule', generateCircuit(300)],
  ])('a circuit of some hundred parts is drawn within a bound of looks at the grid: %s', async (_, text) => {
    const circuit = circuitOfText(text);
    expect(circuit.parts.length).toBeGreaterThan(200);
    const { session, placed } = await arrange(createDiagram(circuit), elkLayout);
    expect(placed.length).toBeGreaterThan(200);
    expect(session.steps()).toBeLessThan(20_000_000);
  });

  // No wire is laid here, so that nothing but the places of the parts is tried: all pairs of them, at first.
  test('some hundred parts without a wire are placed within a bound of looks at them', async () => {
    const parts = Array.from({ length: 400 }, (_, index) => `part r${index} : resistor 1k\n`).join('');
    const { scene } = await draw(circuitOfText(`${parts}part output : jack\n`), elkLayout);
    expect(scene.parts).toHaveLength(401);
    expect(offences(scene)).toEqual([]);
  });

  test('any cut of a text, and any line left out, draws', async () => {
    const text = exampleText('bass-two-circuits-four-cavities');
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: text.length }), fc.integer({ min: 0, max: 110 }), async (end, line) => {
        const cut = text
          .slice(0, end)
          .split('\n')
          .filter((_, index) => index !== line)
          .join('\n');
        const { scene } = await draw(circuitOfText(cut), plain);
        expect(scene.width).toBeGreaterThan(0);
      }),
      { numRuns: 25, seed: 7 },
    );
  });
});
