/** What a layout is asked and what it answers: boxes with ports, places for the boxes. The drawing does not know who lays it out. */
import type { Point } from './geometry.js';

export interface LayoutGraph {
  readonly nodes: readonly LayoutNode[];
  readonly edges: readonly LayoutEdge[];
  /** Nodes that should stand side by side, `from` before `to`: cavities with a channel between them. */
  readonly links: readonly { readonly id: string; readonly from: string; readonly to: string }[];
}

export interface LayoutNode {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  /** Where in the reading order it must stand; free where absent. */
  readonly column?: 'first' | 'last';
  readonly ports: readonly LayoutPort[];
}

/** A fixed place on a node's edge. */
export interface LayoutPort extends Point {
  readonly id: string;
  readonly side: 'north' | 'east' | 'south' | 'west';
}

/** Read from left to right: `from` before `to`. */
export interface LayoutEdge {
  readonly id: string;
  readonly from: { readonly node: string; readonly port: string };
  readonly to: { readonly node: string; readonly port: string };
  /** How much it matters that the edge is short and straight. */
  readonly weight: number;
}

/** Top left corners of the nodes by id. */
export type LayoutResult = ReadonlyMap<string, Point>;

/**
 * Gives every node a place; nodes do not overlap. A drawing asks once for what stands free and once for the inside of each group that
 * holds several things, and takes `simpleLayout` for one too large. Rejects where it cannot: the drawing then takes `simpleLayout`, unless it was stopped.
 */
export type LayoutFunction = (graph: LayoutGraph) => Promise<LayoutResult>;

/**
 * Rejects a layout or a drawing that was stopped from outside: by a guard on its time, by a thread that died, by a newer drawing. No other drawing
 * takes its place, since which one a reader gets must not depend on the machine.
 */
export class DrawingStopped extends Error {}
