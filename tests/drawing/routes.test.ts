/** How wires are laid: the short way between the lugs of one part, over no name, and past the joints of others. */
import { expect, test } from 'vitest';
import { createDrawer, type Scene } from '../../language/drawing/index.js';
import { elkLayout } from '../../server/elk.js';
import { drawPractice } from '../practice/index.js';
import { labelsOnWires, lugsOnWires, sharedStretches } from './judge.js';
import { detoursOf } from './measure.js';
import { circuitOfText } from './support.js';

async function sceneOf(text: string): Promise<Scene> {
  return (await createDrawer(elkLayout).draw(circuitOfText(text))).scene;
}

test('a jumper from gang to gang of a dual pot runs between the tabs, straight or across', async () => {
  const jumpers = ['wire stack.2a to stack.2b', 'wire stack.1a to stack.3b', 'wire stack.1b to stack.3a'];
  for (const jumper of jumpers) {
    const scene = await sceneOf(`part stack : pot-dual 250k audio\n${jumper}\n`);
    expect(Math.max(...detoursOf(scene)), jumper).toBeLessThan(1.5);
    expect([...labelsOnWires(scene), ...lugsOnWires(scene)], jumper).toEqual([]);
  }
});

test('a wire from any throw of a rotary to the next passes over no name', async () => {
  for (const [type, throws] of [
    ['rotary-1x12', Array.from({ length: 12 }, (_, index) => `A${index + 1}`)],
    ['rotary-4x3', ['A', 'B', 'C', 'D'].flatMap((pole) => [1, 2, 3].map((place) => `${pole}${place}`))],
  ] as const) {
    for (const [index, lug] of throws.entries()) {
      const wire = `wire sw.${lug} to sw.${throws[(index + 1) % throws.length]}`;
      expect(labelsOnWires(await sceneOf(`part sw : ${type}\n${wire}\n`)), wire).toEqual([]);
    }
  }
});

test('no wire lies on the end of a ground’s stub', async () => {
  for (const seed of [303, 318, 325, 336, 1382, 1392, 3259])
    expect(sharedStretches(await sceneOf(drawPractice(seed).text)), `${seed}`).toEqual([]);
});

test('a tie of a screen keeps off other wires where it begins and where it is soldered', async () => {
  for (const seed of [3031, 3464]) expect(sharedStretches(await sceneOf(drawPractice(seed).text)), `${seed}`).toEqual([]);
});

test('others make way for a wire that would go far round them, and lie as well as before', async () => {
  for (const seed of [303, 371, 3415, 3448]) {
    const scene = await sceneOf(drawPractice(seed).text);
    expect(Math.max(...detoursOf(scene)), `${seed}`).toBeLessThanOrEqual(2);
    expect([...sharedStretches(scene), ...labelsOnWires(scene), ...lugsOnWires(scene)], `${seed}`).toEqual([]);
  }
});

test('wires to one star lie on each other for no more than the last steps', async () => {
  expect(sharedStretches(await sceneOf(drawPractice(1366).text))).toEqual([]);
});

test('wires of one star that come from different sides meet only near the end of each', async () => {
  expect(sharedStretches(await sceneOf(drawPractice(3981).text))).toEqual([]);
});

test('wires make room where the tie of a screen is soldered', async () => {
  for (const seed of [3671, 3839]) expect(sharedStretches(await sceneOf(drawPractice(seed).text)), `${seed}`).toEqual([]);
});

test('the ties of two screens keep off each other where they begin', async () => {
  expect(sharedStretches(await sceneOf(drawPractice(6026).text))).toEqual([]);
});

test('where there is no free way left, others are laid anew until no two wires lie on each other', async () => {
  for (const seed of [3880, 4180, 4271]) {
    const scene = await sceneOf(drawPractice(seed).text);
    expect([...sharedStretches(scene), ...labelsOnWires(scene), ...lugsOnWires(scene)], `${seed}`).toEqual([]);
    expect(Math.max(...detoursOf(scene)), `${seed}`).toBeLessThanOrEqual(2);
  }
});

test('neither a jog pulled straight, a bend nor a run of solder lies on a letter or a label', async () => {
  for (const seed of [3463, 3510, 3561, 4005, 4125]) {
    const scene = await sceneOf(drawPractice(seed).text);
    expect([...labelsOnWires(scene), ...lugsOnWires(scene)], `${seed}`).toEqual([]);
  }
});
