/** The record of one instrument: which of the batch it is, what was done on it, and what its parts measure in hand. */
import { firstOf } from '../../collections.js';
import type { ActualStatement, RecordStatement } from '../../grammar/index.js';
import { bindArguments } from '../types/bind.js';
import { report, reportMisspelling, type Lowering } from './lowering-state.js';
import type { InstrumentRecord } from '../model.js';
import { readValue } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import type { Argument, Arguments, CompiledType } from '../types/type-model.js';
import { listed } from '../../words.js';

const SINGLE = ['by', 'date'] as const;
const MANY = ['changed', 'before', 'done'] as const;

/** `record 2 { by "…", changed "…" }`; what cannot be read is reported and left out. */
export function makeRecord(state: Lowering, statement: RecordStatement, origin: Origin): InstrumentRecord {
  const number = readValue(statement.number, 'count')?.value ?? 1;
  if (!Number.isInteger(number) || number < 1)
    report(
      state,
      'value',
      rangeOn(origin, statement.number.range),
      'a record needs the number of its instrument in the batch: record 1',
    );
  const single: Record<string, string> = {};
  const many: Record<(typeof MANY)[number], string[]> = { changed: [], before: [], done: [] };
  const names: readonly string[] = [...SINGLE, ...MANY];
  for (const property of statement.properties) {
    if (isMissing(property.name)) continue;
    const name = property.name.text;
    const range = rangeOn(origin, property.range);
    const texts = property.values.filter(({ kind }) => kind === 'string').map(({ text }) => text);
    if (!names.includes(name)) {
      const message = `a record has no property ${name}; it takes ${listed(names)}`;
      reportMisspelling(state, 'property', rangeOn(origin, property.name.range), message, { word: name, among: names });
    } else if (texts.length === 0 || texts.length < property.values.length) {
      report(state, 'property', range, `${name} takes text in quotes: ${name} "…"`);
    } else if (isMany(name)) many[name].push(...texts);
    else if (texts.length > 1 || single[name] !== undefined) report(state, 'property', range, `${name} is given twice`);
    else single[name] = firstOf(texts);
  }
  return {
    number: Math.max(1, Math.floor(number)),
    ...single,
    ...many,
    range: rangeOn(origin, statement.range),
  };
}

function isMany(name: string): name is (typeof MANY)[number] {
  return (MANY as readonly string[]).includes(name);
}

export interface Actual {
  readonly statement: ActualStatement;
  readonly origin: Origin;
}

/** What is said of each part in hand, by its name; a second value for the same part is reported. */
export function actualsByName(state: Lowering, actuals: readonly Actual[]): ReadonlyMap<string, Actual> {
  const found = new Map<string, Actual>();
  for (const actual of actuals) {
    const { name } = actual.statement;
    if (isMissing(name)) continue;
    if (found.has(name.text))
      report(state, 'duplicate-name', rangeOn(actual.origin, name.range), `${name.text} already has a measured value`);
    else found.set(name.text, actual);
  }
  return found;
}

/** The arguments of a part with those of the part in hand laid over them: a measured value has no tolerance, a lead takes what is said of it. */
export function laidOver(state: Lowering, type: CompiledType | undefined, shared: Arguments, actual: Actual): Arguments {
  const { origin, statement } = actual;
  const context = state.scope.contextOf(origin.uri);
  const hand = bindArguments(type, statement.values, statement.properties, {
    origin,
    problems: context.problems,
    names: context.names,
  });
  const values = new Map(shared.values);
  for (const [name, argument] of hand.values) values.set(name, asMeasured(argument));
  const leads = [
    ...shared.leads.map((lead) => ({ ...lead, ...hand.leads.find(({ lug }) => lug === lead.lug) })),
    ...hand.leads.filter(({ lug }) => !shared.leads.some((lead) => lead.lug === lug)),
  ];
  return { ...shared, values, leads };
}

function asMeasured(argument: Argument): Argument {
  return argument.kind === 'quantity' ? { ...argument, measured: true } : argument;
}
