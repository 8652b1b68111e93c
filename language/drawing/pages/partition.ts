/** Boxes shared out among the fewest pages: in shelves one below the other or side by side, each of them cut across. */
import { itemAt } from '../../collections.js';
import type { Box } from '../geometry.js';

/** What a page with these boxes costs, by their indices; Infinity where they do not fit on one. */
export type PageCost = (indices: readonly number[]) => number;

type Axis = 'x' | 'y';

/** Sets of indices, one a page. A box that fits on no page is alone on one. */
export function partition(boxes: readonly Box[], costOf: PageCost): readonly (readonly number[])[] {
  const all = boxes.map((_, index) => index);
  if (all.length === 0 || costOf(all) < Infinity) return [all];
  const known = new Map<string, number>();
  const cost: PageCost = (indices) => {
    const key = [...indices].sort((a, b) => a - b).join(' ');
    const value = known.get(key) ?? costOf(indices);
    known.set(key, value);
    return value;
  };
  const ways = [inShelves(boxes, 'y', cost), inShelves(boxes, 'x', cost)];
  const best = ways.reduce((least, way) => (way.cost < least.cost ? way : least));
  return (best.cost < Infinity ? best : halved(boxes, all, cost)).pages;
}

interface Way {
  readonly pages: readonly (readonly number[])[];
  readonly cost: number;
}

function inShelves(boxes: readonly Box[], axis: Axis, costOf: PageCost): Way {
  const across = axis === 'x' ? 'y' : 'x';
  return cheapest(
    slices(
      boxes,
      boxes.map((_, index) => index),
      axis,
    ),
    (shelf) => cheapest(slices(boxes, shelf, across), (page) => ({ pages: [page], cost: costOf(page) })),
  );
}

/** Runs of slices, each as one, so that all together cost least. */
function cheapest(all: readonly (readonly number[])[], wayOf: (indices: readonly number[]) => Way): Way {
  const best: Way[] = [{ pages: [], cost: 0 }];
  for (let end = 1; end <= all.length; end++) {
    let least: Way = { pages: [], cost: Infinity };
    for (let begin = end - 1; begin >= 0; begin--) {
      const before = itemAt(best, begin);
      if (before.cost >= least.cost) continue;
      const last = wayOf(all.slice(begin, end).flat());
      if (before.cost + last.cost < least.cost)
        least = { pages: [...before.pages, ...last.pages], cost: before.cost + last.cost };
    }
    best.push(least);
  }
  return itemAt(best, all.length);
}

/** Boxes between the lines that can be drawn across an axis without touching any. */
function slices(boxes: readonly Box[], indices: readonly number[], axis: Axis): number[][] {
  const sorted = [...indices].sort((a, b) => itemAt(boxes, a)[axis] - itemAt(boxes, b)[axis] || a - b);
  const made: number[][] = [];
  let end = -Infinity;
  for (const index of sorted) {
    const box = itemAt(boxes, index);
    const last = made.at(-1);
    if (last === undefined || box[axis] >= end) made.push([index]);
    else last.push(index);
    end = Math.max(end, box[axis] + (axis === 'x' ? box.width : box.height));
  }
  return made;
}

/** Cut in two again and again until every piece fits, even where no straight line passes between the boxes. */
function halved(boxes: readonly Box[], indices: readonly number[], costOf: PageCost): Way {
  const whole = costOf(indices);
  if (whole < Infinity || indices.length < 2) return { pages: [indices], cost: whole };
  const middle = (index: number, axis: Axis): number => {
    const { x, y, width, height } = itemAt(boxes, index);
    return axis === 'x' ? x + width / 2 : y + height / 2;
  };
  const spread = (axis: Axis): number => {
    const all = indices.map((index) => middle(index, axis));
    return Math.max(...all) - Math.min(...all);
  };
  const axis = spread('x') >= spread('y') ? 'x' : 'y';
  const sorted = [...indices].sort((a, b) => middle(a, axis) - middle(b, axis) || a - b);
  const at = Math.ceil(sorted.length / 2);
  const [one, other] = [halved(boxes, sorted.slice(0, at), costOf), halved(boxes, sorted.slice(at), costOf)];
  return { pages: [...one.pages, ...other.pages], cost: one.cost + other.cost };
}
