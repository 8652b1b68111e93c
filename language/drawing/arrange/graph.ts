/** The question to the layout: units as boxes, lugs as ports, wires as edges in reading order from the pickups to the jack. */
import { valueFor } from '../../collections.js';
import type { Diagram, DiagramRun } from '../diagram/diagram.js';
import type { LayoutEdge, LayoutGraph, LayoutNode, LayoutPort } from '../layout.js';
import { compareText } from '../diagram/order.js';
import type { Pad } from '../symbols/symbol.js';
import type { Unit } from './unit.js';

/** For the units of one level; `isInside` where they lie in a group, whose edges no column is bound to. */
export function createGraph(diagram: Diagram, units: readonly Unit[], isInside: boolean): LayoutGraph {
  const unitByLug = new Map(units.flatMap((unit) => [...unit.pads.keys()].map((lug) => [lug, unit] as const)));
  const unitOf = (lug: string): Unit => valueFor(unitByLug, lug);
  const runs = diagram.runs.filter((run) => {
    const [a, b] = [unitByLug.get(run.from), unitByLug.get(run.to)];
    return a !== undefined && b !== undefined && a !== b;
  });
  const rank = ranks(units, runs, (lug) => unitOf(lug).id);
  const used = new Set(runs.flatMap((run) => [run.from, run.to]));
  const nodes = units.map((unit): LayoutNode => {
    const ports = [...unit.pads.values()].flatMap((pad) => (used.has(pad.lug) ? portOf(unit, pad) : []));
    const column = isInside || unit.isGroup ? undefined : columnOf(unit);
    return { id: unit.id, width: unit.width, height: unit.height, ports, ...(column === undefined ? {} : { column }) };
  });
  const far = cavityDistances(diagram, units);
  // The signal gives the drawing its shape, and the wire to the jack's sleeve its end. Another ground wire shapes it only where a part has
  // no signal, so that a ground wire moved moves little else.
  const bySignal = new Set(runs.filter((run) => !run.ground).flatMap((run) => [unitOf(run.from), unitOf(run.to)]));
  const isShaping = (run: DiagramRun): boolean =>
    !run.ground || [run.from, run.to].some((lug) => !bySignal.has(unitOf(lug)) || unitOf(lug).kinds.has('jack'));
  const edges = runs.filter(isShaping).map((run): LayoutEdge => {
    const endAt = (port: string): LayoutEdge['from'] => ({ node: unitOf(port).id, port });
    const [a, b] = [endAt(run.from), endAt(run.to)];
    const depth = ({ node }: LayoutEdge['from']): number => far.get(node) ?? NaN;
    const rankAt = ({ node }: LayoutEdge['from']): number => valueFor(rank, node);
    // Between cavities the channels give the order, else the path of the signal does.
    const order = depth(b) - depth(a) || rankAt(a) - rankAt(b) || compareText(a.node, b.node);
    const [from, to] = order > 0 ? [b, a] : [a, b];
    return { id: run.id, from, to, weight: run.ground ? 1 : run.kind === 'wire' ? 4 : 8 };
  });
  return { nodes, edges, links: linksOf(diagram, units, far) };
}

/** Channels in reading order: towards the cavity that holds the jack. */
function linksOf(diagram: Diagram, units: readonly Unit[], far: ReadonlyMap<string, number>): LayoutGraph['links'] {
  const here = new Set(units.map((unit) => unit.id));
  return diagram.channels
    .filter(({ from, to }) => here.has(from) && here.has(to))
    .map(({ id, from, to }) => {
      const [a, b] = [far.get(from) ?? Infinity, far.get(to) ?? Infinity];
      return a >= b ? { id, from, to } : { id, from: to, to: from };
    });
}

/** How many channels lie between each cavity and the one that holds a jack. */
export function cavityDistances(diagram: Diagram, units: readonly Unit[]): Map<string, number> {
  const distance = new Map(units.filter((unit) => unit.isGroup && unit.kinds.has('jack')).map((unit) => [unit.id, 0]));
  const ends = diagram.channels.flatMap(({ from, to }) => [[from, to] as const, [to, from] as const]);
  for (let isChanged = true; isChanged;) {
    isChanged = false;
    for (const [a, b] of ends) {
      const steps = distance.get(a);
      if (steps === undefined || distance.has(b)) continue;
      distance.set(b, steps + 1);
      isChanged = true;
    }
  }
  return distance;
}

/** The first layer is what lies under the strings, the last is the jack that the signal leaves by. */
function columnOf({ kinds }: Unit): 'first' | 'last' | undefined {
  if (['pickup', 'humbucker', 'bridge'].some((kind) => kinds.has(kind))) return 'first';
  return kinds.has('jack') ? 'last' : undefined;
}

/** Steps from the nearest pickup along signal wires; what only ground reaches comes after what it is wired to. */
function ranks(units: readonly Unit[], runs: readonly DiagramRun[], unitOf: (lug: string) => string): Map<string, number> {
  const isOnly = (unit: Unit, kind: string): boolean => unit.kinds.has(kind) && unit.kinds.size === 1;
  const jacks = new Set(units.filter((unit) => isOnly(unit, 'jack')).map((unit) => unit.id));
  const start = units.filter((unit) => ['pickup', 'humbucker'].some((kind) => unit.kinds.has(kind)));
  const rank = new Map(start.map((unit) => [unit.id, 0]));
  for (const wave of [runs.filter((run) => !run.ground), runs]) {
    let front = [...rank];
    while (front.length > 0) {
      const next: [string, number][] = [];
      for (const [id, steps] of front) {
        // The jack is the end: what hangs on it does not come after it.
        if (jacks.has(id)) continue;
        for (const run of wave) {
          const [a, b] = [unitOf(run.from), unitOf(run.to)];
          const other = a === id ? b : b === id ? a : undefined;
          if (other === undefined || rank.has(other)) continue;
          rank.set(other, steps + 1);
          next.push([other, steps + 1]);
        }
      }
      front = next;
    }
  }
  const last = Math.max(0, ...rank.values()) + 1;
  for (const unit of units) {
    if (jacks.has(unit.id)) rank.set(unit.id, last);
    else if (isOnly(unit, 'bridge')) rank.set(unit.id, 0);
    else if (!rank.has(unit.id)) rank.set(unit.id, last - 1);
  }
  return rank;
}

/** The place on the unit's edge where a wire from the lug comes out. */
function portOf(unit: Unit, { lug, accesses }: Pad): LayoutPort[] {
  const [access] = accesses;
  if (!access) return [];
  const side = (['north', 'north', 'east', 'east', 'south', 'south', 'west', 'west'] as const)[access.heading];
  const x = side === 'east' ? unit.width : side === 'west' ? 0 : access.x;
  const y = side === 'south' ? unit.height : side === 'north' ? 0 : access.y;
  return [{ id: lug, side, x, y }];
}
