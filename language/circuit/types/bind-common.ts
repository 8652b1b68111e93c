/** The properties that any part may bear: its own leads, names of its positions, its rest, how a diagram sees it. */
import type { PropertyNode } from '../../grammar/index.js';
import { hasSides, lugNamed, lugNames, createLugSpelling } from './lug-names.js';
import type { BindContext } from './parameters.js';
import { isMissing, rangeOn } from '../ranges.js';
import { nameList } from '../phrases.js';
import type { Arguments, CompiledType, LeadArgument, View } from './type-model.js';
import { readLooks } from './wire-looks.js';

/** The names that may stand in the braces of a part of this type. */
export function baseProperties(type: CompiledType): readonly string[] {
  const names = [...type.parameters.keys()];
  if (type.positions.length > 0) names.push('positions');
  if (type.rest !== undefined && !names.includes('rest')) names.push('rest');
  if (hasSides(type)) names.push('seen', 'lugs');
  return [...names, 'lead'];
}

/** `lead hot white 300mm`. Of a part of unknown type any lug is believed. */
export function readLead(
  type: CompiledType | undefined,
  property: PropertyNode,
  view: View,
  context: BindContext,
): LeadArgument | undefined {
  const range = rangeOn(context.origin, property.range);
  const [word, ...looks] = property.values;
  if (word === undefined) {
    context.problems.add('property', range, 'a lead needs the lug it comes from: { lead hot white 300mm }');
    return undefined;
  }
  if (isMissing(word)) return undefined;
  const lugRange = rangeOn(context.origin, word.range);
  const named = type === undefined ? undefined : lugNamed(type, word.text, view);
  if (type !== undefined && named?.kind !== 'lug') {
    const names = lugNames(type);
    const message = `${type.name} has no lug ${word.text} for a lead; it has ${nameList(names)}`;
    context.problems.addMeant('unknown-name', lugRange, message, word.text, createLugSpelling(type));
    return undefined;
  }
  const { colour, gauge, length, shielded, make } = readLooks(looks, context.origin, context.problems, 'lead');
  return {
    lug: named?.kind === 'lug' ? named.name : word.text,
    lugRange,
    shielded: shielded || make?.includes('braided') === true,
    range,
    ...(colour === undefined ? {} : { colour }),
    ...(gauge === undefined ? {} : { gauge }),
    ...(length === undefined ? {} : { length }),
    ...(make === undefined ? {} : { make }),
  };
}

/** `positions "bridge" "both" "neck"`: whether they are as many as the switch has is seen where the part is made. */
export function readPositions(
  type: CompiledType,
  property: PropertyNode,
  before: Arguments['labels'],
  context: BindContext,
): Arguments['labels'] {
  const range = rangeOn(context.origin, property.range);
  if (type.positions.length === 0) {
    context.problems.add('property', range, `${type.name} has no positions, so there is nothing to name`);
    return before;
  }
  if (before.length > 0) {
    context.problems.add('property', range, 'positions are named twice');
    return before;
  }
  const labels = property.values.map((value) => ({ text: value.text, range: rangeOn(context.origin, value.range) }));
  labels.forEach((label, index) => {
    const first = labels.slice(0, index).find((other) => other.text === label.text);
    if (first !== undefined) {
      const related = [{ message: 'the other position of that name', range: first.range }];
      context.problems.add('duplicate-name', label.range, `two positions are called \`${label.text}\``, { related });
    }
  });
  return labels;
}

/** `rest stereo` on a part whose type rests somewhere else. */
export function readRest(type: CompiledType, property: PropertyNode, context: BindContext): Pick<Arguments, 'rest'> {
  const word = property.values[0];
  const range = rangeOn(context.origin, word?.range ?? property.range);
  if (word === undefined || isMissing(word)) return {};
  const names = type.positions.map((position) => position.name);
  const ordinal = /^\d+$/.test(word.text) ? Number(word.text) - 1 : -1;
  const index = names.includes(word.text) ? names.indexOf(word.text) : ordinal;
  if (index >= 0 && index < names.length) return { rest: { index, range } };
  context.problems.addMeant(
    'unknown-name',
    range,
    `${type.name} has no position ${word.text}; it has ${nameList(names)}`,
    word.text,
    names,
  );
  return {};
}

/** `seen back`, `lugs up`: how the diagram that one types from sees a pot. */
export function readView(type: CompiledType, property: PropertyNode, before: View, context: BindContext): View {
  const range = rangeOn(context.origin, property.range);
  const name = property.name.text === 'seen' ? 'seen' : 'lugs';
  if (!hasSides(type)) {
    context.problems.add('property', range, `${name} is for a pot’s left, middle and right; ${type.name} has no such lugs`);
    return before;
  }
  const word = property.values[0]?.text;
  if (property.values.length === 1) {
    if (name === 'seen' && (word === 'front' || word === 'back')) return { ...before, seen: word };
    if (name === 'lugs' && (word === 'up' || word === 'down')) return { ...before, lugs: word };
  }
  const choices = name === 'seen' ? 'front or back' : 'up or down';
  const instead =
    property.values.length > 1 ? `, one word; put a comma between properties` : word === undefined ? '' : `, not \`${word}\``;
  context.problems.add('property', range, `${name} is ${choices}${instead}`);
  return before;
}
