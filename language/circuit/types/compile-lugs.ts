/** The lugs of a type: `lugs`, `optional`, `metal`, second names, and where they lie. */
import type { AlsoStatement, LugsStatement, RowsStatement, Word } from '../../grammar/index.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { ownLug, type TypeContext, type TypeDraft } from './type-draft.js';

/** No strip has more lugs than this. */
const MOST_NUMBERED = 999;

/** `lugs A0 A1`, `optional cover`, `optional 1 to 99`. `own` holds the names that this body has declared already. */
export function declareLugs(
  draft: TypeDraft,
  statement: LugsStatement,
  origin: Origin,
  own: Set<string>,
  context: TypeContext,
): void {
  const optional = statement.kind === 'optional';
  const names = [...statement.names];
  if (statement.upTo !== undefined) {
    const first = names.pop();
    const range = first === undefined ? undefined : numbersBetween(first, statement.upTo, origin, context);
    if (range !== undefined && optional) draft.numbered = range;
    else if (range !== undefined) {
      for (let number = range.from; number <= range.to; number++) {
        draft.lugs.set(String(number), { name: String(number), optional, metal: false, inner: false, range: range.range });
      }
    }
  }
  for (const word of names) {
    if (isMissing(word)) continue;
    const range = rangeOn(origin, word.range);
    const before = draft.lugs.get(word.text);
    if (own.has(word.text)) {
      const related = before === undefined ? [] : [{ message: 'the same lug', range: before.range }];
      context.problems.add('duplicate-name', range, `${draft.name} already has a lug ${word.text}`, { related });
      continue;
    }
    own.add(word.text);
    draft.lugs.set(word.text, {
      name: word.text,
      optional,
      metal: before?.metal ?? false,
      inner: false,
      range: before?.range ?? range,
    });
    context.names.push({
      kind: 'lug',
      range,
      definition: before?.range ?? range,
      isDefinition: before === undefined,
      name: word.text,
    });
  }
}

/** `metal frame`: those lugs belong on ground. */
export function markMetal(draft: TypeDraft, statement: LugsStatement, origin: Origin, context: TypeContext): void {
  if (statement.upTo !== undefined) {
    const message = 'metal takes lugs one by one, not a range';
    context.problems.add('type', rangeOn(origin, statement.range), message);
  }
  for (const word of statement.names) {
    const name = ownLug(draft, word, origin, context);
    const definition = name === undefined ? undefined : draft.lugs.get(name);
    if (definition !== undefined) draft.lugs.set(definition.name, { ...definition, metal: true });
  }
}

/** `also screw for north`: whether `north` is a lug or a coil is seen once all elements are read. */
export function declareAlias(draft: TypeDraft, statement: AlsoStatement, origin: Origin, context: TypeContext): void {
  if (isMissing(statement.alias) || isMissing(statement.of)) return;
  const alias = statement.alias.text;
  const of = statement.of.text;
  const ofRange = rangeOn(origin, statement.of.range);
  const coil = draft.elements.find((element) => element.kind === 'coil' && element.name === of);
  const lug = draft.lugs.get(of);
  if (coil === undefined && (lug === undefined || lug.inner)) {
    const names = [...draft.lugs.keys(), ...draft.elements.flatMap((element) => (element.kind === 'coil' ? [element.name] : []))];
    context.problems.addMeant('unknown-name', ofRange, `${draft.name} has no lug or coil ${of}`, of, names);
    return;
  }
  const aliasRange = rangeOn(origin, statement.alias.range);
  if (draft.lugs.has(alias) || draft.elements.some((element) => element.kind === 'coil' && element.name === alias)) {
    context.problems.add('duplicate-name', aliasRange, `${alias} is already a lug or coil of ${draft.name}`);
    return;
  }
  draft.aliases.set(alias, of);
  const definition = lug?.range ?? coil?.nameRange ?? coil?.range;
  const kind = coil === undefined ? 'lug' : 'coil';
  context.names.push({
    kind,
    range: ofRange,
    isDefinition: false,
    name: of,
    ...(definition === undefined ? {} : { definition }),
  });
  context.names.push({
    kind,
    range: aliasRange,
    isDefinition: false,
    name: alias,
    ...(definition === undefined ? {} : { definition }),
  });
}

/** `rows A1 A2 A3 A0 / B0 B1 B2 B3`, from the solder side. */
export function readRows(draft: TypeDraft, statement: RowsStatement, origin: Origin, context: TypeContext): void {
  const seen = new Set<string>();
  draft.rows = statement.rows.map((row) =>
    row.map((word) => {
      const name = word === null ? undefined : ownLug(draft, word, origin, context);
      if (word === null || name === undefined) return null;
      if (seen.has(name)) {
        context.problems.add('duplicate-name', rangeOn(origin, word.range), `${word.text} is in the rows twice`);
        return null;
      }
      seen.add(name);
      return name;
    }),
  );
}

function numbersBetween(first: Word, last: Word, origin: Origin, context: TypeContext): TypeDraft['numbered'] {
  const range = rangeOn(origin, { start: first.range.start, end: last.range.end });
  const from = Number(first.text);
  const to = Number(last.text);
  if (/^\d{1,4}$/.test(first.text) && /^\d{1,4}$/.test(last.text) && from >= 1 && from <= to && to <= MOST_NUMBERED)
    return { from, to, range };
  context.problems.add(
    'value',
    range,
    `numbered lugs run from a number to a higher one, at most ${MOST_NUMBERED}: optional 1 to 99`,
  );
  return undefined;
}
