/** What `instrument` says of the whole: title, how many are built, the hand, how the diagram sees it. */
import type { InstrumentStatement, PropertyNode } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import type { Problems } from '../problems.js';
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
}

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
    else reportWrongProperty(property, origin, problems);
  }
  return instrument;
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
  const known = ['batch', 'hand', 'seen'];
  problems.addMeant(
    'property',
    rangeOn(origin, property.name.range),
    `an instrument has no property ${name}; it takes ${listed(known)}`,
    name,
    known,
  );
}
