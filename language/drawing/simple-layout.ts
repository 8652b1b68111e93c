/** A plain layout that always works: rows in reading order, about as wide as high. Used where no better one is available or needed. */
import { grid, type Point } from './geometry.js';
import type { LayoutGraph, LayoutResult } from './layout.js';

const gap = 4 * grid;

export function simpleLayout({ nodes }: LayoutGraph): LayoutResult {
  const places = new Map<string, Point>();
  const area = nodes.reduce((sum, { width, height }) => sum + (width + gap) * (height + gap), 0);
  const widest = Math.max(Math.sqrt(area * 2), 60 * grid);
  let [x, y, high] = [0, 0, 0];
  for (const { id, width, height } of nodes) {
    if (x > 0 && x + width > widest) [x, y, high] = [0, y + high + gap, 0];
    places.set(id, { x, y });
    x += width + gap;
    high = Math.max(high, height);
  }
  return places;
}
