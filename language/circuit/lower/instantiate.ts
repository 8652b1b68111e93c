/** Makes parts of types, with the parts, wires and elements inside them. */
import { firstOf, lastOf } from '../../collections.js';
import type { SourceRange } from '../../source.js';
import { recordUse, report, type Lowering } from './lowering-state.js';
import type { Instance } from './builder.js';
import { makeElements } from './make-elements.js';
import { switchId, type Lead, type LugId, type Part, type SwitchPosition } from '../model.js';
import { ownLead, withLead } from './own-lead.js';
import { propertiesOf, valueOf, type Properties } from './part-properties.js';
import { counted } from '../phrases.js';
import type { Arguments, CompiledType, InnerEnd, PartType, PositionDefinition, View } from '../types/type-model.js';
import { PLAIN_WIRE } from '../types/wire-looks.js';

/** A circuit has at most this many parts; no instrument comes near it. */
export const MOST_PARTS_IN_ALL = 5000;
const MOST_LUGS_IN_ALL = 100_000;

/** What a part statement says of one part. */
export interface PartRequest {
  readonly name: string;
  readonly type?: CompiledType;
  readonly typeName: string;
  readonly arguments: Arguments;
  readonly view: View;
  readonly inPlace: boolean;
  readonly doc?: string;
  readonly range: SourceRange;
  readonly nameRange: SourceRange;
  readonly typeRange: SourceRange;
}

/** Makes one part; `undefined` where the circuit would grow out of all bounds, which is reported. */
export function makePart(state: Lowering, request: PartRequest): Instance | undefined {
  const { instances, lugs } = state.builder;
  if (instances.length + (request.type?.size ?? 1) > MOST_PARTS_IN_ALL || lugs.length > MOST_LUGS_IN_ALL) {
    report(
      state,
      'type',
      request.nameRange,
      `there are more than ${MOST_PARTS_IN_ALL} parts or ${MOST_LUGS_IN_ALL} lugs; this part is ignored`,
    );
    return undefined;
  }
  return make(state, request, undefined, undefined);
}

function make(state: Lowering, request: PartRequest, parent: Instance | undefined, outer: Properties | undefined): Instance {
  const { type, typeName, arguments: bindings, view, ...places } = request;
  const properties = type === undefined ? {} : propertiesOf(type, bindings, outer, state.hand);
  const part: Omit<Part, 'id' | 'lugs' | 'elements' | 'rows'> = {
    ...places,
    name: parent === undefined ? request.name : `${parent.part.name}.${request.name}`,
    type: typeName,
    ancestry: type?.ancestry ?? [typeName],
    family: type?.family ?? 'assembly',
    properties,
    ...(parent === undefined ? {} : { parent: parent.part.id }),
    ...(type === undefined ? { untyped: true } : {}),
  };
  const instance = state.builder.addPart(part, type, bindings, view);
  if (bindings.leads.length > 0) instance.part.leads = makeLeads(state, instance, bindings);
  if (type === undefined) return instance;
  if (type.elements.length > 0)
    makeElements(state.builder, instance, type, properties, state.reports.of(request.range.uri).problems);
  if (type.positions.length > 0) makePositions(state, instance, type, bindings);
  if (type.parts.length > 0 || type.joints.length > 0) makeInside(state, instance, type, properties);
  return instance;
}

function makeLeads(state: Lowering, instance: Instance, bindings: Arguments): Lead[] {
  return bindings.leads.map(({ lug, lugRange, ...looks }) => {
    const id = state.builder.lug(instance, lug);
    const definition = lugDefinition(instance, lug);
    recordUse(state, {
      kind: 'lug',
      range: lugRange,
      name: lug,
      part: instance.part.id,
      lug: id,
      ...(definition === undefined ? {} : { definition }),
    });
    return { ...looks, lug: id };
  });
}

/** Where a lug of this part is declared. */
export function lugDefinition(instance: Instance, lug: string): SourceRange | undefined {
  if (instance.type === undefined) return undefined;
  return instance.type.lugs.get(lug)?.range ?? instance.type.numbered?.range;
}

/** A switch; where its parameters leave one position, what this joins is joined for good. */
function makePositions(state: Lowering, instance: Instance, type: CompiledType, bindings: Arguments): void {
  const { properties, name } = instance.part;
  const isThere = ({ where }: PositionDefinition): boolean => where === undefined || properties[where] !== undefined;
  const there = type.positions.filter(isThere);
  if (there.length > 1 || there.length === type.positions.length) return makeSwitch(state, instance, there, bindings);
  const [label] = bindings.labels;
  if (label !== undefined) {
    const [absent] = type.positions.filter((position) => !isThere(position));
    report(state, 'property', label.range, `${name} has no positions to name without { ${absent?.where ?? ''} }`);
  }
  there.forEach(({ joins, range }) => joins.forEach((lugs) => joinForGood(state, instance, lugs, range)));
}

function joinForGood(state: Lowering, instance: Instance, names: readonly string[], range: SourceRange): void {
  const lugs = names.map((name) => state.builder.lug(instance, name));
  const [first] = lugs;
  if (first === undefined) return;
  for (const lug of lugs.slice(1))
    state.builder.join(first, lug, {
      kind: 'inside',
      holder: instance.part.id,
      form: 'solder',
      statement: state.builder.statement(),
      looks: PLAIN_WIRE,
      range,
      aRange: range,
      bRange: range,
      statementRange: range,
    });
}

function makeSwitch(state: Lowering, instance: Instance, there: readonly PositionDefinition[], bindings: Arguments): void {
  const { part, type } = instance;
  const count = positionCount(state, instance, there.length);
  const { labels } = bindings;
  if (labels.length > 0 && labels.length !== count) {
    const range: SourceRange = { ...firstOf(labels).range, end: lastOf(labels).range.end };
    report(
      state,
      'property',
      range,
      `${part.name} has ${counted(count, 'position')}, and ${labels.length} ${labels.length === 1 ? 'is' : 'are'} named`,
    );
  }
  instance.positions = there;
  const positions: SwitchPosition[] = there.slice(0, count).map((position, index) => {
    const number = index + 1;
    const label = labels[index];
    return {
      number,
      key: position.quoted ? String(number) : position.name,
      label: label?.text ?? position.name,
      joins: [],
      range: label?.range ?? position.range,
    };
  });
  labels.forEach((label) => {
    recordUse(state, { kind: 'position', range: label.range, definition: label.range, name: label.text, part: part.id }, true);
  });
  const rests = type?.positions[bindings.rest?.index ?? type.rest ?? -1];
  const rest = rests === undefined ? -1 : there.indexOf(rests);
  const driven = there.findIndex(({ drive }) => drive !== undefined);
  const drive = there[driven]?.drive;
  const id = switchId(state.builder.switches.length);
  instance.switch = id;
  state.builder.switches.push({
    id,
    part: part.id,
    name: part.name,
    positions,
    ...(rest < 0 || rest >= count ? {} : { rest }),
    ...(drive === undefined || rest < 0
      ? {}
      : {
          drive: {
            position: driven,
            a: state.builder.lug(instance, drive.a),
            b: state.builder.lug(instance, drive.b),
            eitherWay: drive.eitherWay,
          },
        }),
  });
}

/** How many positions a stop washer leaves; all where none is set. */
function positionCount(state: Lowering, instance: Instance, all: number): number {
  const property = instance.part.properties.stop;
  const stop = valueOf(property);
  if (stop === undefined || stop === all) return all;
  if (Number.isInteger(stop) && stop >= 2 && stop < all) return stop;
  report(
    state,
    'value',
    property?.range ?? instance.part.nameRange,
    `stop must leave from 2 to ${all} positions of ${instance.part.name}, not ${stop}`,
  );
  return all;
}

function makeInside(state: Lowering, instance: Instance, type: CompiledType, properties: Properties): void {
  for (const inner of type.parts) {
    const request: PartRequest = { ...inner, view: inner.arguments.view };
    instance.children.set(inner.name, make(state, request, instance, properties));
  }
  const statements = type.joints.reduce((most, joint) => Math.max(most, joint.statement + 1), 0);
  const first = state.builder.statement(statements);
  for (const joint of type.joints) {
    const a = innerLug(state, instance, joint.a);
    const b = innerLug(state, instance, joint.b);
    if (a === undefined || b === undefined) continue;
    state.builder.join(a, b, {
      kind: 'inside',
      holder: instance.part.id,
      form: joint.form,
      statement: first + joint.statement,
      looks: joint.form === 'wire' ? withLead(joint.looks, ownLead(state.builder, a, b)) : joint.looks,
      range: joint.range,
      aRange: joint.a.range,
      bRange: joint.b.range,
      statementRange: joint.statementRange,
    });
  }
}

function innerLug(state: Lowering, instance: Instance, end: InnerEnd): LugId | undefined {
  const holder: Instance | undefined = end.part === undefined ? instance : instance.children.get(end.part);
  return holder === undefined ? undefined : state.builder.lug(holder, end.lug);
}

/** What there is to say of a part that the language makes by itself. */
export interface PseudoPart {
  readonly name: string;
  readonly family: 'cavity' | 'plate' | 'screen';
  /** The name of its one lug. */
  readonly lug: string;
  readonly range: SourceRange;
  readonly nameRange: SourceRange;
  readonly doc?: string;
}

/** A part that the language makes by itself: a cavity's paint, a plate, a screen. It has one lug. */
export function makePseudoPart(state: Lowering, { name, family, lug, range, nameRange, doc }: PseudoPart): Instance {
  const part: Omit<Part, 'id' | 'lugs' | 'elements' | 'rows'> = {
    name,
    type: family,
    ancestry: [family],
    family,
    properties: {},
    inPlace: false,
    range,
    nameRange,
    ...(doc === undefined ? {} : { doc }),
  };
  return state.builder.addPart(part, pseudoType(family, lug, range, nameRange), undefined, {});
}

function pseudoType(family: 'cavity' | 'plate' | 'screen', lug: string, range: SourceRange, nameRange: SourceRange): PartType {
  return {
    name: family,
    uri: range.uri,
    range,
    nameRange,
    base: 'metal',
    family,
    ancestry: [family],
    lugs: new Map([[lug, { name: lug, optional: false, metal: true, inner: false, range: nameRange }]]),
    aliases: new Map(),
    rows: [],
    parameters: new Map(),
    positions: [],
    elements: [],
    parts: [],
    joints: [],
    isOpen: false,
    size: 1,
    depth: 1,
  };
}
