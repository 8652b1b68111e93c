/** Units: what is placed beside each other on one level, a block or a group with all that it holds, at a place within it. */
import type { DiagramGroup } from '../diagram/diagram.js';
import { itemAt, valueFor } from '../../collections.js';
import { grid, joinBoxes, snapUp, type Point } from '../geometry.js';
import type { Block } from './block.js';
import { groupNameWidth, type Padding } from './outline.js';
import { placedPads, type PlacedSymbol } from '../placed.js';
import type { Pad } from '../symbols/symbol.js';

export interface Unit {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  readonly isGroup: boolean;
  /** Kinds of the parts in it. */
  readonly kinds: ReadonlySet<string>;
  /** Blocks by their corners, and empty groups by where their inside is, from the unit's corner. */
  readonly places: ReadonlyMap<string, Point>;
  /** Pads of the lugs in it, from the unit's corner, all parts in their usual orientation. */
  readonly pads: ReadonlyMap<string, Pad>;
}

export function unitOfBlock(block: Block): Unit {
  const placed = placedIn(block, new Map());
  return {
    id: block.id,
    width: block.width,
    height: block.height,
    isGroup: false,
    kinds: new Set(placed.map(({ part }) => part.kind)),
    places: new Map([[block.id, { x: 0, y: 0 }]]),
    pads: new Map(placed.flatMap((symbol) => placedPads(symbol).map((pad) => [pad.lug, pad] as const))),
  };
}

/** A group around units that have places; as large as its outline and half a step on each side. */
export function unitOfGroup(
  group: DiagramGroup,
  inside: readonly Unit[],
  places: ReadonlyMap<string, Point>,
  { top, side }: Padding,
  shifted: (pad: Pad, by: Point) => Pad,
): Unit {
  const boxes = inside.map((unit) => ({ ...valueFor(places, unit.id), width: unit.width, height: unit.height }));
  const box = boxes.length === 0 ? { x: 0, y: 0, width: 4 * grid, height: 2 * grid } : joinBoxes(boxes);
  const offset = (unit: Unit): Point => {
    const at = valueFor(places, unit.id);
    return { x: at.x - box.x + side, y: at.y - box.y + top };
  };
  const within = inside.flatMap((unit) =>
    [...unit.places].map(([id, at]): [string, Point] => [id, { x: at.x + offset(unit).x, y: at.y + offset(unit).y }]),
  );
  return {
    id: group.id,
    width: Math.max(box.width, snapUp(groupNameWidth(group)) + 2 * grid) + 2 * side,
    height: box.height + top + side,
    isGroup: true,
    kinds: new Set(inside.flatMap((unit) => [...unit.kinds])),
    places: new Map(inside.length === 0 ? [[group.id, { x: side, y: top }]] : within),
    pads: new Map(inside.flatMap((unit) => [...unit.pads].map(([lug, pad]): [string, Pad] => [lug, shifted(pad, offset(unit))]))),
  };
}

/** A block's symbols in the orientations chosen for them, the usual ones where nothing is chosen. */
export function placedIn(block: Block, choice: ReadonlyMap<string, number>): PlacedSymbol[] {
  return block.slots.flatMap((slot) => itemAt(slot.orientations, choice.get(slot.id) ?? 0));
}
