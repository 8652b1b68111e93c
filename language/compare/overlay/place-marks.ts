/** Where the marks of a change lie on a drawing: old routes clear of its lettering, and badges that cover nothing. */
import { pairwise } from '../../collections.js';
import {
  type Box,
  boxAround,
  createFreeRoutes,
  grow,
  joinBoxes,
  overlaps,
  type Point,
  type Scene,
  sceneLabels,
  shapeBox,
  textWidth,
} from '../../drawing/index.js';
import type { Kind } from '../change.js';
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

export interface Badge extends Box {
  /** From what is marked to the badge, where it does not lie on it. */
  readonly leader?: readonly [Point, Point];
}

export const badgeStyle = { size: 11, bold: true } as const;
/** Half the width of what is painted of a wire, and of one that is marked, with the paper that stays beside it. */
const [wireReach, haloReach] = [4, 7];
const sheetEdge = 4;

/** In the order of the marks; `within` is the part of the sheet that is shown, all of it unless said. */
export function placeMarks(
  scene: Scene,
  marks: readonly OverlayMark[],
  within: Box = { x: 0, y: 0, width: scene.width, height: scene.height },
): readonly PlacedMark[] {
  const routes = createFreeRoutes(scene);
  const texts = sceneLabels(scene).map(({ label }) => label);
  const lines = marks.map((mark, index): PlacedMark => {
    const was = mark.was && routes.between(...mark.was);
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
  const taken = obstaclesOf(scene);
  const room = grow(within, -sheetEdge);
  const halos = lines.flatMap(({ wires }) => wires.flatMap((points) => stretches(points, haloReach)));
  const badgeOn = (line: Line | undefined, text: string): Badge | undefined => {
    const olds = lines.flatMap(({ was }) => (was === undefined || was === line?.points ? [] : stretches(was, 2)));
    const badge = line && badgeOf(line, text, { ...taken, lines: [...taken.lines, ...halos, ...olds] }, room);
    if (badge !== undefined) taken.solid.push(grow<Box>({ ...badge }, 2), ...leaderBox(badge));
    return badge;
  };
  const now = lines.map((placed) => badgeOn(lineOf(placed), placed.text));
  const old = lines.map(({ was, wires, text }) =>
    was === undefined || wires.length === 0 ? undefined : badgeOn({ points: was, isWire: false }, text),
  );
  return lines.map((placed, index): PlacedMark => {
    const [badge, wasBadge] = [now[index], old[index]];
    return { ...placed, ...(badge && { badge }), ...(wasBadge && { wasBadge }) };
  });
}

/** Where a badge belongs. */
interface Line {
  readonly points: readonly Point[];
  /** A badge may lie on an old route or an outline, not on a wire. */
  readonly isWire: boolean;
}

function lineOf({ wires: [wire], boxes: [box], was }: PlacedMark): Line | undefined {
  if (wire !== undefined) return { points: wire, isWire: true };
  const points = box === undefined ? was : pathAround(box);
  return points && { points, isWire: false };
}

interface Obstacles {
  /** What neither a badge nor its leader may touch. */
  readonly solid: Box[];
  /** What a badge may not touch, and a leader had better not cross. */
  readonly lines: readonly Box[];
  /** What a badge had better not touch. */
  readonly bodies: readonly Box[];
}

function obstaclesOf(scene: Scene): Obstacles {
  const around = ({ x, y, radius }: Point & { readonly radius: number }): Box =>
    grow<Box>({ x, y, width: 0, height: 0 }, radius + 1);
  return {
    solid: [
      ...sceneLabels(scene).map(({ label }) => grow<Box>(label, 1)),
      ...scene.parts.flatMap(({ lugs }) => lugs.filter(({ look }) => look === 'lug').map(around)),
      ...scene.joints.map(around),
      ...scene.marks.flatMap(({ shapes }) => shapes.map(shapeBox)),
      ...scene.samples.map(({ points }) => grow(boxAround(points), wireReach)),
    ],
    lines: scene.wires.flatMap(({ points }) => stretches(points, wireReach)),
    bodies: scene.parts.map(({ box }) => box),
  };
}

function stretches(points: readonly Point[], reach: number): Box[] {
  return pairwise(points).map((ends) => grow(boxAround(ends), reach));
}

interface Candidate {
  readonly badge: Badge;
  readonly cost: number;
}

/** The cheapest free spot on or beside a line, near to its middle. */
function badgeOf({ points, isWire }: Line, text: string, { solid, lines, bodies }: Obstacles, room: Box): Badge | undefined {
  const size = { width: textWidth(text, badgeStyle) + 8, height: 16 };
  let best: Candidate | undefined;
  for (const { badge, cost } of candidates(points, size, !isWire)) {
    if (best !== undefined && cost >= best.cost) continue;
    const covered = [badge, ...leaderBox(badge)];
    if (!holds(room, badge) || solid.some((other) => covered.some((box) => overlaps(box, other)))) continue;
    if (lines.some((other) => overlaps(badge, other))) continue;
    const crossed = leaderBox(badge).flatMap((leader) => lines.filter((other) => overlaps(leader, other))).length;
    const total = cost + 24 * crossed + (bodies.some((other) => overlaps(badge, other)) ? 18 : 0);
    if (best === undefined || total < best.cost) best = { badge, cost: total };
  }
  return best?.badge;
}

/** Spots on both sides of a line, farther and farther out. */
function* candidates(line: readonly Point[], size: Pick<Box, 'width' | 'height'>, mayLieOn: boolean): Generator<Candidate> {
  const length = lengthOf(line);
  let start = 0;
  for (const [a, b] of pairwise(line)) {
    const own = Math.hypot(b.x - a.x, b.y - a.y);
    const isLevel = Math.abs(b.x - a.x) >= Math.abs(b.y - a.y);
    const reach = (isLevel ? size.height : size.width) / 2;
    for (let along = 0; along <= own; along += 4) {
      const share = own === 0 ? 0 : along / own;
      const anchor = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
      const aside = Math.abs(start + along - length / 2) * 0.12;
      const at = (offset: number): Badge => {
        const centre = isLevel ? { x: anchor.x, y: anchor.y + offset } : { x: anchor.x + offset, y: anchor.y };
        const edge = offset - Math.sign(offset) * reach;
        const end = isLevel ? { x: anchor.x, y: anchor.y + edge } : { x: anchor.x + edge, y: anchor.y };
        const box = { x: centre.x - size.width / 2, y: centre.y - size.height / 2, ...size };
        return offset === 0 ? box : { ...box, leader: [anchor, end] };
      };
      if (mayLieOn) yield { badge: at(0), cost: aside };
      for (let gap = 8; gap <= 120; gap += 4)
        for (const side of [-1, 1]) yield { badge: at(side * (reach + gap)), cost: aside + gap };
    }
    start += own;
  }
}

function lengthOf(points: readonly Point[]): number {
  return pairwise(points).reduce((sum, [a, b]) => sum + Math.hypot(b.x - a.x, b.y - a.y), 0);
}

function holds(room: Box, { x, y, width, height }: Box): boolean {
  return x >= room.x && y >= room.y && x + width <= room.x + room.width && y + height <= room.y + room.height;
}

/** What a leader covers. */
function leaderBox({ leader }: Badge): readonly Box[] {
  return leader === undefined ? [] : [grow(boxAround(leader), 0.8)];
}
