/** The properties of a part: what its statement gives, what it takes from the type round it, and the defaults for the rest. */
import { isLibraryUri } from '../../parts/index.js';
import type { Property, Quantity } from '../model.js';
import type { Arguments, CompiledType, Parameter } from '../types/type-model.js';

export type Properties = Readonly<Record<string, Property>>;

export function isQuantity(property: Property | undefined): property is Quantity {
  return property !== undefined && 'value' in property;
}

/** The first word of a property that holds words. */
export function wordOf(property: Property | undefined): string | undefined {
  return property !== undefined && 'words' in property ? property.words[0] : undefined;
}

/** The value of a property, in its unit. */
export function valueOf(property: Property | undefined): number | undefined {
  return isQuantity(property) ? property.value : undefined;
}

/** Values that a tolerance spreads. */
const SPREAD: readonly string[] = ['ohm', 'farad', 'henry'];

/** All properties of a part of this type; `outer` are those of the part round it, `hand` the way pots turn that don't say. */
export function propertiesOf(
  type: CompiledType,
  bindings: Arguments,
  outer: Properties | undefined,
  hand: 'right' | 'left',
): Properties {
  const properties: Record<string, Property> = {};
  const tolerance = (valueOf(given(type, bindings, 'tolerance', outer)) ?? 0) / 100;
  const saysTolerance = bindings.values.has('tolerance');
  const isAssumed = !saysTolerance && !typeSaysTolerance(type);
  const isSpread = (name: string, property: Property): property is Quantity => {
    const argument = bindings.values.get(name);
    return (
      isQuantity(property) &&
      !(argument?.kind === 'quantity' && argument.measured === true) &&
      SPREAD.includes(property.unit) &&
      !(keepsTolerance(type, bindings, name, outer) && !saysTolerance)
    );
  };
  const assumed = isAssumed ? { assumed: true } : {};
  for (const [name, parameter] of type.parameters) {
    const argument = bindings.values.get(name);
    if (argument === undefined && parameter.silent === true) continue;
    const property = given(type, bindings, name, outer);
    if (property === undefined) continue;
    if (name === 'turn' && argument === undefined && hand === 'left' && isRightByDefault(parameter)) {
      properties[name] = { words: ['left'] };
    } else if (isSpread(name, property)) {
      properties[name] = { ...property, tolerance, ...assumed };
    } else {
      properties[name] = name === 'tolerance' && isQuantity(property) ? { ...property, ...assumed } : property;
    }
  }
  return properties;
}

/** True where the author of a type has given it a tolerance; what the bases and the standard types have is what is usual. */
function typeSaysTolerance(type: CompiledType): boolean {
  const range = type.parameters.get('tolerance')?.range;
  return range !== undefined && !isLibraryUri(range.uri);
}

function given(type: CompiledType, bindings: Arguments, name: string, outer: Properties | undefined): Property | undefined {
  const parameter = type.parameters.get(name);
  const argument = bindings.values.get(name);
  if (argument?.kind === 'quantity') return argument.quantity;
  if (argument?.kind === 'words') return { words: argument.words, range: argument.range };
  if (argument?.kind === 'outer') {
    const property = outer?.[argument.name];
    if (property !== undefined) return property;
  }
  if (parameter === undefined || parameter.kind === 'free') return undefined;
  if (parameter.kind === 'value') return parameter.value;
  if (parameter.kind === 'choice') return { words: [parameter.choices[0] ?? ''] };
  return given(type, bindings, parameter.of, outer);
}

/** A printed letter (`223J`) or the part round it has said the tolerance of this one value. */
function keepsTolerance(type: CompiledType, bindings: Arguments, name: string, outer: Properties | undefined): boolean {
  const argument = bindings.values.get(name);
  if (argument?.kind === 'outer') {
    const property = outer?.[argument.name];
    return isQuantity(property) && property.tolerance > 0;
  }
  if (argument?.kind === 'quantity') return argument.ownTolerance;
  const parameter = type.parameters.get(name);
  return argument === undefined && parameter?.kind === 'follows' && keepsTolerance(type, bindings, parameter.of, outer);
}

function isRightByDefault(parameter: Parameter): boolean {
  return parameter.kind === 'choice' && parameter.choices[0] === 'right';
}
