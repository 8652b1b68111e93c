/** Reads what one element of a part is made from: its ends, and its properties as the type defines them and the part sets them. */
import type { Fix } from '../../source.js';
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
    /** What the workshop assumes of a pickup's resistance, where it says so. */
    readonly pickupTolerance?: number,
  ) {}

  /** The value of one of the element's properties, `undefined` where nothing gives it. */
  value(name: string, unit: Unit): Quantity | undefined {
    const source = this.definition.properties.get(name);
    if (source === undefined || source.kind === 'word' || source.kind === 'but') return undefined;
    if (source.kind === 'quantity') {
      const part = this.properties['tolerance'];
      const isAssumed = isQuantity(part) && part.assumed === true;
      const tolerance = isQuantity(part) ? part.value / 100 : 0;
      const given = { ...source.quantity, tolerance, ...(isAssumed ? { assumed: true } : {}) };
      return this.#spread(name, source.ownTolerance ? source.quantity : given);
    }
    const property = this.properties[source.name];
    if (property === undefined) return undefined;
    if (isQuantity(property) && property.unit === unit) return this.#spread(name, property);
    if (isQuantity(property) && unit === 'percent' && property.unit === 'count')
      return { ...property, value: property.value * 100, unit };
    this.problems.add(
      'value',
      property.range ?? this.instance.part.nameRange,
      `${source.name} of ${this.instance.part.name} takes ${unitPhrase(unit)}`,
    );
    return undefined;
  }

  /** The same for a property that must be above zero; any other value is reported, and no figure is worked out with `otherwise`, which takes its place. */
  positive(name: string, unit: Unit, otherwise: number): Quantity {
    const found = this.value(name, unit);
    if (found === undefined) return quantity(otherwise, unit);
    if (found.value > 0) return found;
    this.reject(name, found, `must be greater than zero: ${unitPhrase(unit)}`);
    return { ...found, value: otherwise, known: false, rejected: true };
  }

  /** The same for a property that may be left out: one below `least` is reported and left out. */
  atLeast(name: string, unit: Unit, least: { readonly value: number; readonly text: string }): Quantity | undefined {
    const found = this.value(name, unit);
    if (found === undefined || found.value >= least.value) return found;
    this.reject(name, found, `must be at least ${least.text}`);
    return undefined;
  }

  /** Reports a value that can't be right: `coupling of neck must be between …`. */
  reject(name: string, { range }: Pick<Quantity, 'range'>, must: string, fixes: readonly Fix[] = []): void {
    this.problems.add('value', range ?? this.definition.range, `${name} of ${this.instance.part.name} ${must}`, { fixes });
  }

  /** True where the element or the part says something of this property, right or wrong. */
  isGiven(name: string): boolean {
    const source = this.definition.properties.get(name);
    return source !== undefined && (source.kind !== 'parameter' || this.properties[source.name] !== undefined);
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

  /** With the element's own tolerance where its type gives one, else with the usual one where nothing is said. */
  #spread(name: string, found: Quantity): Quantity {
    if (name === 'tolerance') return found;
    const own = this.definition.properties.has('tolerance') ? this.value('tolerance', 'percent') : undefined;
    if (own !== undefined) return { ...found, tolerance: own.value / 100, assumed: false };
    if (found.assumed !== true) return found;
    const usual = usualTolerance(this.definition.kind, name);
    return {
      ...found,
      tolerance: name === 'resistance' && this.definition.kind === 'coil' ? (this.pickupTolerance ?? usual) : usual,
    };
  }
}

/** Tolerances where a text gives none: common practice, that of a pot from a rotary pot's data sheet. What is not listed is taken as given. */
const usualTolerances: Readonly<Partial<Record<ElementDefinition['kind'], Readonly<Record<string, number>>>>> = {
  coil: { resistance: 0.05, inductance: 0.1, capacitance: 0.2 },
  track: { resistance: 0.2 },
  resistor: { resistance: 0.05 },
  capacitor: { capacitance: 0.1 },
  inductor: { inductance: 0.1, resistance: 0.1 },
};

function usualTolerance(kind: ElementDefinition['kind'], name: string): number {
  return usualTolerances[kind]?.[name] ?? 0;
}
