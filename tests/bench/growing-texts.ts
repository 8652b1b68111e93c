/** Texts that grow in one way each, right ones and faulty ones: `npm run bench -- growth` measures how the work grows with them. */
import { generateCircuit } from './circuits.js';

/** A file that grows in one way, with the other files that it uses. */
export interface Growing {
  readonly name: string;
  readonly text: (size: number) => string;
  readonly others?: (size: number) => ReadonlyMap<string, string>;
  /** The most of them that the language allows. */
  readonly most?: number;
}

const lines = (size: number, line: (n: number) => string): string =>
  Array.from({ length: size }, (_, i) => `${line(i + 1)}\n`).join('');

/** A pickup, a volume and a jack, rightly wired, that what grows is added to. */
const small = [
  'instrument "Alder Lane no. 60"',
  'part bridge : single-coil 6.8k 2.8H 115pF',
  'part volume : pot 250k audio',
  'part output : jack',
  'part saddle : bridge-ground',
  'wire bridge.hot to volume.3',
  'wire bridge.ground to volume.case',
  'solder volume.1 to volume.case',
  'wire volume.2 to output.tip white',
  'wire volume.case to output.sleeve black',
  'wire saddle to volume.case black',
  '',
].join('\n');
const added = (line: (n: number) => string) => (size: number) => small + lines(size, line);

/** Letters that follow one another without order, so that no two names are near each other by a pattern; the same for the same number. */
function letters(n: number, length = 8): string {
  let state = Math.imul(n + 1, 0x9e3779b1) >>> 0;
  let name = '';
  for (let i = 0; i < length; i++) {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + i) >>> 0;
    name += String.fromCharCode(97 + ((state >>> 8) % 26));
  }
  return name;
}

/** A resistor of a name of letters, between the same two nets. */
const lettered = (n: number): string => `part ${letters(n)} : resistor 1M from volume.3 to volume.case`;
const mistyped = (n: number): string => letters(n).replace(/^(.)(.)/, '$2$1');

const right: readonly Growing[] = [
  { name: 'usual circuit', text: (size) => generateCircuit(size) },
  {
    name: 'pickups in parallel',
    text: added((n) => `part p${n} : single-coil 6k 2.5H 110pF\nwire p${n}.hot to volume.3\nwire p${n}.ground to volume.case`),
  },
  { name: 'pickups in series', text: inSeries },
  { name: 'resistors between two nets', text: added((n) => `part r${n} : resistor 1M from volume.3 to volume.case`) },
  { name: 'resistors in a ladder', text: ladder },
  {
    name: 'pots across the signal',
    text: added(
      (n) => `part t${n} : pot 1M audio\nwire t${n}.3 to volume.3\nwire t${n}.1 to volume.case\nwire t${n}.case to volume.case`,
    ),
  },
  {
    name: 'switches, each a separate part',
    text: added(
      (n) =>
        `part s${n} : spst\npart r${n} : resistor 1M from s${n}.A1 to volume.case\nwire s${n}.A0 to volume.3\nwire s${n}.frame to volume.case`,
    ),
  },
  {
    name: 'pickups, each with a switch',
    text: added(
      (n) =>
        `part p${n} : single-coil 6k 2.5H 110pF\npart s${n} : spst\nwire p${n}.hot to s${n}.A0\nwire p${n}.ground to volume.case\nwire s${n}.A1 to volume.3\nwire s${n}.frame to volume.case`,
    ),
  },
  {
    name: 'wires to one star',
    text: (size) =>
      `${small}part star : star\nwire star to volume.case\n${lines(size, (n) => `part plate${n} : bridge-ground\nwire plate${n} to star black`)}`,
  },
  {
    name: 'lugs in a chain of one wire',
    text: (size) =>
      `${small}part strip : tag-strip\nwire volume.case${Array.from({ length: size }, (_, i) => ` to strip.${i + 1}`).join('')}\n`,
  },
  {
    name: 'lugs in a chain, a wire a line',
    text: (size) =>
      `${small}part strip : tag-strip\nwire volume.case to strip.1\n${lines(size, (n) => `wire strip.${n} to strip.${n + 1}`)}`,
  },
  {
    name: 'shielded wires',
    text: added(
      (n) =>
        `part p${n} : single-coil 6k 2.5H 110pF\nwire p${n}.hot to volume.3 shielded screen to volume.case\nwire p${n}.ground to volume.case`,
    ),
  },
  {
    name: 'cavities, channels, parts placed',
    text: (size) =>
      `${small}cavity main depth 38mm\n${lines(size, (n) => `cavity c${n} depth 30mm\nchannel main to c${n} 85mm bore 6mm\npart p${n} : single-coil 6k 2.5H 110pF\nplace p${n} in c${n}\nwire p${n}.hot to volume.3\nwire p${n}.ground to volume.case`)}place volume, output in main\n`,
  },
  { name: 'shielded cavities', text: added((n) => `cavity c${n} shield depth 30mm\nwire c${n} to volume.case`) },
  {
    name: 'plates of pots',
    text: (size) =>
      `${small}${lines(size, (n) => `cavity c${n} depth 30mm\npart t${n} : pot 1M audio\nplate p${n} in c${n} metal { t${n} at 10 10 }\nwire t${n}.3 to volume.3\nwire t${n}.1 to t${n}.case\nwire t${n}.case to volume.case`)}`,
  },
  {
    name: 'parts on one plate',
    text: (size) =>
      `${small}cavity main\n${lines(size, (n) => `part t${n} : pot 1M audio\nwire t${n}.3 to volume.3\nwire t${n}.1 to t${n}.case`)}wire guard to volume.case\nplate guard in main metal { volume${Array.from({ length: size }, (_, i) => `, t${i + 1}`).join('')} }\n`,
  },
  {
    name: 'assemblies, wide',
    text: (size) =>
      `type wide : assembly {\n  lugs a b\n${lines(size, (n) => `  part r${n} : resistor 1M from a to b`)}}\n${small}part w : wide from volume.3 to volume.case\n`,
  },
  { name: 'assemblies of assemblies', text: nested },
  {
    name: 'types on one type',
    text: (size) =>
      lines(size, (n) => `type mine${n} : resistor { takes resistance ${n}k }`) +
      added((n) => `part r${n} : mine${n} from volume.3 to volume.case`)(size),
  },
  { name: 'types built on one another, 60 in a row', text: inRows },
  { name: 'expect lines, held', text: added(() => 'expect volume 0 : silent') },
  { name: 'measured lines', text: added((n) => `measured volume ${n % 10} : reads 6.8k`) },
  {
    name: 'allow lines that meet a finding',
    text: (size) => small + lines(size, (n) => `part idle${n} : pot 250k\nallow unwired-part on idle${n} "spare"`),
  },
  {
    name: 'files used',
    most: 199,
    text: (size) =>
      lines(size, (n) => `use "house${n}.lug"`) +
      small +
      lines(size, (n) => `part r${n} : house${n} from volume.3 to volume.case`),
    others: (size) =>
      new Map(
        Array.from({ length: size }, (_, i) => [`house${i + 1}.lug`, `type house${i + 1} : resistor { takes resistance 1M }\n`]),
      ),
  },
  { name: 'comments', text: added((n) => `// seen at the bench, number ${n}`) },
  {
    name: 'doc comments',
    text: added((n) => `/** seen at the bench, number ${n} */\npart r${n} : resistor 1M from volume.3 to volume.case`),
  },
  { name: 'long text in quotes', text: (size) => small.replace('no. 60', 'a bench of many words '.repeat(size)) },
];

const faulty: readonly Growing[] = [
  {
    name: 'misspelt part names',
    text: (size) => small + lines(size, lettered) + lines(size, (n) => `wire ${mistyped(n)}.a to volume.3`),
  },
  {
    name: 'part names near none',
    text: (size) => small + lines(size, lettered) + lines(size, (n) => `wire ${letters(n + 1e6)}.a to volume.3`),
  },
  {
    name: 'part names of one length',
    text: (size) =>
      small +
      lines(size, (n) => `part tone${1e4 + n} : resistor 1M from volume.3 to volume.case`) +
      lines(size, (n) => `wire tome${1e4 + n}.a to volume.3`),
  },
  { name: 'misspelt lug names', text: added((n) => `part t${n} : pot 1M\nwire t${n}.csae to volume.case`) },
  {
    name: 'misspelt lugs of one wide type',
    text: (size) =>
      `type wide : metal {\n${lines(size, (n) => `  lugs ${letters(n)}`)}}\n${small}part w : wide\n${lines(size, (n) => `wire w.${mistyped(n)} to volume.case`)}`,
  },
  {
    name: 'numbered lugs that are not there',
    text: (size) =>
      `type wide : metal {\n${lines(size, (n) => `  lugs A${n}`)}}\n${small}part w : wide\n${lines(size, (n) => `wire w.A${n + size} to volume.case`)}`,
  },
  { name: 'lugs not there', text: added((n) => `wire volume.zzzzz${n} to output.sleeve`) },
  { name: 'misspelt types', text: added((n) => `part r${n} : resistr 1M from volume.3 to volume.case`) },
  {
    name: 'misspelt types of many',
    text: (size) =>
      lines(size, (n) => `type ${letters(n)} : resistor { takes resistance 1M }`) +
      small +
      lines(size, (n) => `part r${n} : ${mistyped(n)} from volume.3 to volume.case`),
  },
  { name: 'unknown types', text: added((n) => `part r${n} : thermionic from volume.3 to volume.case`) },
  {
    name: 'types that are made of themselves',
    text: (size) => lines(size, (n) => `type mine${n} : mine${(n % size) + 1} { lugs x }`) + small,
  },
  {
    name: 'faulty statements in a type of many parts',
    text: (size) =>
      `type mine : assembly {\n  lugs a b\n  part r : resistor 1M from a to c\n}\n${small}${lines(size, (n) => `part m${n} : mine from volume.3 to volume.case`)}`,
  },
  { name: 'misspelt statement words', text: added((n) => `prat r${n} : resistor 1M from volume.3 to volume.case`) },
  { name: 'words that open no statement', text: added((n) => `${letters(n)} ${letters(n + 7)}`) },
  { name: 'misspelt words inside statements', text: added((n) => `part r${n} : resistor 1M form volume.3 to volume.case`) },
  {
    name: 'misspelt properties',
    text: added((n) => `part r${n} : resistor 1M from volume.3 to volume.case { tolerence ${n % 9}% }`),
  },
  {
    name: 'misspelt colours',
    text: added((n) => `part r${n} : resistor 1M\nwire r${n}.a to volume.3 yelow\nwire r${n}.b to volume.case blak`),
  },
  { name: 'wrong values', text: added((n) => `part r${n} : resistor ${n}H from volume.3 to volume.case`) },
  { name: 'names given twice', text: added(() => 'part volume : pot 250k audio') },
  { name: 'types given twice', text: (size) => lines(size, () => 'type mine : resistor { takes resistance 1M }') + small },
  { name: 'syntax errors on every line', text: added(() => 'wire bridge.hot to') },
  { name: 'brackets that close nothing', text: added(() => '}') },
  { name: 'brackets never closed', text: added((n) => `part r${n} : resistor { tolerance 5%`) },
  { name: 'types never closed', text: added((n) => `type t${n} : resistor {`) },
  { name: 'types without braces', text: added((n) => `type t${n} : resistor`) },
  { name: 'comments never closed', text: added((n) => `/* number ${n}`) },
  { name: 'expect lines that fail', text: added(() => 'expect volume 10 : silent') },
  { name: 'expect lines of unknown switches', text: added((n) => `expect ${letters(n)} 1 : silent`) },
  {
    name: 'expect lines of unknown pickups',
    text: (size) => small + lines(size, lettered) + lines(size, (n) => `expect volume 10 : sounds ${mistyped(n)}`),
  },
  {
    name: 'allow lines that meet nothing',
    text: added((n) => `part r${n} : resistor 1M from volume.3 to volume.case\nallow crowded-lug on r${n}.a "spare"`),
  },
  { name: 'allow lines of unknown rules', text: added(() => 'allow crowded-lgu "spare"') },
  { name: 'files that are not there', most: 199, text: (size) => lines(size, (n) => `use "house${n}.lug"`) + small },
  { name: 'second titles', text: added((n) => `instrument "Alder Lane no. ${n}"`) },
  { name: 'second rigs and builds', text: added(() => 'rig { cable 500pF }\nbuild { slack 10% }') },
  { name: 'unknown parts placed', text: (size) => `${small}cavity main\n${lines(size, (n) => `place ${letters(n)} in main`)}` },
  {
    name: 'unknown cavities',
    text: (size) =>
      `${small}${lines(size, (n) => `cavity ${letters(n)}`)}${lines(size, (n) => `channel ${mistyped(n)} to ${letters(n)} 85mm`)}`,
  },
  { name: 'parts without a wire', text: added((n) => `part t${n} : pot 250k`) },
  { name: 'repeated wires', text: added(() => 'wire volume.2 to output.tip white') },
  { name: 'wires to themselves', text: added(() => 'wire volume.2 to volume.2') },
  {
    name: 'pickups without an output',
    text: (size) =>
      small.replace('part output : jack\n', '').replace(/^.*output.*\n/gm, '') +
      lines(size, (n) => `part p${n} : single-coil 6k\nwire p${n}.hot to volume.3`),
  },
];

/** Each kind of growth: circuits that are right, then texts with a mistake on each line. */
export const growing: readonly Growing[] = [...right, ...faulty];

function inSeries(size: number): string {
  const coils = lines(
    size,
    (n) => `part p${n} : single-coil 6k 2.5H 110pF\nwire p${n}.ground to ${n === size ? 'volume.case' : `p${n + 1}.hot`}`,
  );
  return `${small.replace('wire bridge.ground to volume.case', 'wire bridge.ground to p1.hot')}${coils}`;
}

function ladder(size: number): string {
  return `${small}part r1 : resistor 1k from volume.3 to volume.case\n${lines(size, (n) => `part r${n + 1} : resistor 1k\nwire r${n}.a to r${n + 1}.a\npart c${n} : capacitor 10pF from r${n + 1}.b to volume.case`)}`;
}

/** Assemblies ten deep, of so many that there are `size` parts. */
function nested(size: number): string {
  const depth = 10;
  const types = lines(
    depth,
    (n) =>
      `type deep${n} : assembly {\n  lugs a b\n  part r : resistor 10M from a to b\n${n === 1 ? '' : `  part below : deep${n - 1} from a to b\n`}}`,
  );
  return types + small + lines(Math.ceil(size / (2 * depth)), (n) => `part d${n} : deep${depth} from volume.3 to volume.case`);
}

/** Types each on the one before, anew after sixty, so that none is built on too long a row; one part of each row's last. */
function inRows(size: number): string {
  const row = 60;
  const types = lines(size, (n) => `type mine${n} : ${n % row === 1 ? 'resistor' : `mine${n - 1}`} { takes resistance ${n}k }`);
  return types + small + lines(Math.floor(size / row), (n) => `part r${n} : mine${n * row} from volume.3 to volume.case`);
}
