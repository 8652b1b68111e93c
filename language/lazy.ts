/** A value made at its first use and kept. */
export function lazy<T>(make: () => T): () => T {
  let kept: { readonly value: T } | undefined;
  return () => (kept ??= { value: make() }).value;
}
