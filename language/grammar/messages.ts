/** What is said about a statement that cannot be read: its own form, what was met, and what belongs there. */
import { bodyWords, isBodyWord, isStatementWord, statementWords, type HeadWord } from './words.js';

/** The form of each statement in one sentence. */
const forms: Readonly<Record<HeadWord, string>> = {
  instrument: 'an instrument has a title in quotes: instrument "TITLE"',
  use: 'another file is named in quotes: use "PATH.lug"',
  part: 'a part has a name and a type: part NAME : TYPE',
  wire: 'a wire needs two ends: wire PART.LUG to PART.LUG',
  solder: 'a direct joint needs two lugs: solder PART.LUG to PART.LUG',
  cavity: 'a cavity has a name: cavity NAME shield depth 38mm',
  channel: 'a channel joins two cavities: channel CAVITY to CAVITY 85mm',
  plate: 'a plate stands in a cavity and carries parts: plate NAME in CAVITY { PART at X Y, … }',
  place: 'a part is placed in a cavity: place PART in CAVITY at X Y',
  rig: 'the rig is lead and amplifier: rig { cable 500pF, input 1M }',
  build: 'the workshop’s habits stand in braces: build { slack 20mm, strip 6mm }',
  record: 'a record says which of the batch it is: record 2 { by "…", changed "…" }',
  actual: 'what a part measures in hand: actual PART 6.31k',
  expect: 'an expectation is a setting and a claim: expect SWITCH POSITION : sounds PICKUP',
  measured: 'a reading is a setting and what was read: measured SWITCH POSITION : reads 6.2k',
  allow: 'what is set aside is named with the reason: allow RULE on NAME "why"',
  type: 'a type has a name and a base: type NAME : BASE { … }',
  lugs: 'a type names its lugs: lugs A0 A1 A2',
  optional: 'lugs that a type may have are named: optional cover base',
  metal: 'metal lugs are named: metal frame',
  rows: 'rows of lugs lie as seen from the solder side: rows A1 A0 / B1 B0',
  takes: 'a type takes parameters: takes resistance 8.1k, wound forward|reverse',
  positions: 'a switch names its positions: positions "play" "mute"',
  at: 'a position joins lugs: at POSITION joins LUG LUG',
  rest: 'a switch rests at a position: rest POSITION',
  coil: 'a coil lies between two lugs: coil NAME from LUG to LUG { … }',
  resistor: 'a resistor lies between two lugs: resistor NAME from LUG to LUG { … }',
  capacitor: 'a capacitor lies between two lugs: capacitor NAME from LUG to LUG { … }',
  inductor: 'an inductor lies between two lugs: inductor NAME from LUG to LUG { … }',
  battery: 'a battery lies between two lugs: battery NAME from LUG to LUG { … }',
  track: 'a track has two ends and a wiper: track from LUG to LUG wiper LUG { … }',
  gain: 'a stage has an input and an output: gain from LUG to LUG { … }',
  also: 'a second name stands for the first: also NAME for LUG',
};

/** What may still stand at the end of a statement, for whatever has no place there. */
const tails: Partial<Readonly<Record<HeadWord, string>>> = {
  part: 'behind its type a part has values, then from LUG to LUG or across LUG and LUG, and braces',
  wire: 'behind its ends a wire has a colour, a gauge, a length, bare, twisted, shielded, screen to LUG',
  solder: 'a direct joint is lugs alone: solder PART.LUG to PART.LUG',
  cavity: 'behind its name a cavity has shield, depth 38mm',
  channel: 'behind its cavities a channel has its length, bore 6mm',
  plate: 'behind its cavity a plate has metal, shield, thick 2mm and braces: { PART at X Y, … }',
  expect: 'claims stand with commas between: sounds …, silent, hum cancelled, hum present, reads …, peak …, cutoff …, level …',
  measured:
    'claims stand with commas between: sounds …, silent, hums, hum cancelled, hum present, reads …, peak …, cutoff …, level …',
};

/** Words that open a further clause of a statement: one of them misspelt is read as a free word, and noticed only behind it. */
export const clauseWords: Partial<Readonly<Record<HeadWord, readonly string[]>>> = {
  part: ['from', 'across'],
  wire: ['to', 'screen'],
  cavity: ['shield', 'depth'],
  channel: ['bore'],
  plate: ['metal', 'shield', 'thick', 'in'],
  at: ['joins'],
  allow: ['on'],
  track: ['wiper'],
};

/** Where the reader was, of what it met, and what it would have taken. */
export interface Stop {
  readonly head: HeadWord;
  /** As written; absent at the statement's end. */
  readonly found?: string;
  /** The word of the language that it is near to. */
  readonly meant?: string;
  /** Token names that would have fitted; none where the statement was already whole. */
  readonly expected: readonly string[];
  /** Names of the grammar's rules that were being read, outermost first. */
  readonly rules: readonly string[];
}

/** The sentence for a statement that stops making sense. */
export function stopMessage(stop: Stop): string {
  const { head, found, expected, rules } = stop;
  if (rules.includes('Block') && !expected.includes('{')) {
    const colon = found === ':' ? '; no `:` stands between the two' : '';
    return `braces hold names, each with its value: { wound reverse, magnet south }; ${met(found)} has no place there${colon}`;
  }
  if (expected.length === 0) return `${met(found)} has no place here; ${tails[head] ?? forms[head]}`;
  const belongs = listed(expected, rules);
  const meant = stop.meant === undefined ? '' : `; did you mean \`${stop.meant}\`?`;
  const where = found === undefined ? `the line ends where ${belongs} belongs` : `found ${met(found)} where ${belongs} belongs`;
  return `${forms[head]}; ${where}${meant}`;
}

/** The sentence for a line that begins with a word that opens no statement. */
export function headMessage(
  found: string,
  form: 'misspelt' | 'missing' | 'unknown',
  word: HeadWord | undefined,
  context: 'file' | 'type',
): string {
  if (form === 'misspelt') return `\`${found}\` opens no statement; did you mean \`${word}\`?`;
  if (form === 'missing') return `a statement begins with its word; did you mean \`${word} ${found} …\`?`;
  const words: readonly string[] = context === 'file' ? statementWords : bodyWords;
  const place = context === 'file' ? 'a line' : 'a line of a type';
  return `\`${found}\` opens no statement; ${place} begins with ${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}

/** The sentence for a statement in the wrong place, `undefined` where it stands right. */
export function placeMessage(head: HeadWord, context: 'file' | 'type'): string | undefined {
  if (context === 'file' && !isStatementWord(head)) return `\`${head}\` belongs in the body of a type: type NAME : BASE { … }`;
  if (context === 'type' && !isBodyWord(head))
    return `\`${head}\` stands outside of types; close the type's body with \`}\` before it`;
  return undefined;
}

/** What belongs in a place, in the bench's words. */
function listed(expected: readonly string[], rules: readonly string[]): string {
  const place = rules[rules.length - 1];
  if (rules.includes('Arrangement') && expected.includes('series')) return 'a pickup, series(…), parallel(…) or mixed(…)';
  if (expected.includes('NAME') && expected.includes('VALUE') && !expected.includes('TEXT')) return 'a lug';
  if (place === 'Position') return 'a position, by number or name,';
  if (place === 'Measure') return 'a value';
  const names = [...new Set(expected.map((name) => called.get(name) ?? `\`${name}\``))];
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names[names.length - 1]}`;
}

/** What the kinds of words are called. */
const called = new Map([
  ['NAME', 'a name'],
  ['FREE', 'a word'],
  ['PLAIN', 'a value'],
  ['VALUE', 'a value'],
  ['BLANK', 'a value'],
  ['TEXT', 'a text in quotes'],
]);

function met(found: string | undefined): string {
  return found === undefined ? 'nothing' : `\`${found}\``;
}
