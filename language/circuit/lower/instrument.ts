/** What `instrument` says of the whole: title, how many are built, the hand, how the diagram sees it. */
import type { InstrumentStatement, PropertyNode } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import { joined } from '../phrases.js';
import type { Problems } from '../problems.js';
import { readValue } from '../quantities.js';
import { isMissing, rangeOn, type Ground } from '../ranges.js';

export interface Instrument {
  readonly title?: string;
  readonly titleRange?: SourceRange;
  readonly batch: number;
  readonly hand: 'right' | 'left';
  /** Absent where nothing is said. */
  readonly seen?: 'front' | 'back';
}

const CHOICES: Readonly<Record<string, readonly string[]>> = { hand: ['right', 'left'], seen: ['front', 'back'] };

/** Reads the statement; without one a single right-handed instrument is meant. */
export function readInstrument(statement: InstrumentStatement | undefined, ground: Ground, problems: Problems): Instrument {
  const instrument: { -readonly [K in keyof Instrument]: Instrument[K] } = { batch: 1, hand: 'right' };
  if (statement === undefined) return instrument;
  if (statement.title !== undefined) {
    instrument.title = statement.title.text;
    instrument.titleRange = rangeOn(ground, statement.title.range);
  }
  for (const property of statement.properties) {
    if (isMissing(property.name)) continue;
    const name = property.name.text;
    const word = property.values.length === 1 ? property.values[0]!.text : undefined;
    if (name === 'batch') instrument.batch = readBatch(property, ground, problems) ?? instrument.batch;
    else if (name === 'hand' && (word === 'left' || word === 'right')) instrument.hand = word;
    else if (name === 'seen' && (word === 'front' || word === 'back')) instrument.seen = word;
    else tellWrong(property, ground, problems);
  }
  return instrument;
}

function readBatch(property: PropertyNode, ground: Ground, problems: Problems): number | undefined {
  const [word] = property.values;
  const reading = word === undefined ? undefined : readValue(word);
  const fits = reading?.unit === 'count' && Number.isInteger(reading.value) && reading.value >= 1 && reading.value <= 1e6;
  if (fits && property.values.length === 1) return reading.value;
  problems.add('value', rangeOn(ground, property.range), 'batch takes the number of identical instruments: { batch 2 }');
  return undefined;
}

function tellWrong(property: PropertyNode, ground: Ground, problems: Problems): void {
  const name = property.name.text;
  const choices = Object.hasOwn(CHOICES, name) ? CHOICES[name] : undefined;
  if (choices !== undefined) {
    problems.add('property', rangeOn(ground, property.range), `${name} is ${joined(choices, 'or')}`);
    return;
  }
  const known = ['batch', 'hand', 'seen'];
  problems.addMeant(
    'property',
    rangeOn(ground, property.name.range),
    `an instrument has no property ${name}; it takes ${joined(known)}`,
    name,
    known,
  );
}
