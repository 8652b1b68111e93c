/** The wires of a drawing, laid between the lugs of parts that stand: from a diagram and places to routes. */
import type { Diagram, DiagramRun } from '../diagram/diagram.js';
import type { Pad } from '../symbols/symbol.js';
import { placedPads, type PlacedSymbol } from '../placed.js';
import { takeApart } from './apart.js';
import { createField, type Frame, type Surroundings } from './field.js';
import { gatesOf, keepAccessesClear } from './gates.js';
import { createJoints } from './joints.js';
import { makeWay } from './make-way.js';
import { markTask } from './marks.js';
import { pairsOf } from './pairs.js';
import { settle, shorten, type RouteTask } from './route.js';
import type { Field, Route } from './grid-field.js';
import { createSearch } from './search.js';
import { layTies, type TieStart } from './ties.js';

export interface Session {
  readonly frame: Frame;
  /** Ids of wires that found no free route: they lie on another, or have none. */
  crowded(): readonly string[];
  /** Ids of wires that should lie in cavities and channels and do not. */
  astray(): readonly string[];
  /** Whether a wire passes a channel between cavities. */
  isThroughChannel(id: string): boolean;
  /** Whether a wire lies in cavities and channels from end to end. */
  isBound(id: string): boolean;
  /** The number of a wire's bundle, of those that are laid side by side. */
  bundle(id: string): number | undefined;
  /** The field as the wires lie on it. */
  field(): Field;
  pads(): ReadonlyMap<string, Pad>;
  /** Where each screen's tie may begin, by id. */
  ties(): ReadonlyMap<string, readonly TieStart[]>;
  /** Of wires and of ties, by id. */
  routes(): ReadonlyMap<string, Route>;
  /** Grid points looked at: the measure of work, the same on every machine. */
  steps(): number;
}

/** `known` are routes that wires had before; they keep them where nothing has come in between. */
export function createSession(
  diagram: Diagram,
  frame: Frame,
  placed: readonly PlacedSymbol[],
  around: Surroundings,
  known: ReadonlyMap<string, Route> = new Map(),
): Session {
  const field = createField(frame, around, placed);
  const search = createSearch(frame.columns, frame.rows);
  const pads = padsOf(placed);
  const tasks = tasksOf(diagram, frame, { around, placed, pads });
  keepAccessesClear(field, frame, pads, tasks);
  const routes = new Map<string, Route>();
  const rest = tasks.filter((task) => !keepRoute(field, task, known.get(task.id), routes));
  const joints = createJoints(field, tasks, routes);
  const laying = { field, search, routes, joints };
  settle(laying, rest);
  shorten(laying, rest);
  makeWay(laying, rest);
  const laid = { ...laying, frame, pads, tasks };
  takeApart({ ...laid, isFixed: () => false });
  const ties = layTies(laid, diagram, (wire) => around.bound.has(wire));
  const all = { ...laid, tasks: [...tasks, ...ties], joints: createJoints(field, [...tasks, ...ties], routes) };
  const tied = new Set(ties.map(({ lugs: [wire] }) => wire));
  if (ties.length > 0) takeApart({ ...all, isFixed: ({ id }) => tied.has(id) });
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const idsOf = (isSuch: (task: RouteTask, route: Route | undefined) => boolean): string[] =>
    tasks.filter((task) => isSuch(task, routes.get(task.id))).map(({ id }) => id);
  return {
    frame,
    astray: () => idsOf((task, route) => task.isBound && isInWood(field, route)),
    crowded: () => {
      const paired = new Set(pairsOf(all).flatMap(({ one, other }) => [one.id, other.id]));
      return all.tasks.flatMap(({ id }) => (paired.has(id) || !routes.has(id) ? [id] : []));
    },
    isThroughChannel: (id) => byId.get(id)?.isFar === true,
    isBound: (id) => around.bound.has(id),
    bundle: (id) => byId.get(id)?.bundle,
    field: () => field,
    pads: () => pads,
    ties: () => new Map(ties.map(({ id, from }) => [id, from])),
    routes: () => routes,
    steps: () => search.steps(),
  };
}

interface Sited {
  readonly around: Surroundings;
  readonly placed: readonly PlacedSymbol[];
  /** By id of lug. */
  readonly pads: ReadonlyMap<string, Pad>;
}

function tasksOf(diagram: Diagram, frame: Frame, { around, placed, pads }: Sited): readonly RouteTask[] {
  const partOf = new Map(placed.flatMap(({ part, symbol }) => symbol.pads.map(({ lug }) => [lug, part] as const)));
  const bundles = bundlesOf(diagram);
  const gates = new Map([...pads].map(([lug, pad]) => [lug, gatesOf(frame, pad)]));
  return diagram.runs.flatMap((run): RouteTask[] => {
    const [a, b] = [pads.get(run.from), pads.get(run.to)];
    const [from, to] = [gates.get(run.from), gates.get(run.to)];
    if (run.kind === 'screen' || !a || !b || !from || !to) return [];
    const bundle = bundles.get(run.id);
    return [
      {
        id: run.id,
        from,
        to,
        lugs: [run.from, run.to],
        order: orderOf(run, a, b),
        isBound: around.bound.has(run.id),
        isWide: run.kind === 'solder',
        isJumper: partOf.get(run.from) === partOf.get(run.to),
        isFar: (around.bound.get(run.id)?.length ?? 0) > 0,
        ...(bundle === undefined ? {} : { bundle }),
      },
    ];
  });
}

function padsOf(placed: readonly PlacedSymbol[]): ReadonlyMap<string, Pad> {
  return new Map(placed.flatMap((symbol) => placedPads(symbol).map((pad) => [pad.lug, pad] as const)));
}

/** Lets a wire lie where it lay, unless that route is blocked now. */
function keepRoute(field: Field, task: RouteTask, route: Route | undefined, routes: Map<string, Route>): boolean {
  if (!route || !route.cells.every((cell) => field.blocked[cell] === 0)) return false;
  const [from, to] = [task.from[route.from], task.to[route.to]];
  if (from?.cell !== route.cells[0] || to?.cell !== route.cells.at(-1)) return false;
  markTask(field, task, route, 1);
  routes.set(task.id, route);
  return true;
}

function isInWood(field: Field, route: Route | undefined): boolean {
  return route !== undefined && route.cells.some((cell) => field.wood[cell] === 1);
}

/** The number of the bundle in which a ground wire is laid: that of the part where more of them end. */
function bundlesOf({ parts, runs }: Diagram): ReadonlyMap<string, number> {
  const partOf = new Map(
    parts.flatMap((part, index) =>
      [...part.lugs, ...(part.inner ?? []).flatMap(({ lugs }) => lugs)].map(({ id }) => [id, index + 1] as const),
    ),
  );
  const grounds = runs.filter(({ kind, ground }) => kind === 'wire' && ground);
  const ends = new Map<number, number>();
  const at = (lug: string): number => partOf.get(lug) ?? 0;
  for (const { from, to } of grounds) for (const part of [at(from), at(to)]) ends.set(part, (ends.get(part) ?? 0) + 1);
  const count = (part: number): number => ends.get(part) ?? 0;
  return new Map(
    grounds.flatMap(({ id, from, to }) => {
      const [a, b] = [at(from), at(to)];
      const destination = count(a) >= count(b) ? a : b;
      return count(destination) > 1 ? [[id, destination] as const] : [];
    }),
  );
}

/** Leads and direct joints first, then short before long, signal before ground: what has least choice is laid first. */
function orderOf(run: DiagramRun, a: Pad, b: Pad): number {
  const distance = Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
  return distance + (run.kind === 'wire' ? (run.ground ? 2000 : 1000) : 0);
}
