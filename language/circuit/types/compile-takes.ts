/** The parameters of a type: `takes NAME VALUE`, `takes NAME word|word`, `takes NAME`. */
import type { TakesStatement } from '../../grammar/index.js';
import { outOfRange } from './parameters.js';
import { quantity, readValue } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import type { Parameter } from './type-model.js';
import type { TypeContext, TypeDraft } from './type-draft.js';

/** Reads the parameters; one that the type has from its base type gets a new default and keeps its place. `own` holds those that this body has declared. */
export function readTakes(
  draft: TypeDraft,
  statement: TakesStatement,
  origin: Origin,
  own: Set<string>,
  context: TypeContext,
): void {
  for (const node of statement.parameters) {
    if (isMissing(node.name)) continue;
    const name = node.name.text;
    const range = rangeOn(origin, node.name.range);
    if (own.has(name)) {
      const before = draft.parameters.get(name)?.range;
      const related = before === undefined ? [] : [{ message: 'the same parameter', range: before }];
      context.problems.add('duplicate-name', range, `${draft.name} already takes ${name}`, { related });
      continue;
    }
    const parameter = readParameter(draft, node, range, origin, context);
    if (parameter === undefined) continue;
    own.add(name);
    context.names.push({ kind: 'property', range, definition: range, isDefinition: true, name });
    // A parameter of the base alone takes its place among the type's own; one of the type it comes from keeps the place it has.
    if (draft.parameters.get(name)?.range === undefined) draft.parameters.delete(name);
    draft.parameters.set(name, { ...parameter, ...(statement.doc === undefined ? {} : { doc: statement.doc }) });
  }
}

function readParameter(
  draft: TypeDraft,
  node: TakesStatement['parameters'][number],
  range: Parameter['range'] & object,
  origin: Origin,
  context: TypeContext,
): Parameter | undefined {
  const name = node.name.text;
  if (node.value !== undefined) {
    if (isMissing(node.value)) return undefined;
    const valueRange = rangeOn(origin, node.value.range);
    const reading = readValue(node.value);
    if (reading === undefined) {
      const message = `\`${node.value.text}\` is not a value; give the default of ${name} with its unit: takes ${name} 8.1k`;
      context.problems.add('value', valueRange, message);
      return undefined;
    }
    const fault = outOfRange(name, reading.unit, reading.value);
    if (fault !== undefined) {
      context.problems.add('value', valueRange, fault);
      return undefined;
    }
    return { name, range, kind: 'value', unit: reading.unit, value: quantity(reading.value, reading.unit) };
  }
  const choices = node.choices.filter((choice) => !isMissing(choice));
  const [only] = choices;
  if (only === undefined) return { name, range, kind: 'free' };
  if (choices.length > 1) return { name, range, kind: 'choice', choices: choices.map((choice) => choice.text) };
  // One word is no choice: it names a parameter above, which this one follows where it isn't given.
  const onlyRange = rangeOn(origin, only.range);
  if (draft.parameters.has(only.text) && only.text !== name && !followsSelf(draft, only.text, name)) {
    context.names.push({ kind: 'property', range: onlyRange, isDefinition: false, name: only.text });
    return { name, range, kind: 'follows', of: only.text };
  }
  const reading = readValue(only);
  if (reading !== undefined && only.kind !== 'string')
    return { name, range, kind: 'value', unit: reading.unit, value: quantity(reading.value, reading.unit) };
  const message = `${name} needs a default: a value (takes ${name} 8.1k), words to choose from (takes ${name} a|b), or a parameter above that it follows`;
  context.problems.addMeant('property', onlyRange, message, only.text, draft.parameters.keys());
  return undefined;
}

function followsSelf(draft: TypeDraft, from: string, name: string): boolean {
  for (let at = draft.parameters.get(from); at?.kind === 'follows'; at = draft.parameters.get(at.of)) {
    if (at.of === name) return true;
  }
  return false;
}
