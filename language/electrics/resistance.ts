/** Resistance between two points of a network of resistors, without a single subtraction. */

/** A resistor of so many siemens between two nodes. */
export interface Conductor {
  readonly from: number;
  readonly to: number;
  readonly siemens: number;
}

export interface Reading {
  /** Ohms; Infinity where nothing joins the two points. */
  readonly ohm: number;
  /** Per conductor, the share of the meter's current that it carries (0 … 1). */
  readonly shares: readonly number[];
}

/**
 * Star-mesh elimination (Rosen, 1924), the node with the fewest neighbours first. Conductances are only added, multiplied and divided,
 * so a milliohm beside a megohm costs no accuracy. Afterwards the voltages are found backwards, each node the mean of its neighbours
 * weighted by conductance.
 */
export function resistanceBetween(nodes: number, conductors: readonly Conductor[], a: number, b: number): Reading {
  const none = conductors.map(() => 0);
  if (a === b) return { ohm: 0, shares: none };
  const rays: Map<number, number>[] = Array.from({ length: nodes }, () => new Map());
  const tie = (from: number, to: number, siemens: number): void => {
    rays[from]!.set(to, (rays[from]!.get(to) ?? 0) + siemens);
    rays[to]!.set(from, (rays[to]!.get(from) ?? 0) + siemens);
  };
  for (const { from, to, siemens } of conductors) if (from !== to && siemens > 0) tie(from, to, siemens);
  const inside = reached(rays, a);
  if (!inside.has(b)) return { ohm: Infinity, shares: none };
  inside.delete(a);
  inside.delete(b);
  const gone: { readonly node: number; readonly rays: readonly (readonly [number, number])[] }[] = [];
  while (inside.size > 0) {
    const node = fewest(inside, rays);
    inside.delete(node);
    const own = [...rays[node]!];
    gone.push({ node, rays: own });
    const sum = own.reduce((all, [, siemens]) => all + siemens, 0);
    for (const [other] of own) rays[other]!.delete(node);
    for (let i = 0; i < own.length; i++) {
      for (let j = i + 1; j < own.length; j++) tie(own[i]![0], own[j]![0], (own[i]![1] * own[j]![1]) / sum);
    }
  }
  const siemens = rays[a]!.get(b)!;
  const voltage = new Float64Array(nodes);
  voltage[a] = 1 / siemens;
  for (const { node, rays: own } of gone.reverse()) {
    let [sum, weighted] = [0, 0];
    for (const [other, part] of own) {
      sum += part;
      weighted += part * voltage[other]!;
    }
    if (sum > 0) voltage[node] = weighted / sum;
  }
  return {
    ohm: 1 / siemens,
    shares: conductors.map(({ from, to, siemens: part }) => Math.abs(voltage[from]! - voltage[to]!) * part),
  };
}

function reached(rays: readonly ReadonlyMap<number, number>[], start: number): Set<number> {
  const found = new Set([start]);
  for (const node of found) for (const other of rays[node]!.keys()) found.add(other);
  return found;
}

function fewest(nodes: ReadonlySet<number>, rays: readonly ReadonlyMap<number, number>[]): number {
  let best = -1;
  let least = Infinity;
  for (const node of nodes) {
    const count = rays[node]!.size;
    if (count < least) [best, least] = [node, count];
    if (count <= 1) break;
  }
  return best;
}
