/** What a part statement says behind its type, given to the type's parameters. */
import { firstOf } from '../../collections.js';
import type { PropertyNode, Word } from '../../grammar/index.js';
import type { Unit } from '../model.js';
import { baseProperties, readLead, readPositions, readRest, readView } from './bind-common.js';
import { readValue, unitPhrase, UNIT_WORDS, whyNoValue, type Reading } from '../quantities.js';
import {
  choiceMeant,
  choicesOf,
  followed,
  outOfRange,
  readArgument,
  readingArgument,
  unitOf,
  unknownArgument,
  type BindContext,
} from './parameters.js';
import { isMissing, rangeOn } from '../ranges.js';
import type { Argument, Arguments, CompiledType, LeadArgument, Parameter, View } from './type-model.js';
import { listed } from '../../words.js';

/** Reads the bare values and the braces of a part of this type; of an unknown type only its leads are read. */
export function bindArguments(
  type: CompiledType | undefined,
  values: readonly Word[],
  properties: readonly PropertyNode[],
  context: BindContext,
): Arguments {
  const given = new Map<string, Argument>();
  if (type !== undefined) bindBare(type, values, given, context);
  const leads: LeadArgument[] = [];
  let labels: Arguments['labels'] = [];
  let rest: Pick<Arguments, 'rest'> = {};
  const view = type === undefined ? {} : viewOf(type, properties, context);
  for (const property of properties) {
    const name = property.name.text;
    if (isMissing(property.name)) continue;
    if (name === 'lead' && type?.parameters.has(name) !== true && property.values[0]?.text !== 'spacing') {
      const lead = readLead(type, property, view, context);
      if (lead !== undefined) leads.push(lead);
    } else if (type !== undefined && !isView(type, name)) {
      if (name === 'positions') labels = readPositions(type, property, labels, context);
      else if (name === 'rest' && type.rest !== undefined) rest = readRest(type, property, context);
      else bindProperty(type, leadSpacing(property), given, context);
    }
  }
  return { values: given, labels, leads, view, ...rest };
}

/** How the diagram sees the part: read before the rest, for a lead may name its lug by its side. */
function viewOf(type: CompiledType, properties: readonly PropertyNode[], context: BindContext): View {
  let view: View = {};
  for (const property of properties) {
    if (isView(type, property.name.text)) view = readView(type, property, view, context);
  }
  return view;
}

function isView(type: CompiledType, name: string): boolean {
  return (name === 'seen' || name === 'lugs') && !type.parameters.has(name);
}

/** `lead spacing 10mm` says the same as `spacing 10mm`. */
function leadSpacing(property: PropertyNode): PropertyNode {
  const [first, ...rest] = property.values;
  return property.name.text === 'lead' && first !== undefined ? { ...property, name: first, values: rest } : property;
}

function bindProperty(type: CompiledType, property: PropertyNode, given: Map<string, Argument>, context: BindContext): void {
  const range = rangeOn(context.origin, property.name.range);
  const name = property.name.text;
  const parameter = type.parameters.get(name);
  if (parameter === undefined) {
    const known = baseProperties(type);
    context.problems.addMeant('property', range, `${type.name} has no property ${name}; it takes ${listed(known)}`, name, known);
    return;
  }
  context.names.push({
    kind: 'property',
    range,
    isDefinition: false,
    name,
    ...(parameter.range === undefined ? {} : { definition: parameter.range }),
  });
  if (given.has(name)) {
    context.problems.add('property', range, `${name} is given twice`);
    return;
  }
  const argument = readArgument(parameter, type.parameters, property, context);
  if (argument !== undefined) given.set(name, argument);
}

function bindBare(type: CompiledType, values: readonly Word[], given: Map<string, Argument>, context: BindContext): void {
  const unknown: Word[] = [];
  for (const word of values) {
    if (isMissing(word)) continue;
    if (word.kind === 'unknown') unknown.push(word);
    else bindWord(type, word, given, context);
  }
  // A `?` has no unit, so it stands for the first value that the others left open.
  for (const word of unknown) {
    const open = [...type.parameters.values()].find(
      (parameter) => !given.has(parameter.name) && parameter.kind === 'value' && parameter.range !== undefined,
    );
    const range = rangeOn(context.origin, word.range);
    const argument = open === undefined ? undefined : unknownArgument(open, type.parameters, range);
    if (open === undefined || argument === undefined)
      context.problems.add('value', range, `? is one value too many: ${type.name} already has all its values`);
    else given.set(open.name, argument);
  }
}

function bindWord(type: CompiledType, word: Word, given: Map<string, Argument>, context: BindContext): void {
  const range = rangeOn(context.origin, word.range);
  if (word.kind === 'name') {
    const choice = openChoice(type, word.text, given);
    if (choice === 'taken') {
      context.problems.add('property', range, `${word.text} repeats something already given`);
      return;
    }
    if (choice !== undefined) {
      const meant = choiceMeant(word.text, choicesOf(choice, type.parameters) ?? []) ?? word.text;
      given.set(choice.name, { kind: 'words', words: [meant], range });
      return;
    }
    const outer = outerParameter(type, word.text, given, context);
    if (outer !== undefined) {
      given.set(outer.name, { kind: 'outer', name: word.text, range });
      return;
    }
  }
  const reading = readValue(word, expectedUnit(type));
  if (reading !== undefined) giveReading(type, word, reading, given, context);
  else noSuchWord(type, word, context);
}

/** What a printed code is read as: on a part with a capacitance and no resistance `223` is 22 nF. */
function expectedUnit(type: CompiledType): Unit | undefined {
  const units = [...type.parameters.values()].map((parameter) => unitOf(parameter, type.parameters));
  return units.includes('farad') && !units.includes('ohm') ? 'farad' : undefined;
}

/** The first parameter not yet given that lists the word as a choice; `taken` where those that do are given. */
function openChoice(type: CompiledType, word: string, given: ReadonlyMap<string, Argument>): Parameter | 'taken' | undefined {
  // Parameters that are omitted unless given, such as a role, are written in braces only.
  const open = [...type.parameters.values()].filter((parameter) => parameter.silent !== true);
  const listingBy = (lists: (choices: readonly string[]) => boolean): readonly Parameter[] =>
    open.filter((parameter) => lists(choicesOf(parameter, type.parameters) ?? []));
  const own = listingBy((choices) => choices.includes(word));
  const listing = own.length > 0 ? own : listingBy((choices) => choiceMeant(word, choices) !== undefined);
  if (listing.length === 0) return undefined;
  return listing.find((parameter) => !given.has(parameter.name)) ?? 'taken';
}

/** The parameter of this type that a parameter of the type round it is handed on to. */
function outerParameter(
  type: CompiledType,
  word: string,
  given: ReadonlyMap<string, Argument>,
  context: BindContext,
): Parameter | undefined {
  const outer = context.outer?.get(word);
  if (outer === undefined || context.outer === undefined) return undefined;
  const end = followed(outer, context.outer);
  return [...type.parameters.values()].find((parameter) => {
    if (given.has(parameter.name)) return false;
    const mine = followed(parameter, type.parameters);
    if (end.kind === 'value') return mine.kind === 'value' && mine.unit === end.unit;
    return end.kind === 'choice' && mine.kind === 'choice' && end.choices.every((choice) => mine.choices.includes(choice));
  });
}

/** A bare value goes to the first parameter of its unit, a second one to a parameter that follows the first. */
function giveReading(type: CompiledType, word: Word, reading: Reading, given: Map<string, Argument>, context: BindContext): void {
  const range = rangeOn(context.origin, word.range);
  const ofUnit = [...type.parameters.values()].filter((parameter) => unitOf(parameter, type.parameters) === reading.unit);
  const first = ofUnit[0];
  if (first === undefined) {
    const is = reading.unit === 'count' ? 'has no unit' : `is ${UNIT_WORDS[reading.unit].name}`;
    context.problems.add('value', range, `${word.text} ${is}; ${type.name} takes ${mainValues(type)}`);
    return;
  }
  const target = ofUnit.find((parameter) => !given.has(parameter.name) && (parameter === first || parameter.kind === 'follows'));
  if (target === undefined) {
    const others = ofUnit
      .filter((parameter) => !given.has(parameter.name))
      .map((parameter) => `{ ${parameter.name} ${word.text} }`);
    context.problems.add(
      'value',
      range,
      `${type.name} already has its ${first.name}; ${word.text} is one too many` +
        (others.length === 0 ? '' : `, or is it ${listed(others, 'or')}?`),
    );
    return;
  }
  const fault = outOfRange(target.name, reading.unit, reading.value);
  if (fault !== undefined) {
    context.problems.add('value', range, fault);
    return;
  }
  given.set(target.name, readingArgument(reading, range));
  if (reading.taper !== undefined) {
    const taper = openChoice(type, reading.taper, given);
    if (taper === undefined)
      context.problems.add('value', range, `${word.text} is the printed code of a pot; ${type.name} has no taper`);
    else if (taper === 'taken') context.problems.add('property', range, `${word.text} gives a second taper`);
    else given.set(taper.name, { kind: 'words', words: [reading.taper], range });
  }
  if (reading.voltage !== undefined) giveVoltage(type, reading.voltage, given, range);
}

/** The values that one would write behind the type: `a resistance and a capacitance`. */
function mainValues(type: CompiledType): string {
  const units = [...type.parameters.values()].flatMap((parameter) =>
    parameter.kind === 'value' && parameter.silent !== true ? [parameter.unit] : [],
  );
  const main = [...new Set(units)].filter((unit) => unit !== 'percent' && unit !== 'count' && unit !== 'metre');
  if (main.length === 1) return unitPhrase(firstOf(main));
  return listed(main.map((unit) => UNIT_WORDS[unit].name)) || 'no value';
}

/** `0.022/100V`: what the part may stand. A type without a voltage has no use for it, and no harm. */
function giveVoltage(type: CompiledType, volt: number, given: Map<string, Argument>, range: ReturnType<typeof rangeOn>): void {
  const parameter = [...type.parameters.values()].find((candidate) => unitOf(candidate, type.parameters) === 'volt');
  if (parameter !== undefined && !given.has(parameter.name)) {
    given.set(parameter.name, readingArgument({ value: volt, unit: 'volt' }, range));
  }
}

function noSuchWord(type: CompiledType, word: Word, context: BindContext): void {
  const range = rangeOn(context.origin, word.range);
  if (word.kind === 'value') {
    context.problems.add('value', range, whyNoValue(word));
    return;
  }
  const parameter = type.parameters.get(word.text);
  if (parameter !== undefined) {
    context.problems.add(
      'property',
      range,
      `${word.text} stands in braces: { ${word.text}${parameter.kind === 'free' ? '' : ' …'} }`,
    );
    return;
  }
  const words = [...type.parameters.values()].flatMap((candidate) => choicesOf(candidate, type.parameters) ?? []);
  const takes = words.length === 0 ? '' : `; it takes ${listed([...new Set(words)])}`;
  context.problems.addMeant('property', range, `${type.name} does not take the word \`${word.text}\`${takes}`, word.text, words);
}
