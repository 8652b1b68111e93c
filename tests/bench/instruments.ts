/** A second family of generated circuits, unlike the first: many levers, push-pulls and switches of an own type, on one long chain. A seed gives the same text again. */
import { createRandom, ending } from './circuits.js';

/** What every one has beside its circuits: a master volume, the string ground, a jack. */
const common = 3;
/** Parts of a circuit of its kind. */
const partsOf = { lever: 9, split: 6 } as const;

/** The fewest parts that one has. */
export const fewestInInstrument = 20;

/** The text of an instrument with exactly `parts` parts: circuits of three single-coils on a lever and of a split humbucker in turn. */
export function generateInstrument(parts: number, seed = 1): string {
  const random = createRandom(seed);
  const value = (middle: number, digits: number) => (middle * (0.85 + 0.3 * random())).toFixed(digits);
  const circuits: Circuit[] = [];
  let left = parts - common;
  for (let n = 1; left >= partsOf.split; n++) {
    const isLever = n % 2 === 1 && left >= partsOf.lever;
    circuits.push(isLever ? leverCircuit(n, value) : splitCircuit(n, value));
    left -= isLever ? partsOf.lever : partsOf.split;
  }
  const loads = Array.from({ length: left }, (_, index) => {
    const of = `volume${(index % circuits.length) + 1}`;
    return `part bypass${index + 1} : capacitor ${value(680, 0)}pF across ${of}.3 and ${of}.2`;
  });
  const lugs = circuits.map((_, index) => `stop${index + 1}.b`);
  return [
    `/** Generated: ${parts} parts, ${circuits.length} circuits. */`,
    `instrument "Alder Lane, second bench of ${parts}"`,
    '',
    'type stop-switch : switch {',
    '  lugs a b frame',
    '  metal frame',
    '  positions "play" "stop"',
    '  at "play" joins a b',
    '}',
    '',
    ...circuits.flatMap(({ declared }) => declared),
    ...loads,
    'part master : pot 500k audio',
    'part saddle : bridge-ground',
    'part output : jack',
    '',
    ...circuits.flatMap(({ wires }) => wires),
    ...[...lugs, 'master.3'].slice(1).map((lug, index) => `wire ${lugs[index]} to ${lug} yellow 22awg`),
    ...circuits.map(
      (_, index) =>
        `wire volume${index + 1}.case to ${index + 1 < circuits.length ? `volume${index + 2}` : 'master'}.case black 22awg`,
    ),
    ...ending,
  ].join('\n');
}

interface Circuit {
  readonly declared: readonly string[];
  readonly wires: readonly string[];
}

type Value = (middle: number, digits: number) => string;

/** Three single-coils on a lever with five positions; pulled up, the volume's knob adds the neck. */
function leverCircuit(n: number, value: Value): Circuit {
  const coil = (name: string, more: string) =>
    `part ${name}${n} : single-coil ${value(6.5, 2)}k ${value(2.7, 2)}H ${value(110, 0)}pF { ${more} }`;
  return {
    declared: [
      coil('bridge', 'wound forward, magnet north'),
      coil('middle', 'wound reverse, magnet south'),
      coil('neck', 'wound forward, magnet north'),
      `part selector${n} : lever-5 { positions "bridge" "bridge and middle" "middle" "middle and neck" "neck" }`,
      `part join${n} : junction`,
      ...controls(n, value, 'pot-push-pull'),
    ],
    wires: [
      `wire bridge${n}.hot to selector${n}.A1`,
      `wire middle${n}.hot to selector${n}.A2`,
      `wire neck${n}.hot to selector${n}.A3`,
      `wire selector${n}.A0 to join${n} yellow 24awg`,
      `wire join${n} to volume${n}.2 yellow 24awg`,
      `wire selector${n}.A3 to volume${n}.A2 white 24awg`,
      `wire volume${n}.A0 to join${n} white 24awg`,
      ...['bridge', 'middle', 'neck'].map((name) => `wire ${name}${n}.ground to volume${n}.case`),
      `wire selector${n}.frame to volume${n}.case black 24awg`,
      ...controlWires(n),
    ],
  };
}

/** A humbucker; pulled up, the volume's knob leaves one coil of it. */
function splitCircuit(n: number, value: Value): Circuit {
  return {
    declared: [
      `part double${n} : humbucker-4 ${value(8, 2)}k ${value(4.2, 2)}H ${value(120, 0)}pF`,
      ...controls(n, value, 'pot-push-pull'),
      `part drain${n} : resistor ${value(2.2, 1)}M across volume${n}.3 and volume${n}.case`,
    ],
    wires: [
      `wire double${n}.north-start to volume${n}.2`,
      `wire double${n}.north-finish to volume${n}.A0`,
      `wire double${n}.south-finish to volume${n}.A0`,
      `wire double${n}.south-start to volume${n}.case`,
      `wire double${n}.shield to volume${n}.case`,
      `wire volume${n}.A2 to volume${n}.case black 24awg`,
      ...controlWires(n),
    ],
  };
}

function controls(n: number, value: Value, volume: string): string[] {
  return [
    `part volume${n} : ${volume} 250k audio`,
    `part tone${n} : pot 250k audio`,
    `part tone${n}-cap : capacitor ${value(22, 0)}nF film from tone${n}.1 to tone${n}.case`,
    `part stop${n} : stop-switch`,
  ];
}

function controlWires(n: number): string[] {
  return [
    `wire volume${n}.2 to tone${n}.2 grey 24awg`,
    `solder volume${n}.1 to volume${n}.case`,
    `wire volume${n}.case to tone${n}.case black 24awg`,
    `wire volume${n}.3 to stop${n}.a white 24awg`,
    `wire stop${n}.frame to volume${n}.case black 24awg`,
  ];
}
