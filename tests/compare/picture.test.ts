/** The picture of a comparison as geometry: old routes keep off letters, badges cover nothing, and what sounds otherwise is in its table. */
import { expect, test } from 'vitest';
import { overlayOf, renderChange } from '../../language/compare/index.js';
import { placeMarks, type PlacedMark } from '../../language/compare/overlay/place-marks.js';
import type { Box } from '../../language/drawing/geometry.js';
import { createDiagram, draw, flattened, labelBox, sceneLabels, type Scene } from '../../language/drawing/index.js';
import { elkLayout } from '../../server/elk.js';
import { circuitOf, circuitOfText, examples, exampleText } from '../drawing/support.js';
import { compareCircuits, compareTexts } from './harness.js';
import { base, cases, edited } from './cases.js';
import { picturePairs } from './picture-pairs.js';

/** Of each example one edited pair, every edit in turn. */
const pairs = picturePairs(examples.filter((name) => name !== 'house-controls')).filter(
  (_, index) => index % 4 === Math.floor(index / 4) % 4,
);

test.each(pairs)('$name, $edit: old routes and badges cover nothing', async ({ name, text }) => {
  const [before, after] = [circuitOf(name), circuitOf(name, text)];
  const { scene, diagram } = await draw(after, elkLayout);
  const { marks } = overlayOf(after, diagram, compareCircuits(before, after));
  const placed = placeMarks(scene, marks);
  const hasPlace = ({ ids, was }: (typeof marks)[number]) => ids.length > 0 || was !== undefined;
  expect(placed.filter(({ mark, was }) => mark.was !== undefined && was === undefined)).toEqual([]);
  expect(placed.filter(({ mark, badge }) => hasPlace(mark) && badge === undefined)).toEqual([]);
  expect(covered(scene, placed)).toEqual([]);
});

/** The texts of the picture of two texts, in order. */
async function textsOf(before: string, after: string): Promise<readonly string[]> {
  const circuit = circuitOfText(after);
  const { scene, diagram } = await draw(circuit, elkLayout);
  const svg = renderChange(scene, overlayOf(circuit, diagram, compareTexts(before, after)));
  return [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!.replaceAll('&quot;', '"'));
}

test('what sounds before and now is in a table, with the hum and the level', async () => {
  // The circuit and the levels of the case “phase flipped”, where they are derived.
  const { before, after } = cases().find(({ name }) => name.includes('phase-flipped'))!;
  const texts = await textsOf(before, after);
  const head = texts.indexOf('sounded before');
  expect(texts.slice(head - 2, head + 5)).toEqual([
    'Electrical change.',
    'position',
    'sounded before',
    'sounds now',
    'selector "both"',
    'parallel(bridge, neck), hum cancelled, level -1.0 dB',
    'parallel(bridge, reversed neck), hum present, level -20.1 dB',
  ]);
  expect(texts.slice(head + 5)).toEqual([
    'M moved, now',
    'M moved, where it was',
    ...['M1', 'wire neck.hot to selector.B3: the end at selector.B3 moves to volume.case, exchanged with that from neck.ground'],
    ...['M2', 'wire neck.ground to volume.case: the end at volume.case moves to selector.B3, exchanged with that from neck.hot'],
  ]);
});

test('a version that could not be read in full is the headline, with its errors first; then the pickups that are lost', async () => {
  const before = base('two');
  const after = edited(before, '- wire neck.hot to selector.B3\n+ wire neck.hot to selector.B9');
  const texts = await textsOf(before, after);
  const head = texts.indexOf('Incomplete comparison: 1 error in the text of the new version.');
  expect(head).toBeGreaterThan(0);
  expect(texts[head + 1]).toMatch(/^The new version has 1 error in its text, so part of it is not compared; line \d+: /);

  const lost = await textsOf(before, edited(before, '- wire neck.hot to selector.B3'));
  expect(lost[lost.indexOf('Electrical change.') + 1]).toBe('Not heard in any position now: neck.');
});

test('of many positions twelve are listed and the rest is counted', () => {
  // One switch of four positions and two of two, all without a sound where the jack’s tip has no wire.
  const name = 'bass-two-circuits-four-cavities';
  const [before, after] = [circuitOf(name), circuitOf(name, exampleText(name).replace(/^wire .*output\.tip.*$/gm, ''))];
  const { sounds } = overlayOf(after, createDiagram(after), compareCircuits(before, after));
  expect([sounds.rows.length, sounds.omitted]).toEqual([12, 4]);
  expect(new Set(sounds.rows.map(({ after }) => after.join()))).toEqual(new Set(['silent']));
});

/** What an old route, a badge or its leader lies on and should not, a line each. */
function covered(scene: Scene, placed: readonly PlacedMark[]): string[] {
  const texts = sceneLabels(scene).map(({ label }) => ({ what: `“${label.text}”`, box: labelBox(label) }));
  const lugs = scene.parts.flatMap((part) =>
    part.lugs
      .filter(({ look }) => look === 'lug')
      .map(({ id, x, y, radius }) => ({
        what: id,
        box: { x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius },
      })),
  );
  const wires = scene.wires.flatMap(({ id, points }) => strokes(flattened(points)).map((box) => ({ what: id, box })));
  const badges = placed.flatMap(({ text, badge, wasBadge }) =>
    [badge, wasBadge].flatMap((box) => (box === undefined ? [] : [{ what: `badge ${text}`, box }])),
  );
  const on = (what: string, box: Box, others: readonly { readonly what: string; readonly box: Box }[]): string[] =>
    others.filter((other) => other.box !== box && overlap(box, other.box)).map((other) => `${what} on ${other.what}`);
  return [
    ...placed.flatMap(({ text, was = [] }) => strokes(was).flatMap((box) => on(`old route of ${text}`, box, texts))),
    ...badges.flatMap(({ what, box }) => on(what, box, [...texts, ...lugs, ...wires, ...badges])),
    ...badges.flatMap(({ what, box }) =>
      strokes(box.leader ?? []).flatMap((line) => on(`leader of ${what}`, line, [...texts, ...lugs])),
    ),
    ...placed.flatMap(({ text, outlines }) => outlines.flatMap(strokes).flatMap((line) => on(`outline of ${text}`, line, texts))),
    ...badges
      .filter(({ box }) => box.x < 0 || box.y < 0 || box.x + box.width > scene.width || box.y + box.height > scene.height)
      .map(({ what }) => `${what} off the sheet`),
  ];
}

/** Small boxes along each stretch, as broad as a line is painted. */
function strokes(points: readonly { readonly x: number; readonly y: number }[]): Box[] {
  return points.slice(1).flatMap((b, index) => {
    const a = points[index]!;
    const count = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 2));
    return Array.from({ length: count + 1 }, (_, step) => {
      const [x, y] = [a.x + ((b.x - a.x) * step) / count, a.y + ((b.y - a.y) * step) / count];
      return { x: x - 1, y: y - 1, width: 2, height: 2 };
    });
  });
}

function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
