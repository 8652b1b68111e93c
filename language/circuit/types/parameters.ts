/** One parameter and what is given to it: units, choices, and what a value must lie within. */
import type { PropertyNode, Word } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import type { NameUse, Unit } from '../model.js';
import { replaceWith, type Problems } from '../problems.js';
import { quantity, readValue, unitPhrase, UNIT_WORDS, whyNoValue, type Reading } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { readTaper, takesPoints } from './taper-points.js';
import type { Argument, Parameter } from './type-model.js';
import { listed } from '../../words.js';

/** Where arguments are read: the statement's place, where problems and names go, and the parameters of the type round it. */
export interface BindContext {
  readonly origin: Origin;
  readonly problems: Problems;
  readonly names: NameUse[];
  readonly outer?: ReadonlyMap<string, Parameter>;
}

type Parameters = ReadonlyMap<string, Parameter>;

/** The parameter that at last holds the value which `parameter` follows. */
export function followed(parameter: Parameter, parameters: Parameters): Parameter {
  let current = parameter;
  // A parameter can only follow one declared before it, so the way ends.
  while (current.kind === 'follows') {
    const next = parameters.get(current.of);
    if (next === undefined || next === current) return current;
    current = next;
  }
  return current;
}

/** The unit in which a parameter is given, `undefined` for words. */
export function unitOf(parameter: Parameter, parameters: Parameters): Unit | undefined {
  const end = followed(parameter, parameters);
  return end.kind === 'value' ? end.unit : undefined;
}

export function choicesOf(parameter: Parameter, parameters: Parameters): readonly string[] | undefined {
  const end = followed(parameter, parameters);
  return end.kind === 'choice' ? end.choices : undefined;
}

/** What people write for a choice's own word: names of tapers that are common in the trade. */
const WRITTEN_FOR: Readonly<Record<string, string>> = { log: 'audio', lin: 'linear', 'anti-log': 'reverse-audio' };

/** The choice that a word means, by itself or by a usual name of it. */
export function choiceMeant(word: string, choices: readonly string[]): string | undefined {
  if (choices.includes(word)) return word;
  const meant = Object.hasOwn(WRITTEN_FOR, word) ? WRITTEN_FOR[word] : undefined;
  return meant !== undefined && choices.includes(meant) ? meant : undefined;
}

/** A reading as an argument. */
export function readingArgument(reading: Reading, range: SourceRange): Argument {
  const tolerance = reading.tolerance;
  return {
    kind: 'quantity',
    quantity: { ...quantity(reading.value, reading.unit, range), tolerance: tolerance ?? 0 },
    ownTolerance: tolerance !== undefined,
  };
}

/** A `?` for a parameter: its default value, not known. */
export function unknownArgument(parameter: Parameter, parameters: Parameters, range: SourceRange): Argument | undefined {
  const end = followed(parameter, parameters);
  if (end.kind !== 'value') return undefined;
  return { kind: 'quantity', quantity: { ...end.value, known: false, range }, ownTolerance: false };
}

/** The argument that follows a parameter's name in braces; after a problem, which is reported, the default applies. */
export function readArgument(
  parameter: Parameter,
  parameters: Parameters,
  property: PropertyNode,
  context: BindContext,
): Argument | undefined {
  const range = rangeOn(context.origin, property.range);
  const end = followed(parameter, parameters);
  if (end.kind === 'free') return freeArgument(property.values, range, context);
  const word = property.values[0];
  if (word === undefined || property.values.length > 1) {
    const wanted = end.kind === 'value' ? unitPhrase(end.unit) : end.kind === 'choice' ? listed(end.choices, 'or') : 'a value';
    const parted = property.values.length > 1 ? '; put a comma between properties' : '';
    context.problems.add(
      'property',
      range,
      `${parameter.name} takes one ${end.kind === 'choice' ? 'word' : 'value'}: ${wanted}${parted}`,
    );
    return undefined;
  }
  if (isMissing(word)) return undefined;
  const outer = outerArgument(word, end, parameters, context);
  if (outer !== undefined) return outer;
  return end.kind === 'choice'
    ? choiceArgument(parameter.name, end.choices, word, context)
    : valueArgument(parameter, parameters, word, context);
}

/** A word as the value of a parameter that takes a value. */
export function valueArgument(
  parameter: Parameter,
  parameters: Parameters,
  word: Word,
  context: BindContext,
): Argument | undefined {
  const range = rangeOn(context.origin, word.range);
  if (word.kind === 'unknown') return unknownArgument(parameter, parameters, range);
  const unit = unitOf(parameter, parameters);
  if (unit === undefined) return undefined;
  const reading = readValue(word, unit);
  if (reading === undefined) {
    context.problems.add('value', range, `${parameter.name} takes ${unitPhrase(unit)}; ${whyNoValue(word, unit)}`);
    return undefined;
  }
  if (reading.unit !== unit) {
    wrongUnit({ name: parameter.name, unit }, word, reading, range, context.problems);
    return undefined;
  }
  const fault = outOfRange(parameter.name, unit, reading.value);
  if (fault !== undefined) {
    context.problems.add('value', range, fault);
    return undefined;
  }
  return readingArgument(reading, range);
}

/** Tells that a value has another unit than is wanted, or none. */
export function wrongUnit(
  { name, unit }: { readonly name: string; readonly unit: Unit },
  word: Word,
  reading: Reading,
  range: SourceRange,
  problems: Problems,
): void {
  if (reading.unit === 'count') {
    const ending = UNIT_ENDINGS[unit];
    problems.add('value', range, `${word.text} has no unit; ${name} takes ${unitPhrase(unit)}`, {
      fixes: ending === undefined ? [] : [replaceWith(range, word.text + ending)],
    });
  } else {
    problems.add('value', range, `${word.text} is ${UNIT_WORDS[reading.unit].name}; ${name} takes ${unitPhrase(unit)}`);
  }
}

/** What a value must lie within by what it is, whatever the type; a sentence where it doesn't. */
export function outOfRange(name: string, unit: Unit, value: number): string | undefined {
  if (name === 'rest' && unit === 'count' && !(value >= 0 && value <= 10))
    return `rest must be a rotation from 0 to 10, not ${value}`;
  if (name === 'mid' && unit === 'percent' && !(value > 0 && value < 50)) {
    return `mid must be above 0% and below 50%, not ${value}%: it is the share of an audio track at half rotation`;
  }
  if ((name === 'tap' || name === 'share') && unit === 'percent' && !(value > 0 && value < 100)) {
    return `${name} must be above 0% and below 100%, not ${value}%: it is a part of the whole`;
  }
  if (name === 'tolerance' && unit === 'percent' && !(value >= 0 && value <= 100))
    return `tolerance must be between 0% and 100%, not ${value}%`;
  return belowZero(name, unit, value);
}

function belowZero(name: string, unit: Unit, value: number): string | undefined {
  if (POSITIVE[name] === unit && value === 0) return `${name} must be greater than zero`;
  return value < 0 && unit !== 'decibel' ? `${name} can’t be negative` : undefined;
}

/** What there is nothing of at zero, by name and unit. */
const POSITIVE: Readonly<Record<string, Unit | undefined>> = {
  hole: 'metre',
  'from-bridge': 'metre',
  aperture: 'metre',
  capacity: 'ampere-hour',
};

/** The unit's plainest ending, for a number that was written without one. */
const UNIT_ENDINGS: Readonly<Partial<Record<Unit, string>>> = {
  ohm: 'R',
  henry: 'H',
  metre: 'mm',
  awg: 'awg',
  volt: 'V',
  hertz: 'Hz',
  siemens: 'mS',
  decibel: 'dB',
  percent: '%',
};

function freeArgument(values: readonly Word[], range: SourceRange, context: BindContext): Argument {
  const word = values[0];
  if (values.length === 1 && word !== undefined) {
    if (word.kind === 'name' && context.outer?.has(word.text) === true) {
      return { kind: 'outer', name: word.text, range: rangeOn(context.origin, word.range) };
    }
    const reading = word.kind === 'value' ? readValue(word) : undefined;
    if (reading !== undefined) return readingArgument(reading, rangeOn(context.origin, word.range));
  }
  return { kind: 'words', words: values.map((value) => value.text), range };
}

/** A parameter of the type round this statement, where it is of the kind that is wanted. */
function outerArgument(word: Word, wanted: Parameter, parameters: Parameters, context: BindContext): Argument | undefined {
  const outer = word.kind === 'name' ? context.outer?.get(word.text) : undefined;
  if (outer === undefined || context.outer === undefined) return undefined;
  const end = followed(outer, context.outer);
  const fits =
    end.kind === 'free' ||
    (end.kind === 'value' && end.unit === unitOf(wanted, parameters)) ||
    (end.kind === 'choice' && wanted.kind === 'choice' && end.choices.every((choice) => wanted.choices.includes(choice)));
  return fits ? { kind: 'outer', name: word.text, range: rangeOn(context.origin, word.range) } : undefined;
}

function choiceArgument(name: string, choices: readonly string[], word: Word, context: BindContext): Argument | undefined {
  const range = rangeOn(context.origin, word.range);
  if (word.kind === 'string' && takesPoints(choices)) {
    const points = readTaper(word, context.origin, context.problems);
    return points === undefined ? undefined : { kind: 'words', words: [points], range };
  }
  const meant = choiceMeant(word.text, choices);
  if (meant !== undefined) return { kind: 'words', words: [meant], range };
  context.problems.addMeant('property', range, `${name} is ${listed(choices, 'or')}, not \`${word.text}\``, word.text, choices);
  return undefined;
}
