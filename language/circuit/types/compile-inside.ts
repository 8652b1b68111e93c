/** The parts, wires and solder joints inside a type: resolved once, copied for each part of the type. */
import type { DottedName, PartStatement, SolderStatement, WireStatement } from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import { bindArguments } from './bind.js';
import { typeNamed, wirable } from './find-type.js';
import { lugNamed, lugNames, createLugSpelling, onlyLug, requiredLugs } from './lug-names.js';
import { nameList } from '../phrases.js';
import { isMissing, isSamePlace, rangeOn, type Origin } from '../ranges.js';
import { ownLug, require, type TypeContext, type TypeDraft } from './type-draft.js';
import type { InnerEnd, InnerPart } from './type-model.js';
import { PLAIN_WIRE, readLooks } from './wire-looks.js';

/** Parts stand in one another at most this deep. */
export const DEEPEST = 16;
/** One part of a type is at most this many parts, those inside counted. */
export const MOST_PARTS = 5000;

/** `part c : capacitor 680pF from top to bottom` in a type. Its leads are soldered by `readInnerJoints` once all parts are known. */
export function readInnerPart(draft: TypeDraft, statement: PartStatement, origin: Origin, context: TypeContext): void {
  const found = wirable(typeNamed(statement.type, origin, context, draft.name));
  const type =
    found !== undefined &&
    fitsInside(draft, found.size * statement.names.length, found.depth, rangeOn(origin, statement.type.range), context)
      ? found
      : undefined;
  const bindings = bindArguments(type, statement.values, statement.properties, {
    origin,
    problems: context.problems,
    names: context.names,
    outer: draft.parameters,
  });
  for (const word of statement.names) {
    if (isMissing(word)) continue;
    const nameRange = rangeOn(origin, word.range);
    const before = draft.parts.find((part) => part.name === word.text)?.nameRange ?? draft.lugs.get(word.text)?.range;
    if (before !== undefined) {
      const related = [{ message: 'the other one', range: before }];
      context.problems.add('duplicate-name', nameRange, `${draft.name} already has a part or lug ${word.text}`, { related });
      continue;
    }
    context.names.push({ kind: 'part', range: nameRange, definition: nameRange, isDefinition: true, name: word.text });
    draft.parts.push({
      name: word.text,
      typeName: statement.type.text,
      arguments: bindings,
      inPlace: statement.ends !== undefined,
      range: rangeOn(origin, statement.range),
      nameRange,
      typeRange: rangeOn(origin, statement.type.range),
      ...(type === undefined ? {} : { type }),
      ...(statement.doc === undefined ? {} : { doc: statement.doc }),
    });
  }
}

/** The joints of a statement in the body: runs of a wire, direct joints, the two leads of a part in place. */
export function readInnerJoints(
  draft: TypeDraft,
  statement: PartStatement | WireStatement | SolderStatement,
  origin: Origin,
  number: number,
  context: TypeContext,
): void {
  const statementRange = rangeOn(origin, statement.range);
  if (statement.kind === 'part') {
    placeInner(draft, statement, origin, number, context);
    return;
  }
  const looks = statement.kind === 'wire' ? readLooks(statement.options, origin, context.problems, 'wire') : PLAIN_WIRE;
  const [given] = statement.kind === 'wire' ? statement.numbers : [];
  if (given !== undefined)
    context.problems.add(
      'type',
      rangeOn(origin, given.range),
      'a wire inside a type has no number: every part of the type would have it',
    );
  const [screen] = statement.kind === 'wire' ? statement.screens : [];
  if (screen !== undefined)
    context.problems.add('type', rangeOn(origin, screen.range), 'a screen can’t be connected inside a type');
  const ends = statement.ends.map((end) => innerEnd(draft, end, origin, context));
  for (let i = 1; i < ends.length; i++) {
    const [a, b] = [ends[i - 1], ends[i]];
    if (a === undefined || b === undefined) continue;
    const range: SourceRange = { uri: origin.uri, start: a.range.start, end: b.range.end };
    draft.joints.push({ a, b, form: statement.kind, statement: number, looks, range, statementRange });
  }
}

function placeInner(draft: TypeDraft, statement: PartStatement, origin: Origin, number: number, context: TypeContext): void {
  if (statement.ends === undefined) return;
  const from = innerEnd(draft, statement.ends.a, origin, context);
  const to = innerEnd(draft, statement.ends.b, origin, context);
  for (const word of statement.names) {
    const nameRange = rangeOn(origin, word.range);
    const part = draft.parts.find((candidate) => candidate.name === word.text && isSamePlace(candidate.nameRange, nameRange));
    if (part === undefined) continue;
    if (part.type !== undefined && part.type.leads === undefined) {
      const message = `${part.typeName} does not have two leads, so it can’t be placed ${statement.ends.form === 'from' ? 'from … to …' : 'across … and …'}`;
      context.problems.add('form', rangeOn(origin, statement.range), message);
      continue;
    }
    const [first, second] = part.type?.leads ?? ['a', 'b'];
    const leadOf = (lug: string): InnerEnd => ({ part: part.name, lug, range: nameRange });
    const common = { form: 'solder' as const, statement: number, looks: PLAIN_WIRE, statementRange: part.range };
    if (from !== undefined) draft.joints.push({ a: from, b: leadOf(first), range: from.range, ...common });
    if (to !== undefined) draft.joints.push({ a: leadOf(second), b: to, range: to.range, ...common });
  }
}

/** A lug of the type itself, of a part inside, or that part alone where it has one lug. */
function innerEnd(draft: TypeDraft, name: DottedName, origin: Origin, context: TypeContext): InnerEnd | undefined {
  const [first, second] = name.path;
  if (first === undefined || isMissing(first)) return undefined;
  const range = rangeOn(origin, name.range);
  const firstRange = rangeOn(origin, first.range);
  const part = draft.parts.find((candidate) => candidate.name === first.text);
  if (part === undefined) {
    if (second === undefined) {
      const own = lugNamed(draft, first.text, {}).kind === 'lug' ? ownLug(draft, first, origin, context) : undefined;
      if (own !== undefined) {
        require(draft, own);
        return { lug: own, range };
      }
    }
    const names = [...lugNames(draft), ...draft.parts.map((candidate) => candidate.name)];
    context.problems.addMeant(
      'unknown-name',
      firstRange,
      `${draft.name} has no lug or part ${first.text}; it has ${nameList(names)}`,
      first.text,
      names,
    );
    return undefined;
  }
  context.names.push({ kind: 'part', range: firstRange, definition: part.nameRange, isDefinition: false, name: first.text });
  return endOnPart(part, name, origin, context);
}

/** The end on a part of the type that is known, by what stands behind its name. */
function endOnPart(part: InnerPart, name: DottedName, origin: Origin, context: TypeContext): InnerEnd | undefined {
  const [first, second, third] = name.path;
  const range = rangeOn(origin, name.range);
  if (third !== undefined) {
    context.problems.add('type', range, `the inside of ${part.name} can’t be reached from here: name one of its lugs`);
    return undefined;
  }
  if (part.type === undefined) return { part: part.name, lug: second?.text ?? 'lug', range };
  if (second === undefined) {
    const only = onlyLug(part.type);
    if (only !== undefined) return { part: part.name, lug: only, range };
    const lugs = requiredLugs(part.type).map((lug) => lug.name);
    const place = rangeOn(origin, (first ?? name).range);
    context.problems.add('unknown-name', place, `name a lug of ${part.name}: it has ${nameList(lugs)}`);
    return undefined;
  }
  if (isMissing(second)) return undefined;
  const secondRange = rangeOn(origin, second.range);
  const named = lugNamed(part.type, second.text, part.arguments.view);
  if (named.kind === 'lug') {
    const definition = part.type.lugs.get(named.name)?.range ?? part.type.numbered?.range;
    context.names.push({
      kind: 'lug',
      range: secondRange,
      isDefinition: false,
      name: second.text,
      ...(definition === undefined ? {} : { definition }),
    });
    return { part: part.name, lug: named.name, range };
  }
  const names = lugNames(part.type);
  if (named.kind === 'unseen') {
    context.problems.add(
      'property',
      secondRange,
      `${second.text} of ${part.name} depends on the side seen in the diagram: add { seen front } or { seen back }`,
    );
  } else {
    const message = `${part.name} has no lug ${second.text}; it has ${nameList(names)}`;
    context.problems.addMeant('unknown-name', secondRange, message, second.text, createLugSpelling(part.type));
  }
  return undefined;
}

function fitsInside(draft: TypeDraft, size: number, depth: number, range: SourceRange, context: TypeContext): boolean {
  const sum = draft.parts.reduce((parts, part) => parts + (part.type?.size ?? 1), 1) + size;
  if (depth >= DEEPEST) {
    context.problems.add('type', range, `parts are nested more than ${DEEPEST} levels deep here`);
    return false;
  }
  if (sum > MOST_PARTS) {
    context.problems.add('type', range, `one ${draft.name} would consist of more than ${MOST_PARTS} parts`);
    return false;
  }
  return true;
}
