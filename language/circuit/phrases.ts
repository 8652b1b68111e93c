/** Lists of names in a sentence. */

/** `A0 A1 A2 …`: the names of a list, the first thirty of them. */
export function nameList(names: readonly string[]): string {
  return names.length > 30 ? `${names.slice(0, 30).join(' ')} …` : names.join(' ');
}

/** `1 lug`, `2 lugs`. */
export function counted(count: number, name: string): string {
  return `${count} ${name}${count === 1 ? '' : 's'}`;
}
