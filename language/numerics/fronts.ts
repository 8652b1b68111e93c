/** The plan of an elimination in fronts: each unknown with the ones that its elimination touches, as a tree, so that a change redoes one path of it. */

/** One step of the elimination. */
export interface Front {
  readonly unknown: number;
  /** Its place in the order. */
  readonly step: number;
  /** The later steps that its elimination touches, in order. */
  readonly rest: readonly Front[];
  /** The first of `rest`: where its contribution goes; undefined where nothing is left. */
  readonly parent: Front | undefined;
  readonly children: readonly Front[];
  /** The first step of the subtree that ends with this one: the steps from there to it are those that contribute to it. */
  readonly first: number;
  /** Places of `rest` in the front of the parent, which is the parent itself (0) and its own `rest` (from 1 on). */
  readonly places: readonly number[];
}

export interface Fronts {
  /** In the order of elimination. */
  readonly order: readonly Front[];
  /** By unknown. */
  readonly of: readonly Front[];
}

/** A front while it is made. */
interface Node extends Front {
  step: number;
  rest: Node[];
  parent: Node | undefined;
  readonly children: Node[];
  first: number;
  places: readonly number[];
  /** Its place in the order of fewest neighbours, from which the final one follows. */
  turn: number;
  readonly neighbours: Set<Node>;
}

/**
 * Plans an elimination of `size` unknowns that are joined in pairs, fewest neighbours first and `last` last (the multifrontal method; Duff
 * and Reid, 1983): what a step takes from the ones after it goes to its parent alone, so a changed value reaches only the steps between
 * it and the root.
 */
export function createFronts(size: number, pairs: Iterable<readonly [number, number]>, last: number): Fronts {
  const nodes = Array.from({ length: size }, (_, unknown) => createNode(unknown));
  for (const [a, b] of pairs) {
    const [one, other] = [nodes[a], nodes[b]];
    if (one === undefined || other === undefined || one === other) continue;
    one.neighbours.add(other);
    other.neighbours.add(one);
  }
  const turns = eliminationOrder(nodes, last);
  for (const node of turns) {
    for (const other of node.rest) if (node.parent === undefined || other.turn < node.parent.turn) node.parent = other;
  }
  const order = postorder(turns);
  for (const [step, node] of order.entries()) {
    node.first = node.children[0]?.first ?? step;
    node.parent?.children.push(node);
    node.rest.sort((a, b) => a.step - b.step);
  }
  for (const node of order) {
    const { parent } = node;
    node.places = parent === undefined ? [] : node.rest.map((other) => parent.rest.indexOf(other) + 1);
  }
  return { order, of: nodes };
}

function createNode(unknown: number): Node {
  return { unknown, step: -1, turn: -1, rest: [], parent: undefined, children: [], first: -1, places: [], neighbours: new Set() };
}

/** Takes out one unknown after the other; those that it touched touch each other from then on. */
function eliminationOrder(nodes: readonly Node[], last: number): readonly Node[] {
  const queue = createQueue(nodes, last);
  const order: Node[] = [];
  const eliminate = (node: Node): void => {
    node.turn = order.length;
    order.push(node);
    node.rest = [...node.neighbours];
    for (const one of node.rest) {
      one.neighbours.delete(node);
      for (const other of node.rest) if (other !== one) one.neighbours.add(other);
      queue.put(one);
    }
  };
  while (order.length < nodes.length - 1) eliminate(queue.next());
  const final = nodes[last];
  if (final !== undefined) eliminate(final);
  return order;
}

/** An order in which every subtree is one contiguous run; the elimination stays the same one. */
function postorder(turns: readonly Node[]): readonly Node[] {
  const below = new Map<Node, Node[]>(turns.map((node) => [node, []]));
  const waiting: Node[] = [];
  for (const node of turns) (node.parent === undefined ? waiting : below.get(node.parent))?.push(node);
  const backwards: Node[] = [];
  // Backwards: a step comes before all that contributes to it.
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    backwards.push(node);
    node.step = turns.length - backwards.length;
    waiting.push(...(below.get(node) ?? []));
  }
  return backwards.reverse();
}

/** Unknowns by the number of their neighbours; those whose number has changed since stand in it twice, and only the last place counts. */
function createQueue(nodes: readonly Node[], last: number) {
  const byNumber: Node[][] = [];
  const done = new Set<Node>();
  let least = 0;
  const put = (node: Node): void => {
    const { size } = node.neighbours;
    if (node.unknown === last || done.has(node)) return;
    (byNumber[size] ??= []).push(node);
    least = Math.min(least, size);
  };
  for (const node of [...nodes].reverse()) put(node);
  return {
    put,
    next(): Node {
      for (; least < nodes.length; least++) {
        const bucket = byNumber[least] ?? [];
        for (let node = bucket.pop(); node !== undefined; node = bucket.pop()) {
          if (done.has(node) || node.neighbours.size !== least) continue;
          done.add(node);
          return node;
        }
      }
      throw new Error('There is no unknown left to eliminate');
    },
  };
}
