/** Arrangements of the trade: what the positions of a switch usually bring, by name. Common practice. */

export interface Pattern {
  readonly name: string;
  /** One line, lower case, no full stop. */
  readonly says: string;
  /** The arrangement in each position; nothing where pickups and positions do not fit. */
  readonly arrange: (pickups: readonly string[], positions: number) => readonly string[] | undefined;
}

/** The pickups in parallel, as the language writes it. */
export const parallel = (...names: readonly string[]): string => `parallel(${names.join(', ')})`;

/** The patterns that there are, in the order in which they are listed. `split` goes together with one of the others. */
export const patterns: readonly Pattern[] = [
  {
    name: 'neighbours',
    says: 'each pickup, and between two positions both in parallel: two pickups on three positions, three on five',
    arrange: (pickups, positions) =>
      positions === 2 * pickups.length - 1
        ? pickups.flatMap((name, at) => [name, ...pickups.slice(at + 1, at + 2).map((next) => parallel(name, next))])
        : undefined,
  },
  {
    name: 'each',
    says: 'one pickup in each position',
    arrange: (pickups, positions) => (positions === pickups.length ? pickups : undefined),
  },
  {
    name: 'four-ways',
    says: 'two pickups on four positions: one, both in parallel, the other, both in series',
    arrange: ([a, b, ...more], positions) =>
      a !== undefined && b !== undefined && more.length === 0 && positions === 4
        ? [a, parallel(a, b), b, `series(${a}, ${b})`]
        : undefined,
  },
  {
    name: 'coils',
    says: 'one pickup with two coils on three positions: in series, the north coil alone, in parallel',
    arrange: ([a, ...more], positions) =>
      a !== undefined && more.length === 0 && positions === 3
        ? [a, `${a}.north`, parallel(`${a}.north`, `${a}.south`)]
        : undefined,
  },
  {
    name: 'split',
    says: 'a switch with two positions: whole pickups, then the north coil of each',
    arrange: (pickups, positions) =>
      positions === 2 ? [parallel(...pickups), parallel(...pickups.map((name) => `${name}.north`))] : undefined,
  },
];

/** Every order of a few names. */
export function orders(names: readonly string[]): readonly (readonly string[])[] {
  if (names.length <= 1) return [names];
  return names.flatMap((name, at) => orders(names.filter((_, index) => index !== at)).map((rest) => [name, ...rest]));
}

/** Of more pickups than these the positions are not compared. */
const mostPickups = 4;

/** A position that plays something else than in the usual arrangement. */
export interface OddPosition {
  readonly at: number;
  readonly sounds: string;
  readonly usually: string;
}

/** Where what the positions of a selector play departs from the usual arrangement that it is nearest to; undefined where there is none for so many. */
export function nearestArrangement(texts: readonly string[]): readonly OddPosition[] | undefined {
  const sounds = texts.map(plain);
  const pickups = [...new Set(sounds.flatMap(namesIn))].sort();
  if (pickups.length < 2 || pickups.length > mostPickups) return undefined;
  const departures = orders(pickups).flatMap((order) =>
    usualRows(order, sounds.length).flatMap(({ row, isSingle }) => {
      const odd = row.flatMap((usually, at): readonly OddPosition[] => {
        const heard = sounds[at] ?? '';
        return heard === usually ? [] : [{ at, sounds: heard, usually }];
      });
      // Two together where one is usual take a jumper, which is seldom a slip.
      return isSingle && odd.some((position) => position.sounds.includes('(')) ? [] : [odd];
    }),
  );
  return departures.sort((a, b) => a.length - b.length)[0];
}

/** True where one slip explains what departs: nothing or one position, or two that are exchanged. */
export function isOneSlip(departures: readonly OddPosition[]): boolean {
  const [a, b] = departures;
  const isExchanged = departures.length === 2 && a?.sounds === b?.usually && b?.sounds === a?.usually;
  return departures.length <= 1 || isExchanged;
}

/** Patterns in which each position sounds different, members sorted by name as the language writes them; between neighbours also in series. */
function usualRows(
  order: readonly string[],
  positions: number,
): readonly { readonly row: readonly string[]; readonly isSingle: boolean }[] {
  return patterns.flatMap(({ name, arrange }) => {
    const row = name === 'coils' || name === 'split' ? undefined : arrange(order, positions);
    if (row === undefined) return [];
    const sorted = row.map((text) =>
      text.includes('(') ? `${text.split('(')[0] ?? ''}(${[...namesIn(text)].sort().join(', ')})` : text,
    );
    const inSeries = sorted.map((text) => text.replace('parallel(', 'series('));
    const rows = name === 'neighbours' ? [sorted, inSeries] : [sorted];
    return rows.map((usual) => ({ row: usual, isSingle: name === 'each' }));
  });
}

/** Without shares and phase, which do not say which pickups a position plays. */
function plain(text: string): string {
  return text.replace(/ \d+(\.\d+)?%/g, '').replaceAll('reversed ', '');
}

function namesIn(text: string): readonly string[] {
  return text === 'silent'
    ? []
    : text.split(/[(),\s]+/).filter((word) => word !== '' && !['series', 'parallel', 'mixed'].includes(word));
}
