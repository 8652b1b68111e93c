/** One order for names, the same on every machine and in every locale, with numbers inside names in their own order. */

export function compareText(a: string, b: string): number {
  const left = a.match(pieces) ?? [];
  const right = b.match(pieces) ?? [];
  for (const [i, x] of left.entries()) {
    const y = right[i];
    if (y === undefined) break;
    if (x === y) continue;
    const difference = Number(x) - Number(y);
    if (!Number.isNaN(difference) && difference !== 0) return difference;
    return x < y ? -1 : 1;
  }
  return left.length - right.length;
}

export function byId(a: { readonly id: string }, b: { readonly id: string }): number {
  return compareText(a.id, b.id);
}

const pieces = /\d+|\D+/gu;
