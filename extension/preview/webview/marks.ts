/** Marks on a drawing: what the cursor stands on, and the findings at their lugs. */
import { firstOf, valueFor } from '../../../language/collections.js';
import { grow, labelBox, overlaps, sceneLabels, type Box } from '../../../language/drawing/index.js';
import type { PanelFinding } from '../protocol.js';
import { svg } from './dom.js';
import type { DrawnPicture, DrawnItem } from './drawing.js';

/** Marks what the cursor stands on; gives the first of it. */
export function markCursor(picture: DrawnPicture, ids: readonly string[]): string | undefined {
  for (const { id, node } of picture.items.values()) node.classList.toggle('at-cursor', ids.includes(id));
  return ids.find((id) => picture.items.has(id));
}

/** Marks what the readings suspect. */
export function markSuspects(picture: DrawnPicture, ids: readonly string[]): void {
  for (const { id, node } of picture.items.values()) node.classList.toggle('suspect', ids.includes(id));
}

const signs: Readonly<Record<PanelFinding['severity'], string>> = { error: '!', warning: '!', info: 'i', hint: 'i' };
const radius = 8;
/** Where a badge may stand about its thing: the nearest first, and of those the upper right. */
const sides = [13, 18, 24, 30, 36, 42].flatMap((distance) =>
  [1, 3, -1, -3, 2, -2, 0, 4].map((eighth) => {
    const angle = (eighth * Math.PI) / 4;
    return [distance * Math.cos(angle), -distance * Math.sin(angle)] as const;
  }),
);

/** A badge at its place, in units of the drawing. */
export interface PlacedBadge {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly severity: PanelFinding['severity'];
  readonly text: string;
}

/** Puts a badge on each thing that has findings, and gives where they stand; `chosen` gets the id of the thing. Findings are reached by keyboard through their list and their things. */
export function markFindings(
  picture: DrawnPicture,
  content: Box,
  findings: readonly PanelFinding[],
  chosen: (id: string) => void,
): readonly PlacedBadge[] {
  picture.root.querySelector('.badges')?.remove();
  const byItem = new Map<string, PanelFinding[]>();
  for (const finding of findings)
    for (const id of finding.ids) if (picture.items.has(id)) byItem.set(id, [...(byItem.get(id) ?? []), finding]);
  for (const { id, hit, says } of picture.items.values()) {
    const here = byItem.get(id) ?? [];
    hit.setAttribute('aria-label', here.length === 0 ? says : `${says}; ${here.map(wordsOf).join('; ')}`);
  }
  // In a browser letters take a little more room than the scene says.
  const taken: Box[] = sceneLabels(picture.scene).map(({ label }) => grow(labelBox(label), 2));
  const placed: PlacedBadge[] = [];
  const badges = [...byItem].map(([id, here]) => {
    const place = freePlace(valueFor(picture.items, id), content, taken);
    taken.push(place);
    const { severity } = firstOf(here);
    const text = here.length > 1 ? String(here.length) : signs[severity];
    const [x, y] = [place.x + radius, place.y + radius];
    placed.push({ x, y, radius, severity, text });
    const badge = svg(
      'g',
      { class: `badge ${severity}`, transform: `translate(${x} ${y})` },
      svg('circle', { r: radius }),
      svg('text', { y: 4, 'font-size': 12, class: 'bold' }, text),
    );
    badge.addEventListener('click', (event) => {
      event.stopPropagation();
      chosen(id);
    });
    return badge;
  });
  picture.root.append(svg('g', { class: 'badges', 'aria-hidden': 'true' }, ...badges));
  return placed;
}

/** Beside the thing, in sight, where no word is covered, else where it usually stands. */
function freePlace({ x, y }: DrawnItem, content: Box, taken: readonly Box[]): Box {
  const boxes = sides.map(([right, down]): Box => ({
    x: x + right - radius,
    y: y + down - radius,
    width: 2 * radius,
    height: 2 * radius,
  }));
  const isInside = (box: Box): boolean =>
    box.x >= content.x &&
    box.y >= content.y &&
    box.x + box.width <= content.x + content.width &&
    box.y + box.height <= content.y + content.height;
  return boxes.find((box) => isInside(box) && !taken.some((other) => overlaps(box, other))) ?? firstOf(boxes);
}

function wordsOf({ severity, message }: PanelFinding): string {
  return `${severity}: ${message.split('\n')[0]}`;
}
