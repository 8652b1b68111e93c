/** The judge of drawings is judged itself, by wires laid by hand: one that excuses too much proves nothing. */
import { expect, test } from 'vitest';
import type { Point } from '../../language/drawing/geometry.js';
import type { Scene } from '../../language/drawing/index.js';
import { sharedStretches } from './judge.js';
import { detoursOf } from './measure.js';

/** Two wires, `a` from lug x to lug s and `b` from lug y to `end`, with nothing else drawn. */
function two(a: readonly Point[], b: readonly Point[], end: string): Scene {
  const wires = [
    { id: 'a', kind: 'wire', from: 'x', to: 's', points: a },
    { id: 'b', kind: 'wire', from: 'y', to: end, points: b },
  ];
  return { parts: [], joints: [], wires } as unknown as Scene;
}

const at = (...places: readonly (readonly [number, number])[]): Point[] => places.map(([x, y]) => ({ x, y }));
const level = at([0, 0], [200, 0]);
/** From below onto the level wire, and along it to its end; 40 units are four steps of the grid. */
const joining = (x: number): Point[] => at([x - 50, 50], [x, 0], [200, 0]);

test('wires on one lug may share the last four steps of the grid before it', () => {
  expect(sharedStretches(two(level, joining(160), 's'))).toEqual([]);
});

test('a longer stretch is reported', () => {
  expect(sharedStretches(two(level, joining(150), 's'))).toContain('a and b share a stretch');
});

test('wires of two lugs share nothing', () => {
  expect(sharedStretches(two(level, joining(160), 'z'))).toContain('a and b share a stretch');
  expect(sharedStretches(two(level, at([160, 50], [160, 0]), 'z'))).toEqual(['a and b touch']);
});

test('a common lug excuses nothing at the other end', () => {
  expect(sharedStretches(two(level, at([40, 0], [0, 0], [0, 90], [200, 90], [200, 0]), 's'))).toContain(
    'a and b share a stretch',
  );
});

test('a point on a straight stretch is no end of it', () => {
  expect(sharedStretches(two(level, at([100, 50], [100, 0], [100, -50]), 'z'))).toEqual([]);
  expect(sharedStretches(two(level, at([100, 50], [100, 0], [120, 50]), 'z'))).not.toEqual([]);
});

/** Two cavities side by side, 100 wide with 100 between them, and a channel that leads around the wood below: down, across and up again. */
function cavities(...wires: readonly (readonly Point[])[]): Scene {
  const box = (x: number): object => ({ kind: 'rect', x, y: 0, width: 100, height: 100 });
  const wall = (half: number): object => ({
    kind: 'path',
    points: at([50 - half, 100], [50 - half, 200 + half], [250 + half, 200 + half], [250 + half, 100]),
  });
  return {
    groups: [
      { id: 'cavity:a', shapes: [box(0)] },
      { id: 'cavity:b', shapes: [box(200)] },
    ],
    channels: [{ id: 'channel:a-b', shapes: [wall(20), wall(-20)] }],
    wires: wires.map((points, index) => ({ id: `w${index}`, kind: 'wire', points })),
  } as unknown as Scene;
}

test('a wire is measured along the channel that it has to take, and straight within a cavity', () => {
  const around = at([50, 90], [50, 200], [250, 200], [250, 90]);
  expect(detoursOf(cavities(around))).toEqual([1]);
  // Up to the middle of the cavity and back: 80 more than the 420 that it needs.
  const [ratio] = detoursOf(cavities(at([50, 90], [50, 50], [50, 200], [250, 200], [250, 90])));
  expect(ratio).toBeCloseTo(500 / 420, 12);
  expect(detoursOf(cavities(at([10, 10], [10, 50], [40, 50])))).toEqual([70 / 50]);
});
