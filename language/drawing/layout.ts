/** What a layout is asked and what it answers: boxes, and places for them. The drawing does not know who lays it out. */
import type { Point } from './geometry.js';

export interface LayoutGraph {
  /** In the order in which they are read. */
  readonly nodes: readonly LayoutNode[];
}

/** A part that no family of arrangement has a place for, with room around it. */
export interface LayoutNode {
  readonly id: string;
  /** Drawing units. */
  readonly width: number;
  readonly height: number;
}

/** Top left corners of the nodes by id. */
export type LayoutResult = ReadonlyMap<string, Point>;

/**
 * Gives every node a place; nodes do not overlap. A drawing asks for the parts of one plate, cavity or sheet that have no usual place, and takes
 * `simpleLayout` for few or very many. Rejects where it cannot: the drawing then takes `simpleLayout`, unless it was stopped.
 */
export type LayoutFunction = (graph: LayoutGraph) => Promise<LayoutResult>;

/**
 * Rejects a layout or a drawing that was stopped from outside: by a guard on its time, by a thread that died, by a newer drawing. No other drawing
 * takes its place, since which one a reader gets must not depend on the machine.
 */
export class DrawingStopped extends Error {}
