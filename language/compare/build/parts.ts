/** Parts that are new, gone, called otherwise, or of another type, value, contact or place. */
import { amount, type LugId } from '../../circuit/index.js';
import {
  type Band,
  type TaperPoint,
  elementById,
  lugById,
  partById,
  switchById,
  type Circuit,
  type Part,
  type PartId,
  type Property,
  type Switch,
} from '../../circuit/model.js';
import { quantityText, writeDistinct } from '../amounts.js';
import type { PartChange } from '../change.js';
import { contactsKey, elementKey, elementValues, itemTexts } from '../heard/electrical.js';
import type { Match } from '../match/match.js';

export function compareParts(before: Circuit, after: Circuit, match: Match): readonly PartChange[] {
  const { parts } = match;
  return [
    ...before.parts
      .filter(({ id }) => isListed(before, id))
      .flatMap((part) => {
        const now = parts.to.get(part.id);
        return now === undefined ? [removed(before, part)] : changes(before, after, part, partById(after, now), match);
      }),
    ...after.parts.filter(({ id }) => !parts.from.has(id) && isListed(after, id)).map((part) => added(after, part)),
  ];
}

/** Cavities and plates are reported as places, screens with their wires, what is inside an assembly that comes or goes with it. */
function isListed(circuit: Circuit, id: PartId): boolean {
  return !['cavity', 'plate', 'screen'].includes(partById(circuit, id).family);
}

function added(circuit: Circuit, part: Part): PartChange {
  const ends = leadsOf(circuit, part).map((lug) => lugById(circuit, lug).label);
  const where = ends.length === 0 ? '' : `, ${ends.join(' to ')}`;
  return {
    kind: 'new',
    what: 'part',
    name: part.name,
    says: `new part ${part.name} (${given(part)})${where}`,
    after: part.range,
    part: { after: part.id },
  };
}

function removed(circuit: Circuit, part: Part): PartChange {
  return {
    kind: 'gone',
    what: 'part',
    name: part.name,
    says: `part ${part.name} (${given(part)}) is gone`,
    before: part.range,
    part: { before: part.id },
  };
}

/** Where a part that is soldered in place is soldered, in the order of its statement. */
export function leadsOf(circuit: Circuit, part: Part): readonly LugId[] {
  if (!part.inPlace) return [];
  const own = new Set(part.lugs);
  return circuit.joints
    .filter(({ kind, statementRange }) => kind === 'solder' && isSame(statementRange, part.range))
    .flatMap(({ a, b }) => (own.has(a) ? [b] : own.has(b) ? [a] : []));
}

function isSame(a: Part['range'], b: Part['range']): boolean {
  return a.uri === b.uri && a.start.line === b.start.line && a.start.character === b.start.character;
}

const bare = ['resistance', 'inductance', 'capacitance', 'taper', 'kind'];

/** `capacitor 680 pF film`: the type with what is written behind it. */
export function given(part: Part): string {
  const written = Object.entries(part.properties).filter(([, property]) => property.range !== undefined);
  const plain = written.filter(([name]) => bare.includes(name)).map(([, property]) => propertyText(property));
  const named = written.filter(([name]) => !bare.includes(name)).map(([name, property]) => `${name} ${propertyText(property)}`);
  return [[part.type, ...plain].join(' '), ...named].join(', ');
}

function propertyText(property: Property, withTolerance = false, digits = 3): string {
  return 'words' in property ? property.words.join(' ') : quantityText(property, withTolerance, digits);
}

function changes(before: Circuit, after: Circuit, old: Part, now: Part, match: Match): PartChange[] {
  const item = (what: PartChange['what'], says: string): PartChange => ({
    kind: 'changed',
    what,
    name: now.name,
    says,
    before: old.range,
    after: now.range,
    part: { before: old.id, after: now.id },
  });
  const isOtherType = old.type !== now.type;
  const values = propertyChanges(old, now, isOtherType);
  const elements = isOtherType || values.length > 0 ? [] : elementChanges(before, after, old, match);
  return [
    ...(match.renamed(old.name) !== old.name && old.parent === undefined
      ? [item('name', `${old.name} is now called ${now.name}`)]
      : []),
    ...(isOtherType ? [item('type', `${now.name}: type ${old.type} becomes ${now.type}`)] : []),
    ...[...values, ...elements].map((says) => item('value', `${now.name}: ${says}`)),
    ...(isOtherType ? [] : contactChanges(before, after, old, match).map(({ what, says }) => item(what, `${now.name}: ${says}`))),
    ...leadChanges(before, after, old, now).map((says) => item('leads', `${now.name}: ${says}`)),
    ...placeChange(old, now).map((says) => item('place', `${now.name}: ${says}`)),
    ...(isOtherType || insideKey(before, old, (lug) => match.lugs.to.get(lug)) === insideKey(after, now, (lug) => lug)
      ? []
      : [item('inside', `${now.name}: its internal connections changed`)]),
  ];
}

/** Values and words by name. Of another type only what is written on either side is held against each other. */
function propertyChanges(old: Part, now: Part, isOtherType: boolean): readonly string[] {
  const names = [...new Set([...Object.keys(old.properties), ...Object.keys(now.properties)])];
  // The tolerance that holds for all values of a part is reported once, under its own name.
  const isCommon = keyOf(old.properties['tolerance']) !== keyOf(now.properties['tolerance']);
  return names.flatMap((name) => {
    const [was, is] = [old.properties[name], now.properties[name]];
    if (name === 'positions' || (isOtherType && (was === undefined || is === undefined) && (was ?? is)?.range === undefined))
      return [];
    if (keyOf(was, !isCommon) === keyOf(is, !isCommon)) return [];
    const differs = was !== undefined && is !== undefined && keyOf(was) === keyOf(is);
    const [text, other] = writeDistinct((digits) => [
      was === undefined ? 'none' : propertyText(was, differs, digits),
      is === undefined ? 'none' : propertyText(is, differs, digits),
    ]);
    return text === other ? [] : [`${name} ${text} becomes ${other}`];
  });
}

function keyOf(property: Property | undefined, withTolerance = false): string {
  if (property === undefined) return '';
  if ('words' in property) return property.words.join('\n');
  return `${property.known ? property.value : '?'} ${property.unit}${withTolerance ? ` ${property.tolerance}` : ''}`;
}

/** Values that a type of one's own gives its elements, which no property tells. */
function elementChanges(before: Circuit, after: Circuit, old: Part, { elements }: Match): readonly string[] {
  return old.elements.flatMap((id) => {
    const [was, partner] = [elementById(before, id), elements.to.get(id)];
    if (partner === undefined) return [];
    const is = elementById(after, partner);
    if (elementKey(was) === elementKey(is)) return [];
    const name = was.name === '' ? was.kind : `${was.kind} ${was.name}`;
    const earlier = new Map(elementValues(was));
    const values = elementValues(is).flatMap(([key, value]) => {
      const other = earlier.get(key);
      const [text, now] = writeDistinct((digits) => [valueText(other, digits), valueText(value, digits)]);
      return text === now ? [] : [`${spelt(key)} ${text} becomes ${now}`];
    });
    return [`${name}: ${values.length === 0 ? 'other values' : values.join(', ')}`];
  });
}

/** `lossExponent` as a text says it, `loss-exponent`. */
function spelt(key: string): string {
  return key.replace(/[A-Z]/gu, (letter) => `-${letter.toLowerCase()}`);
}

function valueText(value: unknown, digits: number): string {
  if (typeof value === 'object' && value !== null && 'unit' in value)
    return quantityText(value as Parameters<typeof quantityText>[0], true, digits);
  if (Array.isArray(value)) return itemTexts(value as readonly (Band | TaperPoint)[]).join(', ');
  return value === undefined ? 'none' : String(value);
}

function contactChanges(
  before: Circuit,
  after: Circuit,
  old: Part,
  { switches, lugs }: Match,
): readonly { readonly what: 'contacts' | 'position'; readonly says: string }[] {
  return before.switches
    .filter(({ part }) => part === old.id)
    .flatMap((device) => {
      const partner = switches.to.get(device.id);
      if (partner === undefined) return [];
      const now = switchById(after, partner);
      return device.positions
        .flatMap((position, index) => {
          const other = now.positions[index];
          if (other === undefined) return [{ what: 'contacts' as const, says: `position ${position.number} is gone` }];
          const named =
            position.label === other.label
              ? []
              : [
                  {
                    what: 'position' as const,
                    says: `position ${position.number} ${quoted(position)} is now called ${quoted(other)}`,
                  },
                ];
          const isSameContact = contactsKey(position.joins, (lug) => lugs.to.get(lug)) === contactsKey(other.joins, (lug) => lug);
          const joins = isSameContact
            ? []
            : [
                {
                  what: 'contacts' as const,
                  says: `position ${position.number} joins ${describeContacts(after, other)} instead of ${describeContacts(before, position)}`,
                },
              ];
          return [...named, ...joins];
        })
        .concat(
          now.positions.slice(device.positions.length).map((position) => ({
            what: 'contacts' as const,
            says: `new position ${position.number}, ${describeContacts(after, position)}`,
          })),
        );
    });
}

function quoted({ label, key }: Switch['positions'][number]): string {
  return label === key ? label : `"${label}"`;
}

function describeContacts(circuit: Circuit, { joins }: Switch['positions'][number]): string {
  return joins.map((group) => group.map((lug) => lugById(circuit, lug).name).join(' ')).join(', ') || 'nothing';
}

function leadChanges(before: Circuit, after: Circuit, old: Part, now: Part): readonly string[] {
  const texts = (circuit: Circuit, part: Part): ReadonlyMap<string, string> =>
    new Map(
      (part.leads ?? []).map(({ lug, colour, gauge, length, shielded, make = [] }) => [
        lugById(circuit, lug).name,
        [
          colour,
          gauge === undefined ? undefined : amount(gauge, 'awg'),
          length === undefined ? undefined : amount(length, 'metre'),
          shielded && !make.includes('braided') ? 'shielded' : undefined,
          ...make,
        ]
          .filter(Boolean)
          .join(' ') || 'plain',
      ]),
    );
  const [was, is] = [texts(before, old), texts(after, now)];
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((lug) =>
    was.get(lug) === is.get(lug) ? [] : [`lead ${lug} ${was.get(lug) ?? 'not given'} becomes ${is.get(lug) ?? 'not given'}`],
  );
}

function placeChange(old: Part, now: Part): readonly string[] {
  const text = ({ plate, cavity, at }: Part): string => {
    const where = plate !== undefined ? `on ${plate}` : cavity !== undefined ? `in ${cavity}` : 'no place';
    return at === undefined
      ? where
      : `${where} at ${Number((at.x * 1000).toPrecision(4))} ${Number((at.y * 1000).toPrecision(4))}`;
  };
  return text(old) === text(now) ? [] : [`${text(old)} becomes ${text(now)}`];
}

/** Joints that a type makes inside its part. */
function insideKey(circuit: Circuit, part: Part, as: (lug: LugId) => LugId | undefined): string {
  const own = new Set(part.lugs);
  return circuit.joints
    .filter(({ kind, a, b }) => kind === 'inside' && (own.has(a) || own.has(b)))
    .map(({ a, b }) => [as(a) ?? -1, as(b) ?? -1].sort((x, y) => x - y).join('~'))
    .sort()
    .join(' ');
}
