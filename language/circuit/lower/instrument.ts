/** What `instrument` says of the whole: title, how many are built, the hand, how the diagram sees it. */
import type { InstrumentStatement, PropertyNode } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import type { Strings } from '../model.js';
import type { Problems } from '../problems.js';
import { readNotes } from '../notes.js';
import { readValue } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { listed } from '../../words.js';

export interface Instrument {
  readonly title?: string;
  readonly titleRange?: SourceRange;
  /** The comment above the statement. */
  readonly doc?: string;
  readonly batch: number;
  readonly hand: 'right' | 'left';
  /** Absent where nothing is said. */
  readonly seen?: 'front' | 'back';
  readonly strings?: Strings;
}

/** Open strings of plucked instruments lie well between these, metres. */
const SHORTEST = 0.1;
const LONGEST = 3;

const CHOICES: Readonly<Record<string, readonly string[]>> = { hand: ['right', 'left'], seen: ['front', 'back'] };

/** Reads the statement; without one a single right-handed instrument is meant. */
export function readInstrument(statement: InstrumentStatement | undefined, origin: Origin, problems: Problems): Instrument {
  const instrument: { -readonly [K in keyof Instrument]: Instrument[K] } = { batch: 1, hand: 'right' };
  if (statement === undefined) return instrument;
  if (statement.doc !== undefined) instrument.doc = statement.doc;
  if (statement.title !== undefined) {
    instrument.title = statement.title.text;
    instrument.titleRange = rangeOn(origin, statement.title.range);
  }
  for (const property of statement.properties) {
    if (isMissing(property.name)) continue;
    const name = property.name.text;
    const [value, more] = property.values;
    const word = more === undefined ? value?.text : undefined;
    if (name === 'batch') instrument.batch = readBatch(property, origin, problems) ?? instrument.batch;
    else if (name === 'hand' && (word === 'left' || word === 'right')) instrument.hand = word;
    else if (name === 'seen' && (word === 'front' || word === 'back')) instrument.seen = word;
    else if (name !== 'scale' && name !== 'tuning') reportWrongProperty(property, origin, problems);
  }
  const strings = readStrings(statement.properties, origin, problems);
  return strings === undefined ? instrument : { ...instrument, strings };
}

/** The scale and the tuning; a tuning without a scale is reported, since it says nothing then. */
function readStrings(properties: readonly PropertyNode[], origin: Origin, problems: Problems): Strings | undefined {
  let scale: number | undefined;
  let tuning: Strings['tuning'] = [];
  for (const property of properties) {
    if (property.name.text === 'scale') scale = readScale(property, origin, problems);
    if (property.name.text === 'tuning') tuning = readTuning(property, origin, problems);
  }
  if (scale !== undefined) return { scale, tuning };
  const alone = properties.find(({ name }) => name.text === 'tuning');
  if (alone !== undefined && !properties.some(({ name }) => name.text === 'scale'))
    problems.add(
      'property',
      rangeOn(origin, alone.name.range),
      'a tuning needs the scale as well: { scale 648mm, tuning "E2 A2 D3 G3 B3 E4" }',
    );
  return undefined;
}

function readScale(property: PropertyNode, origin: Origin, problems: Problems): number | undefined {
  const [word, more] = property.values;
  const reading = word === undefined || more !== undefined ? undefined : readValue(word, 'metre');
  if (reading?.unit === 'metre' && reading.value >= SHORTEST && reading.value <= LONGEST) return reading.value;
  const message =
    reading?.unit === 'metre'
      ? `a scale of ${word?.text} is no string’s length, which is between 100 mm and 3 m`
      : 'scale takes the length of the open strings: { scale 648mm }';
  problems.add('value', rangeOn(origin, property.range), message);
  return undefined;
}

function readTuning(property: PropertyNode, origin: Origin, problems: Problems): Strings['tuning'] {
  const [word, more] = property.values;
  const { notes, wrong } = readNotes(word?.kind === 'string' && more === undefined ? word.text : '');
  if (word?.kind !== 'string' || (notes.length === 0 && wrong.length === 0)) {
    problems.add(
      'value',
      rangeOn(origin, property.range),
      'tuning takes the notes of the open strings in quotes: { tuning "E2 A2 D3 G3 B3 E4" }',
    );
    return [];
  }
  const { start } = word.range;
  for (const { text, from } of wrong) {
    const character = start.character + 1 + from;
    const range = { start: { ...start, character }, end: { ...start, character: character + text.length } };
    problems.add(
      'value',
      rangeOn(origin, range),
      `\`${text}\` is no note; write a letter, perhaps # or b, and the octave, such as E2, F#2 or Bb1`,
    );
  }
  return wrong.length > 0 ? [] : notes;
}

function readBatch(property: PropertyNode, origin: Origin, problems: Problems): number | undefined {
  const [word] = property.values;
  const reading = word === undefined ? undefined : readValue(word);
  const fits = reading?.unit === 'count' && Number.isInteger(reading.value) && reading.value >= 1 && reading.value <= 1e6;
  if (fits && property.values.length === 1) return reading.value;
  problems.add('value', rangeOn(origin, property.range), 'batch takes the number of identical instruments: { batch 2 }');
  return undefined;
}

function reportWrongProperty(property: PropertyNode, origin: Origin, problems: Problems): void {
  const name = property.name.text;
  const choices = Object.hasOwn(CHOICES, name) ? CHOICES[name] : undefined;
  if (choices !== undefined) {
    problems.add('property', rangeOn(origin, property.range), `${name} is ${listed(choices, 'or')}`);
    return;
  }
  const known = ['batch', 'hand', 'seen', 'scale', 'tuning'];
  problems.addMeant(
    'property',
    rangeOn(origin, property.name.range),
    `an instrument has no property ${name}; it takes ${listed(known)}`,
    name,
    known,
  );
}
