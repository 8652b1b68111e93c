/** What goes into a part statement: its type, values, words, leads, and what stands in its braces. */
import { firstOf, lastOf } from '../../../language/collections.js';
import { CompletionItemKind } from 'vscode-languageserver';
import {
  COMMON_PROPERTIES,
  ELEMENT_PROPERTIES,
  lugById,
  takesPoints,
  type Family,
  type ParameterInfo,
  type TypeInfo,
  type Unit,
  typesOf,
} from '../../../language/circuit/index.js';
import { baseWords, isSign, parseValue, type Token } from '../../../language/grammar/index.js';
import { quantityText } from '../hover/figures.js';
import { kindOfType, kindsNamed, tokensOf } from '../../../language/roles/index.js';
import { completionKindOf } from '../symbol-kinds.js';
import { braceAt } from './braces.js';
import { type CompletionContext, choices, measuredTaper, type Offer, words } from './item.js';
import { endOffers } from './lugs.js';
import { valueOffers, type Wanted } from './values.js';
import { lookOffers } from './wire.js';

export function partOffersFor(asked: CompletionContext): Offer[] {
  const { before, range } = asked;
  const colon = before.findIndex((token) => isSign(token, ':'));
  if (colon < 0) return [];
  const last = lastOf(before);
  if (isSign(last, ':'))
    return typeOffers(
      asked,
      false,
      before
        .slice(1, colon)
        .map(({ image }) => image)
        .join(' '),
    );
  const type = typesOf(asked.at.circuit).find(({ name }) => name === before[colon + 1]?.image);
  const brace = braceAt(before, range.start.line);
  if (brace !== undefined) return type === undefined ? [] : inBraces(asked, type, brace);
  const ends = before.findIndex((token, i) => i > colon + 1 && (token.image === 'from' || token.image === 'across'));
  if (ends >= 0 && !before.slice(ends).some((token) => isSign(token, '}'))) return leadOffers(asked, before.slice(ends), type);
  if (type === undefined) return [];
  return [...argumentOffers(type, before.slice(colon + 2), asked.word), ...tails(type, before)];
}

/** Types with their lugs, those first that the part's name speaks for; in the head of a type its bases as well. */
export function typeOffers({ at }: CompletionContext, withBases: boolean, partName = ''): Offer[] {
  const rank = rankByName(partName);
  const types = typesOf(at.circuit).map((type): Offer => ({
    label: type.name,
    kind: completionKindOf(type.family),
    detail: detailOf(type),
    about: { kind: 'type', uri: at.uri, name: type.name },
    rank: rank(type),
  }));
  return withBases ? [...words(baseWords, 'a base', 3), ...types] : types;
}

/** In the order in which an instrument is written: what sounds, what chooses, what is turned, the rest; one's own before the standard ones. */
const writingOrder: readonly Family[] = ['pickup', 'switch', 'control', 'passive', 'jack', 'metal'];

/** Names of the types, as they are chosen from before the part has a name that speaks for one. */
export function typeNames({ at }: CompletionContext): string[] {
  const place = ({ family, standard }: TypeInfo): number =>
    (standard ? 100 : 0) + (writingOrder.includes(family) ? writingOrder.indexOf(family) : writingOrder.length);
  return [...typesOf(at.circuit)].sort((a, b) => place(a) - place(b)).map(({ name }) => name);
}

/** Rank of a type by the part's name: one that the name names (`cap`), those it speaks for, one's own first, then the rest in the same order. */
function rankByName(partName: string): (type: TypeInfo) => number {
  const begins = tokensOf(partName).filter((word) => word.length > 2);
  const named = kindsNamed(partName);
  return (type) => {
    const kind = kindOfType(type);
    const isMeant = kind !== undefined && named.includes(kind);
    // A `bridge` is a pickup, whatever else has bridge in its name.
    const isNamed = tokensOf(type.name).some((word) => begins.some((begin) => word.startsWith(begin)));
    if (isNamed && (isMeant || named.length === 0)) return 0;
    if (isMeant && kind === named[0]) return type.standard ? 2 : 1;
    if (isMeant) return 3;
    return type.standard ? 5 : 4;
  };
}

function detailOf({ lugs, optional, numbered }: TypeInfo): string {
  const all = [...lugs, ...optional.filter((name) => numbered === undefined || !/^\d+$/.test(name)).map((name) => `(${name})`)];
  const shown = all.length > 14 ? [...all.slice(0, 13), '…'] : all;
  return [...shown, ...(numbered === undefined ? [] : [`${numbered.from} to ${numbered.to}`])].join(' ');
}

/** Bare values and words that the type takes and that are not given yet. */
export function argumentOffers(type: TypeInfo, given: readonly Token[], typed: string): Offer[] {
  const open = openParameters(type, given);
  const chosen = open.flatMap((parameter) =>
    parameter.kind === 'choice' && !isBase(parameter) ? choices(parameter.choices, parameter.name, 3) : [],
  );
  return [...valueOffers(wantedOf(type, open), typed), ...chosen];
}

/** Parameters without an argument so far: a value of their unit, one of their words, or their name in braces. */
export function openParameters(type: TypeInfo, given: readonly Token[]): ParameterInfo[] {
  const words = new Set(given.filter(({ kind }) => kind === 'word').map(({ image }) => image));
  const unitsGiven = given.flatMap(({ kind, image }) => (kind === 'value' ? [parseValue(image)?.unit] : []));
  return type.parameters.filter((parameter) => {
    if (words.has(parameter.name) || parameter.choices.some((choice) => words.has(choice))) return false;
    const index = unitsGiven.indexOf(parameter.unit);
    if (parameter.kind !== 'value' || index < 0) return true;
    unitsGiven.splice(index, 1);
    return false;
  });
}

/** Values that may stand bare: those that the type itself takes, not what every part takes. */
function wantedOf(type: TypeInfo, open: readonly ParameterInfo[]): Wanted[] {
  // A bare value goes to the first parameter of its unit.
  const isFirst = (parameter: ParameterInfo) =>
    type.parameters.find(({ unit }) => unit === parameter.unit)?.name === parameter.name;
  return open
    .filter(isFirst)
    .flatMap((parameter): Wanted[] =>
      parameter.kind !== 'value' || parameter.unit === undefined || parameter.unit === 'count' || isBase(parameter)
        ? []
        : [{ unit: parameter.unit, name: parameter.name, use: useOf(type) }],
    );
}

function isBase({ name, unit }: ParameterInfo): boolean {
  return COMMON_PROPERTIES.includes(name) || unit === 'percent';
}

function useOf({ base }: TypeInfo): Wanted['use'] {
  return base === 'pickup' || base === 'control' ? base : 'part';
}

/** What may follow the values. */
function tails(type: TypeInfo, before: readonly Token[]): Offer[] {
  if (before.some((token) => isSign(token, '}'))) return [];
  const leads: Offer[] =
    type.leads === undefined
      ? []
      : [
          {
            label: 'from',
            kind: CompletionItemKind.Keyword,
            detail: `from LUG to LUG: ${type.leads.join(' to ')} in place`,
            rank: 6,
          },
          { label: 'across', kind: CompletionItemKind.Keyword, detail: 'across LUG and LUG', rank: 6 },
        ];
  return [
    ...leads,
    { label: '{ }', kind: CompletionItemKind.Snippet, text: '{ $0 }', isSnippet: true, detail: 'properties', rank: 6 },
  ];
}

function leadOffers(asked: CompletionContext, since: readonly Token[], type: TypeInfo | undefined): Offer[] {
  const joiner = firstOf(since).image === 'from' ? 'to' : 'and';
  const last = lastOf(since);
  if (since.length === 1 || last.image === joiner || isSign(last, '.')) return endOffers(asked);
  const isSecond = since.slice(1).some(({ image }) => image === joiner);
  return isSecond
    ? type === undefined
      ? []
      : tails(type, asked.before).filter(({ label }) => label === '{ }')
    : words([joiner]);
}

/** In braces: names of properties, and behind a name what it may be. */
function inBraces(
  asked: CompletionContext,
  type: TypeInfo,
  { name, values, given }: NonNullable<ReturnType<typeof braceAt>>,
): Offer[] {
  if (name === undefined) return propertyOffers(type, new Set(given));
  const parameter = type.parameters.find((one) => one.name === name);
  if (parameter?.kind === 'choice' && values.length === 0)
    return [...choices(parameter.choices, name), ...(takesPoints(parameter.choices) ? [measuredTaper] : [])];
  const unit = parameter === undefined || values.length > 0 ? undefined : unitOf(type, parameter);
  if (unit !== undefined) return valueOffers([{ unit, name, use: useOf(type) }], asked.word);
  if (name === 'rest' && type.positions.length > 0 && values.length === 0)
    return choices(
      type.positions.map((position) => position.name),
      'position',
    );
  if (name === 'seen' && values.length === 0) return choices(['front', 'back'], 'side seen in the diagram');
  if (name === 'lugs' && values.length === 0) return choices(['down', 'up'], 'orientation of the lugs in the diagram');
  if (name === 'lead') {
    if (values.length === 0) return leadLugs(asked, type);
    const alike = coloursAsElsewhere(asked, type, values);
    return [...alike, ...lookOffers(values, asked.word).filter(({ label }) => !alike.some((offer) => offer.label === label))];
  }
  return [];
}

/** The unit of a parameter's value; one without a default is of the unit that a coil takes. */
function unitOf(type: TypeInfo, { name, kind, unit }: ParameterInfo): Unit | undefined {
  if (kind === 'value') return unit;
  return kind === 'free' && type.base === 'pickup' ? ELEMENT_PROPERTIES.coil[name]?.unit : undefined;
}

/** Lugs of the type that no lead of this part has yet. */
function leadLugs({ before }: CompletionContext, type: TypeInfo): Offer[] {
  const given = before.filter((_, i) => before[i - 1]?.image === 'lead').map(({ image }) => image);
  return [...type.lugs, ...type.optional]
    .filter((label) => !given.includes(label))
    .map((label) => ({ label, kind: CompletionItemKind.Field, detail: 'its lead' }));
}

/** The colour that the lead of this lug has on another part of the type: pickups of one make are coloured alike. */
function coloursAsElsewhere({ at: { circuit } }: CompletionContext, type: TypeInfo, [lug, ...look]: readonly Token[]): Offer[] {
  if (look.length > 0) return [];
  const found = circuit.parts
    .filter((part) => part.type === type.name)
    .flatMap((part) =>
      (part.leads ?? []).flatMap(({ lug: id, colour }): Offer[] =>
        colour !== undefined && lugById(circuit, id).name === lug?.image
          ? [{ label: colour, kind: CompletionItemKind.Color, detail: `as on ${part.name}`, rank: 2 }]
          : [],
      ),
    );
  return found.filter(({ label }, i) => found.findIndex((other) => other.label === label) === i);
}

function propertyOffers(type: TypeInfo, given: ReadonlySet<string>): Offer[] {
  const parameters = type.parameters.map((parameter) => propertyOffer(parameter));
  const more: Offer[] = [
    {
      label: 'lead',
      kind: CompletionItemKind.Property,
      text: 'lead ',
      detail: 'one of its own leads: lead hot white 300mm',
      rank: 6,
    },
  ];
  if (type.positions.length > 0) {
    const names = type.positions.map(({ name }, i) => `"\${${i + 1}:${name}}"`).join(' ');
    more.push({
      label: 'positions',
      kind: CompletionItemKind.Property,
      text: `positions ${names}`,
      isSnippet: true,
      detail: 'names of its positions',
      rank: 3,
    });
  }
  if (type.rest !== undefined)
    more.push({ label: 'rest', kind: CompletionItemKind.Property, text: 'rest ', detail: 'resting position', rank: 6 });
  if (type.base === 'control' && type.shafts.length === 0)
    more.push({
      label: 'seen',
      kind: CompletionItemKind.Property,
      text: 'seen ',
      detail: 'side seen in the diagram: front, back',
      rank: 6,
    });
  const seen = new Set<string>();
  return [...parameters, ...more].filter(
    ({ label }) => (label === 'lead' || !given.has(label)) && !seen.has(label) && seen.add(label),
  );
}

function propertyOffer(parameter: ParameterInfo): Offer {
  const { name, kind, value, doc } = parameter;
  const isCommon = isBase(parameter);
  const detail =
    kind === 'choice'
      ? parameter.choices.join(', ')
      : kind === 'value' && value !== undefined
        ? quantityText({ ...value, tolerance: 0 })
        : '';
  return {
    label: name,
    kind: CompletionItemKind.Property,
    text: kind === 'free' ? name : `${name} `,
    detail,
    rank: isCommon ? 6 : 4,
    ...(doc === undefined ? {} : { docs: doc }),
  };
}
