/** What the drawing thread is asked and answers, and how it answers: it keeps a drawer for each document, so that what stays joined stays in its place. */
import { forgetOldest } from '../language/collections.js';
import { analysed, type Circuit } from '../language/circuit/index.js';
import { createDrawer, type Drawer, type DrawOptions, type Drawing, type LayoutFunction } from '../language/drawing/index.js';

export interface DrawRequest {
  readonly id: number;
  /** Drawings of the same key follow each other. */
  readonly key: string;
  readonly circuit: Circuit;
  readonly options: DrawOptions;
}

export type DrawAnswer = { readonly id: number } & ({ readonly drawing: Drawing } | { readonly problem: string });

/** Keys whose places are remembered. */
const mostKept = 16;

/** Answers requests one after the other. */
export function createDrawService(layout: LayoutFunction, answer: (answer: DrawAnswer) => void): (request: DrawRequest) => void {
  const drawers = new Map<string, Drawer>();
  let before: Promise<void> = Promise.resolve();
  const drawerOf = (key: string): Drawer => {
    const drawer = drawers.get(key) ?? createDrawer(layout);
    drawers.delete(key);
    drawers.set(key, drawer);
    forgetOldest(drawers, mostKept);
    return drawer;
  };
  return ({ id, key, circuit, options }) => {
    before = before.then(async () => {
      try {
        answer({ id, drawing: await drawerOf(key).draw(analysed(circuit), options) });
      } catch (error) {
        answer({ id, problem: error instanceof Error ? error.message : String(error) });
      }
    });
  };
}
