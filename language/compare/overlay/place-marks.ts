/** Where the marks of a change lie on a drawing: old routes clear of its lettering, and badges that cover nothing. */
import {
  type Box,
  boxAround,
  createFreeRoutes,
  flattened,
  type FreeRoutes,
  grow,
  joinBoxes,
  labelBox,
  type Point,
  type Scene,
  sceneLabels,
  shapeBox,
  strokeBoxes,
} from '../../drawing/index.js';
import type { Kind } from '../change.js';
import { type Badge, leaderBoxes, type Line, type Obstacles, placeBadge } from './badge.js';
import { outlineAround, pathAround } from './outline.js';
import type { OverlayMark } from './overlay.js';

export const letters: Readonly<Record<Kind, string>> = { new: 'N', gone: 'G', moved: 'M', changed: 'C' };

export interface PlacedMark {
  readonly mark: OverlayMark;
  /** Its letter and its number in the list of changes. */
  readonly text: string;
  readonly wires: readonly (readonly Point[])[];
  readonly boxes: readonly Box[];
  /** Round those boxes, with gaps for letters. */
  readonly outlines: readonly (readonly Point[])[];
  /** Where a wire lay before; absent where one of its lugs is not drawn. */
  readonly was?: readonly Point[];
  /** Absent where nothing of the change is on this drawing. */
  readonly badge?: Badge;
  /** The same letter and number on the old route of what is drawn at another place too. */
  readonly wasBadge?: Badge;
}

/** Half the width of what is painted of a wire, and of one that is marked, with the paper that stays beside it. */
const [wireReach, haloReach] = [4, 7];
const sheetEdge = 4;

/** In the order of the marks; `within` is the part of the sheet that is shown, all of it unless said. */
export function placeMarks(
  scene: Scene,
  marks: readonly OverlayMark[],
  within: Box = { x: 0, y: 0, width: scene.width, height: scene.height },
): readonly PlacedMark[] {
  const lines = linesOf(scene, marks);
  const place = createPlacer(scene, lines, grow(within, -sheetEdge));
  const badges = lines.map((placed) => place(lineOf(placed), placed.text));
  const wasBadges = lines.map(({ was, wires, text }) =>
    was === undefined || wires.length === 0 ? undefined : place({ points: was, isWire: false }, text),
  );
  return lines.map((placed, index): PlacedMark => {
    const [badge, wasBadge] = [badges[index], wasBadges[index]];
    return { ...placed, ...(badge && { badge }), ...(wasBadge && { wasBadge }) };
  });
}

/** The marks without their badges. */
function linesOf(scene: Scene, marks: readonly OverlayMark[]): readonly PlacedMark[] {
  let routes: FreeRoutes | undefined;
  const texts = sceneLabels(scene).map(({ label }) => labelBox(label));
  return marks.map((mark, index) => {
    const was = mark.was && (routes ??= createFreeRoutes(scene)).between(...mark.was);
    const boxes = scene.parts
      .filter(({ id }) => mark.ids.includes(id))
      .map((part) => grow<Box>(joinBoxes([part.box, ...part.labels]), 5));
    return {
      mark,
      text: `${letters[mark.kind]}${index + 1}`,
      wires: scene.wires.filter(({ id }) => mark.ids.includes(id)).map(({ points }) => points),
      boxes,
      outlines: boxes.flatMap((box) => outlineAround(box, texts)),
      ...(was === undefined ? {} : { was }),
    };
  });
}

/** Places badge after badge, each clear of those before. */
function createPlacer(
  scene: Scene,
  marks: readonly PlacedMark[],
  room: Box,
): (line: Line | undefined, text: string) => Badge | undefined {
  const { solid, lines, bodies } = obstaclesOf(scene);
  const halos = marks.flatMap(({ wires }) => wires.flatMap((points) => stretches(points, haloReach)));
  const taken = [...solid];
  return (line, text) => {
    if (line === undefined) return undefined;
    const olds = marks.flatMap(({ was }) => (was === undefined || was === line.points ? [] : strokeBoxes(was, 2)));
    const badge = placeBadge(line, text, { solid: taken, lines: [...lines, ...halos, ...olds], bodies }, room);
    if (badge === undefined) return undefined;
    taken.push(grow<Box>({ ...badge }, 2), ...leaderBoxes(badge));
    return badge;
  };
}

function lineOf({ wires: [wire], boxes: [box], was }: PlacedMark): Line | undefined {
  if (wire !== undefined) return { points: wire, isWire: true };
  const points = box === undefined ? was : pathAround(box);
  return points && { points, isWire: false };
}

function obstaclesOf(scene: Scene): Obstacles {
  const around = ({ x, y, radius }: Point & { readonly radius: number }): Box =>
    grow<Box>({ x, y, width: 0, height: 0 }, radius + 1);
  return {
    solid: [
      ...sceneLabels(scene).map(({ label }) => grow(labelBox(label), 1)),
      ...scene.parts.flatMap(({ lugs }) => lugs.filter(({ look }) => look === 'lug').map(around)),
      ...scene.joints.map(around),
      ...scene.marks.flatMap(({ shapes }) => shapes.map(shapeBox)),
      ...scene.samples.map(({ points }) => grow(boxAround(points), wireReach)),
    ],
    lines: scene.wires.flatMap(({ points, leader }) => [
      ...stretches(points, wireReach),
      ...(leader === undefined ? [] : strokeBoxes(leader, 1)),
    ]),
    bodies: scene.parts.map(({ box }) => box),
  };
}

function stretches(points: readonly Point[], reach: number): Box[] {
  return strokeBoxes(flattened(points), reach);
}
