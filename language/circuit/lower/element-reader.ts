/** Reads what one element of a part is made from: its ends, and its properties as the type defines them and the part sets them. */
import type { Instance } from './builder.js';
import type { PartId, ElementId, LugId, Quantity, Unit } from '../model.js';
import { isQuantity, wordOf, type Properties } from './part-properties.js';
import type { Problems } from '../problems.js';
import { quantity, unitPhrase } from '../quantities.js';
import type { ElementDefinition } from '../types/type-model.js';

export interface ElementEnds {
  readonly id: ElementId;
  readonly part: PartId;
  readonly name: string;
  readonly a: LugId;
  readonly b: LugId;
}

/** One element with what its properties are read from. */
export class ElementReader {
  constructor(
    readonly definition: ElementDefinition,
    readonly instance: Instance,
    readonly properties: Properties,
    readonly problems: Problems,
  ) {}

  /** The value of one of the element's properties, `undefined` where nothing gives it. */
  value(name: string, unit: Unit): Quantity | undefined {
    const source = this.definition.properties.get(name);
    if (source === undefined || source.kind === 'word' || source.kind === 'but') return undefined;
    const own = this.definition.properties.get('tolerance');
    if (source.kind === 'quantity') {
      const part = (this.number('tolerance', this.properties) ?? 0) / 100;
      return this.#spread(source.ownTolerance ? source.quantity : { ...source.quantity, tolerance: part }, own !== undefined);
    }
    const property = this.properties[source.name];
    if (property === undefined) return undefined;
    if (isQuantity(property) && property.unit === unit) return this.#spread(property, own !== undefined);
    if (isQuantity(property) && unit === 'percent' && property.unit === 'count')
      return { ...property, value: property.value * 100, unit };
    this.problems.add(
      'value',
      property.range ?? this.instance.part.nameRange,
      `${source.name} of ${this.instance.part.name} takes ${unitPhrase(unit)}`,
    );
    return undefined;
  }

  /** The same for a property that must be above zero; any other value is reported, and `otherwise` is used instead. */
  positive(name: string, unit: Unit, otherwise: number): Quantity {
    const found = this.value(name, unit);
    if (found === undefined) return quantity(otherwise, unit);
    if (found.value > 0) return found;
    const range = found.range ?? this.definition.range;
    this.problems.add('value', range, `${name} of ${this.instance.part.name} must be greater than zero: ${unitPhrase(unit)}`);
    return { ...found, value: otherwise };
  }

  word(name: string): string | undefined {
    const source = this.definition.properties.get(name);
    if (source?.kind === 'word') return source.word;
    return source?.kind === 'parameter' ? wordOf(this.properties[source.name]) : undefined;
  }

  /** True where the property is the parameter of that name itself, so that it isn't counted a second time. */
  isParameter(name: string): boolean {
    const source = this.definition.properties.get(name);
    return source?.kind === 'parameter' && source.name === name;
  }

  number(name: string, properties: Properties): number | undefined {
    const property = properties[name];
    return isQuantity(property) ? property.value : undefined;
  }

  /** The coil's share of the whole, 0 to 1. */
  share(): number | undefined {
    const source = this.definition.properties.get('share');
    if (source?.kind === 'but') {
      const but = this.number(source.name, this.properties);
      return but === undefined ? undefined : 1 - but / 100;
    }
    const share = this.value('share', 'percent');
    return share === undefined ? undefined : share.value / 100;
  }

  #spread(found: Quantity, saysTolerance: boolean): Quantity {
    if (!saysTolerance) return found;
    const own = this.value('tolerance', 'percent');
    return own === undefined ? found : { ...found, tolerance: own.value / 100 };
  }
}
