/** Generated circuits of a given number of parts, as text: instruments with many pickups, correct by construction. A seed gives the same text again. */

/** The sizes that the benchmark reports on. */
export const sizes = [10, 30, 100, 300, 1000] as const;

/** A pickup with its controls has five parts where it is a humbucker with a series-parallel switch, four where it is a single-coil. */
const mostSwitches = 8;
const common = ['master', 'saddle', 'output'];

/** Makes the text of a circuit of so many parts; the same seed gives the same text. */
export type Generate = (parts: number, seed?: number) => string;

/** The last lines: from the master volume to the jack, and what is expected. */
export const ending: readonly string[] = [
  'solder master.1 to master.case',
  'wire master.2 to output.tip white 22awg',
  'wire master.case to output.sleeve black 22awg',
  'wire saddle to master.case black 22awg',
  '',
  'expect master 0 : silent',
  '',
];

/** The text of a circuit with exactly `parts` parts (ten at least): independent volumes into one master, a tone for each pickup. */
export function generateCircuit(parts: number, seed = 1): string {
  const random = createRandom(seed);
  const value = (middle: number, digits: number) => (middle * (0.85 + 0.3 * random())).toFixed(digits);
  const declared: string[] = [];
  const wires: string[] = [];
  const channels: string[] = [];
  let left = parts - common.length;

  while (left >= 4) {
    const n = channels.length + 1;
    const isHumbucker = left >= 5 && (n === 1 || (n <= mostSwitches && n % 2 === 1));
    const direction = n % 2 === 1 ? 'wound forward, magnet north' : 'wound reverse, magnet south';
    channels.push(`volume${n}`);
    if (isHumbucker) {
      declared.push(`part pickup${n} : humbucker-4 ${value(8, 2)}k ${value(4.2, 2)}H ${value(120, 0)}pF`);
      declared.push(`part mode${n} : mini-dpdt { positions "series" "parallel" }`);
      wires.push(`wire pickup${n}.north-start to volume${n}.2`, `wire pickup${n}.south-start to volume${n}.case`);
      wires.push(`wire pickup${n}.shield to volume${n}.case`, `wire pickup${n}.north-finish to mode${n}.A0`);
      wires.push(`wire pickup${n}.south-finish to mode${n}.B0`, `wire mode${n}.A1 to mode${n}.B1 bare 24awg`);
      wires.push(`wire mode${n}.A2 to volume${n}.case black 24awg`, `wire mode${n}.B2 to volume${n}.2 white 24awg`);
      wires.push(`wire mode${n}.frame to volume${n}.case black 24awg`);
    } else {
      declared.push(`part pickup${n} : single-coil ${value(6.5, 2)}k ${value(2.7, 2)}H ${value(110, 0)}pF { ${direction} }`);
      wires.push(`wire pickup${n}.hot to volume${n}.2`, `wire pickup${n}.ground to volume${n}.case`);
    }
    declared.push(`part volume${n} : pot 500k audio`, `part tone${n} : pot 500k audio`);
    declared.push(`part tone${n}-cap : capacitor ${value(22, 0)}nF film from tone${n}.1 to tone${n}.case`);
    wires.push(`wire volume${n}.2 to tone${n}.2 yellow 24awg`, `solder volume${n}.1 to volume${n}.case`);
    wires.push(`wire volume${n}.case to tone${n}.case black 22awg`);
    left -= isHumbucker ? 5 : 4;
  }
  for (let n = 1; left > 0; n++, left--) declared.push(bypass(n, channels.length, value));

  const join = (lug: string, last: string) => [...channels.map((name) => `${name}.${lug}`), last];
  return [
    `/** Generated: ${parts} parts, ${channels.length} pickups. */`,
    `instrument "Alder Lane, bench of ${parts}"`,
    '',
    ...declared,
    'part master : pot 500k audio',
    'part saddle : bridge-ground',
    'part output : jack',
    '',
    ...wires,
    ...runs(join('3', 'master.3'), 'red 22awg'),
    ...runs(join('case', 'master.case'), 'black 22awg'),
    ...ending,
  ].join('\n');
}

/** What keeps the treble of a volume that is turned down, a capacitor at first, then a resistor beside it. */
function bypass(n: number, channels: number, value: (middle: number, digits: number) => string): string {
  const across = `across volume${((n - 1) % channels) + 1}.3 and volume${((n - 1) % channels) + 1}.2`;
  return n <= channels
    ? `part bypass${n} : capacitor ${value(680, 0)}pF ${across}`
    : `part bypass${n} : resistor ${value(150, 0)}k ${across}`;
}

/** A chain, one wire a line, so that an edit of one line is an edit of one joint. */
function runs(lugs: readonly string[], look: string): string[] {
  return lugs.slice(1).map((lug, index) => `wire ${lugs[index]} to ${lug} ${look}`);
}

/** Numbers from 0 to 1 by the mulberry32 recurrence (T. Ettinger, public domain). */
export function createRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
