/** The positions of a type: `positions`, `at … where … joins …`, `rest`. */
import type { AtStatement, PositionsStatement, RestStatement, Word } from '../../grammar/index.js';
import { nameList } from '../phrases.js';
import { quantity } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { ownLug, ownPoint, recordParameterUse, type TypeContext, type TypeDraft } from './type-draft.js';
import type { PositionDefinition } from './type-model.js';

/** `positions up middle down`. They take the place of those of the type it comes from, contacts and rest as well. */
export function readPositionNames(draft: TypeDraft, statement: PositionsStatement, origin: Origin, context: TypeContext): void {
  draft.positions = [];
  delete draft.rest;
  for (const word of statement.names) {
    if (isMissing(word)) continue;
    const range = rangeOn(origin, word.range);
    const before = draft.positions.find((position) => position.name === word.text);
    if (before !== undefined) {
      const related = [{ message: 'the position of that name', range: before.range }];
      context.problems.add('duplicate-name', range, `${draft.name} already has a position ${word.text}`, { related });
      continue;
    }
    const ordinal = draft.positions.length + 1;
    if (/^\d+$/.test(word.text) && Number(word.text) !== ordinal) {
      context.problems.add(
        'type',
        range,
        `positions are numbered from 1, so this one is ${ordinal}; write ${ordinal}, or give it a name`,
      );
    }
    draft.positions.push({ name: word.text, quoted: word.kind === 'string', range, joins: [] });
    context.names.push({ kind: 'position', range, definition: range, isDefinition: true, name: word.text });
  }
}

/** `at up joins A out`: `begun` holds the positions whose contacts this body has given, so that those of the base type give way. */
export function readContacts(
  draft: TypeDraft,
  statement: AtStatement,
  origin: Origin,
  begun: Set<number>,
  context: TypeContext,
): void {
  const index = positionOf(draft, statement.position, origin, context);
  const joins: string[][] = [];
  for (const group of statement.joins) {
    const lugs = group.map((word) => ownPoint(draft, word, origin, context)).filter((lug) => lug !== undefined);
    const first = group[0];
    if (group.length === 1 && first !== undefined && !isMissing(first)) {
      context.problems.add('form', rangeOn(origin, first.range), `${first.text} is alone; a contact joins two or more lugs`);
    }
    if (lugs.length > 1) joins.push(lugs);
  }
  const position = index === undefined ? undefined : draft.positions[index];
  if (index === undefined || position === undefined) return;
  const where = statement.where === undefined ? position.where : parameterOf(draft, statement.where, origin, context);
  const drive = statement.drive === undefined ? position.drive : driveOf(draft, statement.drive, origin, context);
  draft.positions[index] = {
    ...position,
    joins: begun.has(index) ? [...position.joins, ...joins] : joins,
    ...(where === undefined ? {} : { where }),
    ...(drive === undefined ? {} : { drive }),
  };
  begun.add(index);
}

/** The lugs between which a battery brings the switch into a position. */
function driveOf(
  draft: TypeDraft,
  { a, b, eitherWay }: NonNullable<AtStatement['drive']>,
  origin: Origin,
  context: TypeContext,
): PositionDefinition['drive'] {
  const [from, to] = [ownLug(draft, a, origin, context), ownLug(draft, b, origin, context)];
  return from === undefined || to === undefined ? undefined : { a: from, b: to, eitherWay };
}

/** The parameter that `where` names: one that a part gives or leaves out. */
function parameterOf(draft: TypeDraft, word: Word, origin: Origin, context: TypeContext): string | undefined {
  if (isMissing(word)) return undefined;
  const range = rangeOn(origin, word.range);
  const parameter = draft.parameters.get(word.text);
  if (parameter?.kind === 'free') {
    recordParameterUse(parameter, range, context);
    return word.text;
  }
  const names = [...draft.parameters.values()].flatMap(({ kind, name, range: own }) =>
    kind === 'free' && own !== undefined ? [name] : [],
  );
  const says =
    parameter === undefined
      ? `${draft.name} takes no ${word.text}; declare it: takes ${word.text}`
      : `${word.text} always has a value, so it can’t decide whether there is a position; \`where\` needs a parameter without a default`;
  context.problems.addMeant('unknown-name', range, says, word.text, names);
  return undefined;
}

/** `rest mono`, or `rest 5` on a type without positions: the rotation of its shaft. */
export function readRestPosition(draft: TypeDraft, statement: RestStatement, origin: Origin, context: TypeContext): void {
  const word = statement.position;
  if (draft.positions.length > 0) {
    const index = positionOf(draft, word, origin, context);
    if (index !== undefined) draft.rest = index;
    return;
  }
  const rotation = Number(word.text);
  const rest = draft.parameters.get('rest');
  if (rest?.kind === 'value' && /^\d+(\.\d+)?$/.test(word.text) && rotation <= 10) {
    draft.parameters.set('rest', { ...rest, value: quantity(rotation, 'count') });
  } else if (!isMissing(word)) {
    context.problems.add('type', rangeOn(origin, statement.range), `${draft.name} has no positions to rest in: positions 1 2 3`);
  }
}

function positionOf(draft: TypeDraft, word: Word, origin: Origin, context: TypeContext): number | undefined {
  if (isMissing(word)) return undefined;
  const range = rangeOn(origin, word.range);
  const byName = draft.positions.findIndex((position) => position.name === word.text);
  const index = byName < 0 && /^\d+$/.test(word.text) ? Number(word.text) - 1 : byName;
  const position = draft.positions[index];
  if (position !== undefined) {
    context.names.push({ kind: 'position', range, definition: position.range, isDefinition: false, name: word.text });
    return index;
  }
  const names = draft.positions.map((candidate) => candidate.name);
  const has = names.length === 0 ? 'name its positions first: positions 1 2 3' : `it has ${nameList(names)}`;
  context.problems.addMeant('unknown-name', range, `${draft.name} has no position ${word.text}; ${has}`, word.text, names);
  return undefined;
}
