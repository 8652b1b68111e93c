/** The wires of a drawing while its parts are still being moved: after each move only those that it concerns are laid again. */
import { valueFor } from '../../collections.js';
import type { Diagram, DiagramRun } from '../diagram/diagram.js';
import type { Point } from '../geometry.js';
import type { Access, Pad } from '../symbols/symbol.js';
import { placedPads, type PlacedSymbol } from '../placed.js';
import { createFieldMaker, surcharges, type Frame, type Surroundings } from './field.js';
import { clashes, extraOf, layWithin, mark, priceOf, settle, type RouteTask } from './route.js';
import { createSearch, prices, type Field, type Gate, type Route } from './search.js';

export interface Session {
  readonly frame: Frame;
  /** Ids of wires that found no free route. */
  crowded(): readonly string[];
  /** Ids of wires that should lie in cavities and channels and do not. */
  astray(): readonly string[];
  /** Whether a wire passes a channel between cavities. */
  isThroughChannel(id: string): boolean;
  /** Whether a wire lies in cavities and channels from end to end. */
  isBound(id: string): boolean;
  /** The number of a wire's bundle, of those that are laid side by side. */
  bundle(id: string): number | undefined;
  /** The field as the wires now lie on it. */
  field(): Field;
  pads(): ReadonlyMap<string, Pad>;
  routes(): ReadonlyMap<string, Route>;
  /** Length, bends, crossings and clashes of all wires, in the prices of the search. */
  cost(): number;
  /** Puts symbols where they are said to be and lays again what this concerns; false where it was given up because the wires came dearer by more than `patience`. */
  move(placed: readonly PlacedSymbol[], patience: number): boolean;
  /** How to bring everything back to where it is now. */
  keep(): () => void;
  /** What crossings and clashes cost the wires of each lug that has any. */
  trouble(): ReadonlyMap<string, number>;
  /** Lays the dear wires again until nothing gets better. */
  polish(): void;
  /** Grid points looked at so far: the measure of work, the same on every machine. */
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
  const createState = createStates(diagram, frame, around);
  const search = createSearch(frame.columns, frame.rows);
  let state = createState(placed);
  const rest = state.tasks.filter((task) => !keepRoute(state, task, known.get(task.id)));
  layAgain(rest, 0);

  function layAgain(tasks: readonly RouteTask[], rounds: number): void {
    settle(state.field, search, tasks, state.routes, rounds);
  }

  const isOpening = ({ x, y }: Point): boolean =>
    around.openings.some((box) => x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height);

  return {
    frame,
    astray: () =>
      state.tasks.filter((task) => task.isBound && isInWood(state.field, state.routes.get(task.id))).map((task) => task.id),
    crowded: () => state.tasks.filter((task) => clashes(state.field, state.routes.get(task.id))).map((task) => task.id),
    isThroughChannel: (id) => state.routes.get(id)?.cells.some((cell) => isOpening(frame.pointAt(cell))) === true,
    isBound: (id) => around.bound.has(id),
    bundle: (id) => state.byId.get(id)?.bundle,
    field: () => state.field,
    pads: () => state.pads,
    routes: () => state.routes,
    steps: () => search.steps(),
    cost() {
      let sum = 0;
      for (const task of state.tasks) {
        const route = state.routes.get(task.id);
        sum += route ? priceOf(state.field, task, route) : 10_000;
      }
      return sum;
    },
    move(symbols, patience) {
      const before = state;
      const after = createState(symbols);
      const concerned = carryOver(before, after);
      const allowance = concerned.reduce((sum, { id }) => sum + priceBefore(before, id), patience);
      if (!layWithin(after.field, search, concerned, after.routes, allowance)) return false;
      state = after;
      const clashing = state.tasks.filter((task) => !concerned.includes(task) && clashes(state.field, state.routes.get(task.id)));
      if (clashing.length > 0) layAgain(clashing, 0);
      return true;
    },
    keep() {
      const now = state;
      return () => void (state = now);
    },
    trouble() {
      const found = new Map<string, number>();
      for (const task of state.tasks) {
        const extra = extraOf(state.field, state.routes.get(task.id));
        if (extra > 0) for (const lug of task.lugs) found.set(lug, (found.get(lug) ?? 0) + extra);
      }
      return found;
    },
    polish: () => layAgain(state.tasks, 4),
  };
}

/** Where the wires' ends are, and where the wires lie, while the symbols are in one place. */
interface State {
  readonly field: Field;
  readonly pads: ReadonlyMap<string, Pad>;
  readonly tasks: readonly SessionTask[];
  readonly byId: ReadonlyMap<string, SessionTask>;
  readonly routes: Map<string, Route>;
}

interface SessionTask extends RouteTask {
  /** The two lugs that the wire joins. */
  readonly lugs: readonly string[];
}

/** The ways by which a wire would leave a lug first; others had better not pass there. */
function isKeptClear({ look }: Pad, { cost }: Access): boolean {
  return look !== 'spot' && cost < 1;
}

/** Makes the states of one session, each without a route yet; what hangs on a pad alone is worked out once. */
function createStates(diagram: Diagram, frame: Frame, around: Surroundings): (symbols: readonly PlacedSymbol[]) => State {
  const runs = diagram.runs.filter((run) => run.kind !== 'screen');
  const makeField = createFieldMaker(frame, around);
  const bundles = bundlesOf(diagram);
  const used = new Set(runs.flatMap((run) => [run.from, run.to]));
  // One symbol lies at the same place in many of the states that are tried.
  const padsBySymbol = new WeakMap<PlacedSymbol, readonly Pad[]>();
  const padsOf = (symbol: PlacedSymbol): readonly Pad[] => {
    const pads = padsBySymbol.get(symbol) ?? placedPads(symbol);
    padsBySymbol.set(symbol, pads);
    return pads;
  };
  const known = new WeakMap<Pad, Gate[]>();
  const gatesOf = (pad: Pad): Gate[] => {
    const gates =
      known.get(pad) ??
      pad.accesses.map((access) => ({
        cell: frame.cellAt(access),
        heading: access.heading,
        cost: Math.round(access.cost * prices.step) - (isKeptClear(pad, access) ? surcharges.access : 0),
      }));
    known.set(pad, gates);
    return gates;
  };
  return (symbols) => {
    const field = makeField(symbols);
    const pads = new Map(symbols.flatMap((symbol) => padsOf(symbol).map((pad) => [pad.lug, pad] as const)));
    for (const [lug, pad] of pads) {
      if (!used.has(lug)) continue;
      for (const access of pad.accesses) {
        if (!isKeptClear(pad, access)) continue;
        const cell = frame.cellAt(access);
        field.surcharge[cell] = (field.surcharge[cell] ?? 0) + surcharges.access;
      }
    }
    const tasks = runs.flatMap((run): SessionTask[] => {
      const [from, to] = [pads.get(run.from), pads.get(run.to)];
      if (from === undefined || to === undefined) return [];
      const ends = { from: gatesOf(from), to: gatesOf(to), lugs: [run.from, run.to] };
      const bundle = bundles.get(run.id);
      const task = { id: run.id, ...ends, order: orderOf(run, from, to), isBound: around.bound.has(run.id) };
      return [bundle === undefined ? task : { ...task, bundle }];
    });
    return { field, pads, tasks, byId: new Map(tasks.map((task) => [task.id, task])), routes: new Map() };
  };
}

/** Leaves the wires where they lay that the change does not concern; the others are returned. */
function carryOver(before: State, after: State): readonly SessionTask[] {
  return after.tasks.filter((task) => {
    const old = before.routes.get(task.id);
    const was = before.byId.get(task.id);
    const isSame = was !== undefined && sameGates(was.from, task.from) && sameGates(was.to, task.to);
    if (!old || !isSame || !old.cells.every((cell) => after.field.blocked[cell] === 0)) return true;
    mark(after.field, old, 1, task.bundle);
    after.routes.set(task.id, old);
    return false;
  });
}

/** What a wire cost where it lay, with a crossing to spare; without bound for one that had no route. */
function priceBefore({ field, byId, routes }: State, id: string): number {
  const old = routes.get(id);
  return old ? priceOf(field, valueFor(byId, id), old) + prices.crossing : Infinity;
}

/** Lets a wire lie where it lay, unless that route is blocked now. */
function keepRoute(state: State, task: RouteTask, route: Route | undefined): boolean {
  if (!route || !route.cells.every((cell) => state.field.blocked[cell] === 0)) return false;
  const [from, to] = [task.from[route.from], task.to[route.to]];
  if (from?.cell !== route.cells[0] || to?.cell !== route.cells.at(-1)) return false;
  mark(state.field, route, 1, task.bundle);
  state.routes.set(task.id, route);
  return true;
}

function isInWood(field: Field, route: Route | undefined): boolean {
  return route !== undefined && route.cells.some((cell) => field.wood[cell] === 1);
}

function sameGates(a: readonly Gate[], b: readonly Gate[]): boolean {
  return (
    a === b ||
    (a.length === b.length && a.every((gate, index) => gate.cell === b[index]?.cell && gate.heading === b[index]?.heading))
  );
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
