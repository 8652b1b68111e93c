/** The circuit while it is being made: parts, lugs, elements, controls, joints, each numbered as it comes. */
import { firstOf } from '../../collections.js';
import type { SourceRange } from '../../source.js';
import { lugNamed, requiredLugs } from '../types/lug-names.js';
import {
  lugId,
  partId,
  type Coil,
  type Element,
  type ElementId,
  type Joint,
  type Lug,
  type LugId,
  type Part,
  type Shaft,
  type ShaftId,
  type Switch,
  type SwitchId,
  type WireLooks,
} from '../model.js';
import type { Arguments, PartType, PositionDefinition, View } from '../types/type-model.js';

/** A record that may still be written to. */
export type Draft<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer Item)[] ? Item[] : T[K] };

/** A part with what is needed to look names up in it. */
export interface Instance {
  readonly part: Draft<Part>;
  /** Absent where the type isn't known: then any lug is believed. */
  readonly type?: PartType;
  readonly arguments?: Arguments;
  readonly view: View;
  readonly lugs: Map<string, LugId>;
  readonly children: Map<string, Instance>;
  readonly coils: Map<string, ElementId>;
  readonly shafts: Map<string, ShaftId>;
  /** The lug that is meant where the part is named alone. */
  readonly only?: string;
  switch?: SwitchId;
  /** The positions of its switch, as its type has them. */
  positions?: readonly PositionDefinition[];
}

/** What a joint says besides its ends. */
export interface JointDetails {
  readonly kind: Joint['kind'];
  readonly statement: number;
  readonly looks: WireLooks;
  readonly range: SourceRange;
  readonly aRange: SourceRange;
  readonly bRange: SourceRange;
  readonly statementRange: SourceRange;
  readonly holder?: Joint['holder'];
  readonly form?: Joint['form'];
}

export class Builder {
  readonly instances: Instance[] = [];
  readonly lugs: Draft<Lug>[] = [];
  readonly elements: Element[] = [];
  readonly switches: Draft<Switch>[] = [];
  readonly shafts: Draft<Shaft>[] = [];
  readonly joints: Draft<Joint>[] = [];
  /** What the workshop assumes of a pickup's resistance where the text gives no tolerance, a share of 1. */
  pickupTolerance: number | undefined;
  #statements = 0;

  /** Keeps `count` statement numbers and answers the first. */
  statement(count = 1): number {
    const first = this.#statements;
    this.#statements += count;
    return first;
  }

  addPart(
    part: Omit<Part, 'id' | 'lugs' | 'elements' | 'rows'>,
    type: PartType | undefined,
    bindings: Arguments | undefined,
    view: View,
  ): Instance {
    const draft: Draft<Part> = {
      ...part,
      ancestry: [...part.ancestry],
      id: partId(this.instances.length),
      lugs: [],
      elements: [],
      rows: [],
    };
    const required = type === undefined ? [] : requiredLugs(type);
    const instance: Instance = {
      part: draft,
      view,
      lugs: new Map(),
      children: new Map(),
      coils: new Map(),
      shafts: new Map(),
      ...(required.length === 1 ? { only: firstOf(required).name } : {}),
      ...(type === undefined ? {} : { type }),
      ...(bindings === undefined ? {} : { arguments: bindings }),
    };
    this.instances.push(instance);
    for (const lug of required) this.lug(instance, lug.name);
    return instance;
  }

  /** The lug of that (canonical) name; an optional one is there from the first time it is asked for. */
  lug(instance: Instance, name: string): LugId {
    const before = instance.lugs.get(name);
    if (before !== undefined) return before;
    const type = instance.type;
    const definition = type?.lugs.get(name);
    const metal = definition?.metal === true && !(name === 'sleeve' && isBoxed(instance));
    return this.#addLug(instance, {
      name,
      label: instance.only === name ? instance.part.name : `${instance.part.name}.${name}`,
      metal,
      takesMany: definition?.metal === true && takesMany(instance.part),
      ...(definition?.inner === true ? { inner: true } : {}),
    });
  }

  /** A point inside that the type's text doesn't name: the end of a track that its wiper leaves. */
  innerLug(instance: Instance, name: string): LugId {
    return this.#addLug(instance, { name, label: `${instance.part.name}.${name}`, metal: false, takesMany: false, inner: true });
  }

  /** The lug that is there under this name, without making one. */
  existing(instance: Instance, name: string): LugId | undefined {
    return instance.lugs.get(name);
  }

  join(a: LugId, b: LugId, details: JointDetails): Draft<Joint> {
    const { looks, ...places } = details;
    const joint: Draft<Joint> = { id: this.joints.length, a, b, ...places, ...looks, ownLead: false };
    this.joints.push(joint);
    return joint;
  }

  coilNamed(instance: Instance, word: string): Coil | undefined {
    const id = instance.coils.get(word) ?? instance.coils.get(instance.type?.aliases.get(word) ?? '');
    const element = id === undefined ? undefined : this.elements[id];
    return element?.kind === 'coil' ? element : undefined;
  }

  /** Everything that can be checked only once all wires are read: rows, lugs in the type's order, contacts. */
  finish(): void {
    for (const instance of this.instances) {
      const { type, part } = instance;
      const order = type === undefined ? [...instance.lugs.keys()] : [...type.lugs.keys()];
      const ids = order.map((name) => instance.lugs.get(name)).filter((id) => id !== undefined);
      const ordered = new Set(order);
      const numbered = [...instance.lugs].filter(([name]) => !ordered.has(name)).sort(([a], [b]) => Number(a) - Number(b));
      part.lugs = [...ids, ...numbered.map(([, id]) => id)].filter((id) => this.lugs[id]?.inner !== true);
      part.rows = rowsOf(instance);
      this.#close(instance);
    }
  }

  #close(instance: Instance): void {
    const control = instance.switch === undefined ? undefined : this.switches[instance.switch];
    if (control === undefined || instance.type === undefined) return;
    control.positions = control.positions.map((position, index) => {
      const joins = (instance.positions?.[index]?.joins ?? [])
        .map((names) => names.map((name) => instance.lugs.get(name)).filter((id) => id !== undefined))
        .filter((ids) => ids.length > 1);
      return { ...position, joins };
    });
  }

  #addLug(instance: Instance, lug: Omit<Lug, 'id' | 'part' | 'uses'>): LugId {
    const id = lugId(this.lugs.length);
    this.lugs.push({ ...lug, id, part: instance.part.id, uses: [] });
    instance.lugs.set(lug.name, id);
    return id;
  }
}

/** The lug of an instance that a word names, `undefined` where its type has none of that name. */
export function canonicalLug(instance: Instance, word: string): ReturnType<typeof lugNamed> {
  return instance.type === undefined ? { kind: 'lug', name: word } : lugNamed(instance.type, word, instance.view);
}

function isBoxed(instance: Instance): boolean {
  return instance.part.family === 'jack' && instance.part.properties.boxed !== undefined;
}

/** A case, frame, sleeve, star, plate or cavity has room for many wires; a cover or a lug has not. */
function takesMany(part: Draft<Part>): boolean {
  const roomy: readonly string[] = ['control', 'switch', 'jack', 'cavity', 'plate'];
  return roomy.includes(part.family) || part.ancestry.includes('star');
}

/** The type's rows with ids in them; a strip of numbered lugs lies in one row, gaps and all. */
function rowsOf(instance: Instance): (LugId | null)[][] {
  const type = instance.type;
  if (type === undefined) return [];
  if (type.rows.length > 0)
    return type.rows.map((row) => row.map((name) => (name === null ? null : (instance.lugs.get(name) ?? null))));
  if (type.numbered === undefined) return [];
  const numbers = [...instance.lugs.keys()].map(Number).filter((number) => Number.isInteger(number));
  const last = numbers.reduce((most, number) => Math.max(most, number), 0);
  const row: (LugId | null)[] = [];
  for (let number = type.numbered.from; number <= last; number++) row.push(instance.lugs.get(String(number)) ?? null);
  return row.length === 0 ? [] : [row];
}
