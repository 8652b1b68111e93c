/** The drawing on paper: every letter can be read, no part is cut, and every wire is found from page to page. */
import { describe, expect, test } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import {
  createDrawer,
  type Drawing,
  figure,
  labelBox,
  papers,
  printPages,
  renderSvg,
  sceneLabels,
  shapeBox,
  simpleLayout,
  type Box,
  type PrintPage,
  type Scene,
} from '../../language/drawing/index.js';
import { generateCircuit } from '../bench/circuits.js';
import { drawPractice } from '../practice/index.js';
import { labelsOnLabels } from './judge.js';
import { circuitOf, circuitOfText } from './support.js';

const seeds = [301, 302, 303, 305, 307, 310, 312, 314, 316, 318, 319, 322, 324, 325, 327, 329, 334];
const circuits = new Map<string, AnalysedCircuit>([
  ['bass-two-circuits-four-cavities', circuitOf('bass-two-circuits-four-cavities')],
  ['one-pickup-volume-tone', circuitOf('one-pickup-volume-tone')],
  ...seeds.map((seed) => [`seed ${seed}`, circuitOfText(drawPractice(seed).text)] as const),
]);
const drawn = new Map<string, Drawing>();

async function drawingOf(name: string): Promise<Drawing> {
  const drawing =
    drawn.get(name) ?? (await createDrawer((graph) => Promise.resolve(simpleLayout(graph))).draw(circuits.get(name)!));
  drawn.set(name, drawing);
  return drawing;
}

/** The pages on which wires end at lugs: all of them where it is one, else all but the overview. */
function detailsOf(pages: readonly PrintPage[]): readonly PrintPage[] {
  return pages.length === 1 ? pages : pages.slice(1);
}

/** Points of the smallest letter, from the sizes in the page and the millimetres of the paper alone. */
function pointsOf({ scene, width }: PrintPage): number {
  const smallest = Math.min(...sceneLabels(scene).map(({ label }) => label.size));
  return (smallest * (width / scene.width) * 72) / 25.4;
}

function isOn(box: Box, scene: Scene, margin: number): boolean {
  const room = margin - 0.02;
  return box.x >= room && box.y >= room && box.x + box.width <= scene.width - room && box.y + box.height <= scene.height - room;
}

function shapeOf(parts: Scene['parts'], name: string): readonly number[] {
  const part = parts.find(({ id }) => id === name)!;
  return part.lugs.flatMap(({ x, y }) => [x - part.box.x, y - part.box.y].map(Math.round));
}

describe.each([...circuits.keys()])('%s', (name) => {
  test.each(['a4', 'letter', 'figure'] as const)('can be read on %s, with all parts and wires', async (kind) => {
    const paper = kind === 'figure' ? figure : papers[kind];
    const drawing = await drawingOf(name);
    const pages = printPages(drawing, { paper, sheet: { file: 'bench.lug' } });
    for (const page of pages) {
      expect(pointsOf(page)).toBeGreaterThanOrEqual(6);
      expect(page.points).toBeCloseTo(pointsOf(page), 1);
      expect(paper.sizes).toContainEqual({ width: page.width, height: page.height });
      expect(page.width / page.height).toBeCloseTo(page.scene.width / page.scene.height, 3);
      const margin = (paper.margin * page.scene.width) / page.width;
      const off = sceneLabels(page.scene).filter(({ label }) => !isOn(labelBox(label), page.scene, margin));
      expect(off).toEqual([]);
      for (const { shapes } of page.scene.parts)
        for (const shape of shapes) expect(isOn(shapeBox(shape), page.scene, margin)).toBe(true);
    }
    const details = detailsOf(pages);
    const { parts, wires } = drawing.scene;
    for (const { id } of parts) {
      const holders = details.filter(({ scene }) => scene.parts.some((part) => part.id === id));
      expect(holders).toHaveLength(1);
      // It is the same part, not a part of it.
      expect(shapeOf(holders[0]!.scene.parts, id)).toEqual(shapeOf(parts, id));
    }
    for (const wire of wires) {
      const stretches = details.flatMap(({ scene }) =>
        scene.wires.filter(({ id }) => id === wire.id).map((own) => ({ scene, own })),
      );
      const isWhole = stretches.some(({ own }) => own.from === wire.from && own.to === wire.to);
      if (isWhole) continue;
      // Both its ends are there, and each stretch ends at a note that names the other end.
      expect(new Set(stretches.flatMap(({ own }) => [own.from, own.to].filter((end) => !end.startsWith('end:'))))).toEqual(
        new Set([wire.from, wire.to].filter((end) => !end.startsWith('end:'))),
      );
      for (const { scene, own } of stretches) {
        const far = own.from === wire.from ? wire.to : wire.from;
        const note = scene.marks.find(({ id }) => id === `leaves:${wire.id}>${far}`);
        const label = note!.labels[0]!;
        const [, page] = /, (?:page (\d+)|this page)$/.exec(label.text)!;
        const there = page === undefined ? scene : pages[Number(page) - 1]!.scene;
        const isLug = parts.some((part) => part.lugs.some(({ id }) => id === far));
        if (isLug) expect(there.parts.some((part) => part.lugs.some(({ id }) => id === far))).toBe(true);
      }
    }
  });
});

test('notes, names and page numbers lie on no other', async () => {
  for (const name of circuits.keys()) {
    const pages = printPages(await drawingOf(name), { paper: papers.a4 });
    for (const { scene } of pages) {
      const clashes = labelsOnLabels({ ...scene, parts: scene.parts.map((part) => ({ ...part, labels: [] })) });
      expect(clashes.filter((line) => /leaves:|name:|page:|note/.test(line))).toEqual([]);
    }
  }
});

test('a drawing that fits is one sheet without a page number; a large one has an overview with the outline of each page', async () => {
  const one = printPages(await drawingOf('one-pickup-volume-tone'), { paper: papers.a4 });
  expect(one).toHaveLength(1);
  expect(one[0]!.scene.notes.some(({ text }) => text.includes('Page'))).toBe(false);
  const pages = printPages(await drawingOf('seed 319'), { paper: papers.a4 });
  const [overview] = pages;
  const outlines = overview!.scene.marks.filter(({ id }) => id.startsWith('page:'));
  expect(outlines.map(({ labels }) => labels[0]!.text)).toEqual(pages.slice(1).map((_, index) => String(index + 2)));
  const names = overview!.scene.marks.filter(({ id }) => id.startsWith('name:')).map(({ labels }) => labels[0]!.text);
  expect(names.sort()).toEqual(
    drawn
      .get('seed 319')!
      .scene.parts.map(({ name }) => name)
      .sort(),
  );
});

test('parts lie on a page as they do in the overview', async () => {
  const pages = printPages(await drawingOf('seed 318'), { paper: papers.a4 });
  const overview = new Map(pages[0]!.scene.parts.map(({ id, box }) => [id, box]));
  for (const { scene } of pages.slice(1)) {
    const [first, ...rest] = scene.parts;
    const origin = overview.get(first!.id)!;
    for (const { id, box } of rest) {
      const there = overview.get(id)!;
      expect(box.x - first!.box.x).toBeCloseTo(there.x - origin.x, 1);
      expect(box.y - first!.box.y).toBeCloseTo(there.y - origin.y, 1);
    }
  }
});

test('a setting is named in the title block, and the paper is as large as it says', async () => {
  const [page] = printPages(await drawingOf('one-pickup-volume-tone'), { paper: papers.letter, says: 'volume 5' });
  expect(page!.scene.notes.some(({ text }) => text === 'volume 5')).toBe(true);
  const svg = renderSvg(page!.scene, { paper: page! });
  expect(svg).toMatch(/width="(279.4mm" height="215.9mm|215.9mm" height="279.4mm)"/);
});

test('a circuit beyond any instrument comes out readable', async () => {
  const drawing = await createDrawer((graph) => Promise.resolve(simpleLayout(graph))).draw(circuitOfText(generateCircuit(100)));
  for (const page of printPages(drawing, { paper: papers.a4 })) expect(pointsOf(page)).toBeGreaterThanOrEqual(6);
});
