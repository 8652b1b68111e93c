/** What goes into a type: its base, and in its body lugs, positions, elements and their properties. */
import { lastOf } from '../../../language/collections.js';
import { CompletionItemKind } from 'vscode-languageserver';
import { isSign } from '../../../language/grammar/index.js';
import { ELEMENT_PROPERTIES, takesPoints, typesOf } from '../../../language/circuit/index.js';
import { braceAt } from './braces.js';
import { choices, measuredTaper, words, type CompletionContext, type Offer } from './item.js';
import { ownLugs } from './lugs.js';
import { typeOffers } from './part.js';
import { valueOffers } from './values.js';

export function typeHeadOffers(asked: CompletionContext): Offer[] {
  const last = lastOf(asked.before);
  return isSign(last, ':') ? typeOffers(asked, true).filter(({ label }) => label !== asked.before[1]?.image) : [];
}

/** A statement of a body that has no form outside of types. */
export function bodyOffers(asked: CompletionContext): Offer[] {
  const { head, before } = asked;
  const last = lastOf(before);
  const unnamed = () => ownLugs(asked).filter(({ label }) => !before.some(({ image }) => image === label));
  switch (head) {
    case 'metal':
      return unnamed();
    case 'rows':
      return [...unnamed(), ...words(['/', '-'], 'next row, empty place', 6)];
    case 'takes':
      return takesOffers(asked);
    case 'at':
      if (before.length === 1) return positions(asked);
      if (last.image === 'where') return givenParameters(asked);
      if (before.length === 2) return words(['joins', 'where']);
      return before.length === 4 && before[2]?.image === 'where' ? words(['joins']) : ownLugs(asked);
    case 'rest':
      return before.length === 1 ? positions(asked) : [];
    case 'also':
      return last.image === 'for' ? ownLugs(asked) : before.length === 2 ? words(['for']) : [];
    default:
      return head !== undefined && head in ELEMENT_PROPERTIES
        ? elementOffers(asked, head as keyof typeof ELEMENT_PROPERTIES)
        : [];
  }
}

/** Parameters without a default, which a part gives or leaves out. */
function givenParameters(asked: CompletionContext): Offer[] {
  const type = asked.at.tree.statements.find((one) => one.kind === 'type' && one.line === asked.type?.line);
  if (type?.kind !== 'type') return [];
  const free = type.body
    .flatMap((one) => (one.kind === 'takes' ? one.parameters : []))
    .filter(({ value, choices }) => value === undefined && choices.length === 0);
  return words(free.map(({ name }) => name.text));
}

function positions(asked: CompletionContext): Offer[] {
  const type = asked.at.tree.statements.find((one) => one.kind === 'type' && one.line === asked.type?.line);
  if (type?.kind !== 'type') return [];
  const declared = type.body.flatMap((one) => (one.kind === 'positions' ? one.names : []));
  const inherited = typesOf(asked.at.circuit).find(({ name }) => name === asked.type?.base)?.positions ?? [];
  const names =
    declared.length > 0
      ? declared.map(({ kind, text }) => (kind === 'string' ? `"${text}"` : text))
      : inherited.map(({ name }) => name);
  return names.map((label) => ({ label, text: label, kind: CompletionItemKind.EnumMember, detail: 'position' }));
}

/** Parameters that the elements of a base can use, in their usual form. */
const usualParameters: Readonly<Record<'pickup' | 'other', Readonly<Record<string, string>>>> = {
  pickup: {
    resistance: '6.5k',
    inductance: '2.6H',
    capacitance: '110pF',
    wound: 'forward|reverse',
    magnet: 'north|south',
  },
  other: { resistance: '250k', capacitance: '22nF', taper: 'linear|audio|reverse-audio' },
};

const unitOf: Readonly<Record<string, 'ohm' | 'henry' | 'farad'>> = {
  resistance: 'ohm',
  inductance: 'henry',
  capacitance: 'farad',
};

function takesOffers({ before, word, type }: CompletionContext): Offer[] {
  const isPickup = type?.base === 'pickup';
  const forms = usualParameters[isPickup ? 'pickup' : 'other'];
  const commas = before.map((token) => isSign(token, ','));
  const [name, ...said] = before.slice(Math.max(1, commas.lastIndexOf(true) + 1));
  if (name === undefined) {
    return Object.entries(forms).map(([label, form]) => {
      const text = `${label} ${form}`;
      return { label, text, kind: CompletionItemKind.Property, detail: text };
    });
  }
  if (said.length > 0 && !isSign(said[said.length - 1], '|')) return [];
  const form = forms[name.image];
  if (form?.includes('|') === true) return choices(form.split('|'), name.image);
  const unit = unitOf[name.image];
  return unit === undefined ? [] : valueOffers([{ unit, name: name.image, use: isPickup ? 'pickup' : 'part' }], word);
}

function elementOffers(asked: CompletionContext, kind: keyof typeof ELEMENT_PROPERTIES): Offer[] {
  const { before, word, at, type, range } = asked;
  const wanted = ELEMENT_PROPERTIES[kind];
  const brace = braceAt(before, range.start.line);
  if (brace === undefined) {
    const last = lastOf(before);
    const isEnd = ['from', 'to', 'wiper'].includes(last.image) && before.length > 1;
    if (isEnd) return ownLugs(asked);
    const next = !before.some(({ image }) => image === 'from')
      ? 'from'
      : !before.some(({ image }) => image === 'to')
        ? 'to'
        : undefined;
    if (next !== undefined) return words([next]);
    const wiper = kind === 'track' && !before.some(({ image }) => image === 'wiper') ? words(['wiper']) : [];
    return [...wiper, { label: '{ }', kind: CompletionItemKind.Snippet, text: '{ $0 }', isSnippet: true, detail: 'properties' }];
  }
  if (brace.name === undefined) {
    return Object.entries(wanted)
      .filter(([name]) => !brace.given.includes(name))
      .map(([name, { example, required }]) => ({
        label: name,
        text: `${name} `,
        kind: CompletionItemKind.Property,
        detail: `${name} ${example}`,
        rank: required === true ? 3 : 5,
      }));
  }
  const property = wanted[brace.name];
  if (property === undefined || brace.values.length > 0) return [];
  const own = typesOf(at.circuit).find(({ name }) => name === type?.name)?.parameters ?? [];
  // A property may follow a parameter of the type.
  const follows = own
    .filter(({ name }) => name === brace.name)
    .map(({ name }): Offer => ({ label: name, kind: CompletionItemKind.Variable, detail: 'as defined by the type', rank: 3 }));
  if (property.lug === true) return ownLugs(asked);
  if (property.words !== undefined)
    return [...follows, ...choices(property.words, brace.name), ...(takesPoints(property.words) ? [measuredTaper] : [])];
  return property.unit === undefined
    ? follows
    : [
        ...follows,
        ...valueOffers(
          [{ unit: property.unit, name: brace.name, use: kind === 'coil' ? 'pickup' : kind === 'track' ? 'control' : 'part' }],
          word,
        ),
      ];
}
