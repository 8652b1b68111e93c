/** Goes through a drawing by the arrow keys: to the nearest thing that way. */

interface Spot {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

const directions: Readonly<Record<string, readonly [number, number]>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowDown: [0, 1],
  ArrowUp: [0, -1],
};

/** The id of the nearest spot from `from` in the key's direction, sideways counting twice; undefined where there is none or the key is no arrow. */
export function nextItem(spots: Iterable<Spot>, from: Spot, key: string): string | undefined {
  const direction = directions[key];
  if (direction === undefined) return undefined;
  let best: { readonly id: string; readonly cost: number } | undefined;
  for (const { id, x, y } of spots) {
    const [dx, dy] = [x - from.x, y - from.y];
    const along = dx * direction[0] + dy * direction[1];
    if (id === from.id || along < 0.5) continue;
    const cost = along + 2 * Math.abs(dx * direction[1] + dy * direction[0]);
    if (best === undefined || cost < best.cost) best = { id, cost };
  }
  return best?.id;
}
