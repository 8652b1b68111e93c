/** The elements of a type: coils, resistors, capacitors, inductors, batteries, tracks, gains, and the points inside where they meet. */
import type { ElementStatement, PropertyNode, Word } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import type { Unit } from '../model.js';
import type { Problems } from '../problems.js';
import { ELEMENT_PROPERTIES, type PropertyWanted } from './element-properties.js';
import { choiceMeant, followed, outOfRange, wrongUnit } from './parameters.js';
import { nameList } from '../phrases.js';
import { quantity, readValue, unitPhrase, whyNoValue } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { lugNamed } from './lug-names.js';
import { readTaper, takesPoints } from './taper-points.js';
import { ownLug, ownPoint, recordParameterUse, require, type TypeContext, type TypeDraft } from './type-draft.js';
import type { ElementDefinition, ElementValue } from './type-model.js';
import { listed } from '../../words.js';

/** The statements with their places: all of a body's at once, for a point inside shows by the elements that meet there. */
export type ElementNode = { readonly statement: ElementStatement; readonly origin: Origin };

/** Reads the elements; one of the same kind and name as one of the base type takes its place. */
export function readElements(draft: TypeDraft, nodes: readonly ElementNode[], context: TypeContext): void {
  findInnerPoints(draft, nodes);
  const own: ElementDefinition[] = [];
  for (const { statement, origin } of nodes) {
    const element = readElement(draft, statement, origin, context);
    if (element === undefined) continue;
    const before = own.find((other) => other.name !== '' && other.name === element.name);
    if (before !== undefined) {
      const message =
        statement.name === undefined
          ? `${draft.name} has several coils, so each needs a name: coil north from … to …`
          : `${draft.name} already has an element ${element.name}`;
      const related = [{ message: 'the element of that name', range: before.nameRange ?? before.range }];
      context.problems.add('duplicate-name', element.nameRange ?? element.range, message, { related });
      continue;
    }
    own.push(element);
  }
  const replaced = (inherited: ElementDefinition): boolean =>
    own.some((element) => element.name === inherited.name && (element.name !== '' || element.kind === inherited.kind));
  draft.elements = [...draft.elements.filter((inherited) => !replaced(inherited)), ...own];
}

/** A name that is no lug is a point inside where two or more elements end on it. */
function findInnerPoints(draft: TypeDraft, nodes: readonly ElementNode[]): void {
  const ends = new Map<string, { count: number; word: Word; origin: Origin }>();
  for (const { statement, origin } of nodes) {
    for (const word of [statement.a, statement.b, statement.wiper]) {
      if (word === undefined || isMissing(word) || draft.lugs.has(word.text) || lugNamed(draft, word.text, {}).kind === 'lug')
        continue;
      const seen = ends.get(word.text);
      ends.set(word.text, { count: (seen?.count ?? 0) + 1, word: seen?.word ?? word, origin: seen?.origin ?? origin });
    }
  }
  for (const [name, { count, word, origin }] of ends) {
    if (count < 2) continue;
    draft.lugs.set(name, { name, optional: false, metal: false, inner: true, range: rangeOn(origin, word.range) });
  }
}

function readElement(
  draft: TypeDraft,
  statement: ElementStatement,
  origin: Origin,
  context: TypeContext,
): ElementDefinition | undefined {
  const a = elementEnd(draft, statement.a, origin, context);
  const b = elementEnd(draft, statement.b, origin, context);
  const wiper = statement.wiper === undefined ? undefined : elementEnd(draft, statement.wiper, origin, context);
  const properties = readProperties(draft, statement, origin, context);
  const range = rangeOn(origin, statement.range);
  if (statement.element === 'track' && statement.wiper === undefined) {
    context.problems.add('type', range, 'a track needs its wiper: track from 1 to 3 wiper 2');
    return undefined;
  }
  if (statement.element !== 'track' && statement.wiper !== undefined) {
    context.problems.add('type', rangeOn(origin, statement.wiper.range), `only a track has a wiper, not a ${statement.element}`);
    return undefined;
  }
  if (a === undefined || b === undefined || (statement.element === 'track' && wiper === undefined)) return undefined;
  const name = statement.name?.text ?? (statement.element === 'coil' ? 'main' : '');
  const nameRange = statement.name === undefined ? undefined : rangeOn(origin, statement.name.range);
  if (statement.element === 'coil') {
    const definition = nameRange ?? range;
    if (nameRange !== undefined) context.names.push({ kind: 'coil', range: nameRange, definition, isDefinition: true, name });
  }
  return {
    kind: statement.element,
    name,
    a,
    b,
    properties,
    range,
    ...(wiper === undefined ? {} : { wiper }),
    ...(nameRange === undefined ? {} : { nameRange }),
  };
}

function elementEnd(draft: TypeDraft, word: Word, origin: Origin, context: TypeContext): string | undefined {
  const end = ownPoint(draft, word, origin, context);
  if (end !== undefined) require(draft, end);
  return end;
}

function readProperties(
  draft: TypeDraft,
  statement: ElementStatement,
  origin: Origin,
  context: TypeContext,
): ReadonlyMap<string, ElementValue> {
  const wanted = ELEMENT_PROPERTIES[statement.element];
  const properties = new Map<string, ElementValue>();
  for (const property of statement.properties) {
    if (isMissing(property.name)) continue;
    const range = rangeOn(origin, property.name.range);
    const name = property.name.text;
    const kind = Object.hasOwn(wanted, name) ? wanted[name] : undefined;
    if (kind === undefined) {
      const message = `a ${statement.element} has no property ${name}; it takes ${listed(Object.keys(wanted))}`;
      context.problems.addMeant('property', range, message, name, Object.keys(wanted));
    } else if (properties.has(name)) {
      context.problems.add('property', range, `${name} is given twice`);
    } else if (kind.band === true) {
      for (const [part, value] of readBand(draft, property, origin, context)) properties.set(part, value);
    } else {
      const value = readElementValue(draft, property, kind, origin, context);
      if (value !== undefined) properties.set(name, value);
    }
  }
  for (const [name, kind] of Object.entries(wanted)) {
    const meantToBe = statement.properties.some(({ name: { text } }) => text === name || text === kind.or);
    if (kind.required !== true || properties.has(name) || meantToBe) continue;
    context.problems.add(
      'type',
      rangeOn(origin, statement.range),
      `a ${statement.element} needs its ${name}: { ${name} ${kind.example} }`,
    );
  }
  return properties;
}

/** `bass 6dB at 100Hz by KNOB`: the decibels under the band's name, the frequency under `bass at`, the knob under `bass by`. */
function readBand(
  draft: TypeDraft,
  property: PropertyNode,
  origin: Origin,
  context: TypeContext,
): readonly (readonly [string, ElementValue])[] {
  const name = property.name.text;
  const [decibels, at, frequency, by, knob, ...more] = property.values;
  const isWhole = by === undefined || (by.text === 'by' && knob?.kind === 'name');
  if (decibels === undefined || at?.text !== 'at' || frequency === undefined || !isWhole || more.length > 0) {
    const example = `${name} 6dB at 100Hz, or with its knob: ${name} 12dB at 100Hz by ${name}`;
    context.problems.add('property', rangeOn(origin, property.range), `${name} takes decibels at a frequency: ${example}`);
    return [];
  }
  const read = (word: Word, unit: Unit): ElementValue | undefined =>
    readElementValue(
      draft,
      { ...property, values: [word] },
      { unit, example: unit === 'hertz' ? '100Hz' : '6dB' },
      origin,
      context,
    );
  const db = read(decibels, 'decibel');
  const hz = read(frequency, 'hertz');
  if (db === undefined || hz === undefined) return [];
  const found: (readonly [string, ElementValue])[] = [
    [name, db],
    [`${name} at`, hz],
  ];
  if (knob !== undefined) found.push([`${name} by`, { kind: 'word', word: knob.text, range: rangeOn(origin, knob.range) }]);
  return found;
}

function readElementValue(
  draft: TypeDraft,
  property: PropertyNode,
  wanted: PropertyWanted,
  origin: Origin,
  context: TypeContext,
): ElementValue | undefined {
  const name = property.name.text;
  const [first] = property.values;
  const range = rangeOn(origin, property.range);
  const complement = allBut(property);
  if (complement !== undefined) {
    const but = readParameterName(draft, complement, wanted, origin, context);
    if (but === undefined)
      context.problems.add('property', range, 'in `share all but NAME`, NAME must be a parameter in percent');
    return but === undefined ? undefined : { kind: 'but', name: but, range };
  }
  if (first === undefined || property.values.length > 1) {
    context.problems.add(
      'property',
      range,
      `${name} takes one ${wanted.words === undefined && wanted.lug !== true ? 'value' : 'word'}: ${wanted.example}`,
    );
    return undefined;
  }
  if (isMissing(first)) return undefined;
  const wordRange = rangeOn(origin, first.range);
  if (wanted.lug === true) {
    const lug = ownLug(draft, first, origin, context);
    if (lug !== undefined) require(draft, lug);
    return lug === undefined ? undefined : { kind: 'word', word: lug, range: wordRange };
  }
  if (wanted.anyName === true) return { kind: 'word', word: first.text, range: wordRange };
  const parameter = readParameterName(draft, first, wanted, origin, context);
  if (parameter !== undefined) return { kind: 'parameter', name: parameter, range: wordRange };
  if (wanted.words !== undefined) return readChoice(draft, first, { name, words: wanted.words }, origin, context);
  return wanted.unit === undefined
    ? undefined
    : readLiteral(draft, first, { name, unit: wanted.unit }, wordRange, context.problems);
}

/** One of several words, or a taper's points. */
function readChoice(
  draft: TypeDraft,
  word: Word,
  { name, words }: { readonly name: string; readonly words: readonly string[] },
  origin: Origin,
  context: TypeContext,
): ElementValue | undefined {
  const range = rangeOn(origin, word.range);
  if (word.kind === 'string' && takesPoints(words)) {
    const points = readTaper(word, origin, context.problems);
    return points === undefined ? undefined : { kind: 'word', word: points, range };
  }
  const meant = choiceMeant(word.text, words);
  if (meant !== undefined) return { kind: 'word', word: meant, range };
  const message = `${name} is ${listed(words, 'or')}, or a parameter of ${draft.name}, not \`${word.text}\``;
  context.problems.addMeant('property', range, message, word.text, words);
  return undefined;
}

/** `NAME` of `share all but NAME`. */
function allBut({ name, values }: PropertyNode): Word | undefined {
  const [all, but, word, ...more] = values;
  return name.text === 'share' && all?.text === 'all' && but?.text === 'but' && more.length === 0 ? word : undefined;
}

function readLiteral(
  draft: TypeDraft,
  word: Word,
  { name, unit }: { readonly name: string; readonly unit: Unit },
  range: SourceRange,
  problems: Problems,
): ElementValue | undefined {
  const reading = readValue(word, unit);
  if (reading === undefined) {
    const names = [...draft.parameters.keys()];
    const message =
      word.kind === 'name'
        ? `${draft.name} does not take ${word.text}; it takes ${nameList(names)}, and ${name} may also be ${unitPhrase(unit)}`
        : `${name} takes ${unitPhrase(unit)}; ${whyNoValue(word, unit)}`;
    problems.addMeant(
      word.kind === 'name' ? 'unknown-name' : 'value',
      range,
      message,
      word.text,
      word.kind === 'name' ? names : [],
    );
    return undefined;
  }
  const value = name === 'coupling' && reading.unit === 'count' ? { ...reading, value: reading.value * 100, unit } : reading;
  if (value.unit !== unit) {
    wrongUnit({ name, unit }, word, reading, range, problems);
    return undefined;
  }
  const fault = outOfRange(name, unit, value.value);
  if (fault !== undefined) {
    problems.add('value', range, fault);
    return undefined;
  }
  return {
    kind: 'quantity',
    quantity: { ...quantity(value.value, unit), tolerance: value.tolerance ?? 0 },
    ownTolerance: value.tolerance !== undefined,
  };
}

/** The parameter of the type that a word names, where it is of the kind that the property takes. */
function readParameterName(
  draft: TypeDraft,
  word: Word,
  wanted: PropertyWanted,
  origin: Origin,
  context: TypeContext,
): string | undefined {
  const parameter = word.kind === 'name' ? draft.parameters.get(word.text) : undefined;
  if (parameter === undefined) return undefined;
  const end = followed(parameter, draft.parameters);
  const fits =
    end.kind === 'free' ||
    (end.kind === 'value' && (end.unit === wanted.unit || (wanted.unit === 'percent' && end.unit === 'count'))) ||
    (end.kind === 'choice' && wanted.words !== undefined && end.choices.every((choice) => wanted.words?.includes(choice)));
  if (!fits) return undefined;
  recordParameterUse(parameter, rangeOn(origin, word.range), context);
  return word.text;
}
