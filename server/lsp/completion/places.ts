/** What goes into statements about places, files, the instrument and its rig, and what is set aside. */
import { lastOf } from '../../../language/collections.js';
import { CompletionItemKind } from 'vscode-languageserver';
import { rules } from '../../../language/checks/index.js';
import { isSign } from '../../../language/grammar/index.js';
import { braceAt } from './braces.js';
import { braces, choices, words, type CompletionContext, type Offer } from './item.js';
import { lugsOf, ownerOf, partOffers } from './lugs.js';
import { valueOffers } from './values.js';

export function cavityOffers({ before }: CompletionContext): Offer[] {
  if (before.length < 2) return [];
  if (lastOf(before).image === 'depth') return lengths(['38mm', '45mm']);
  return words(['shield', 'depth'].filter((word) => !before.slice(2).some(({ image }) => image === word)));
}

export function channelOffers(asked: CompletionContext): Offer[] {
  const { before, word } = asked;
  const last = lastOf(before);
  if (before.length === 1 || last.image === 'to') return cavities(asked);
  if (before.length === 2) return words(['to']);
  if (last.image === 'bore') return lengths(['6mm', '8mm']);
  if (word !== '') return valueOffers([{ unit: 'metre', name: 'length', use: 'other' }], word);
  return before.some(({ image }) => image === 'bore') ? [] : words(['bore'], 'its width: bore 6mm');
}

export function plateOffers(asked: CompletionContext): Offer[] {
  const { before, at, range } = asked;
  const last = lastOf(before);
  if (last.image === 'in') return cavities(asked);
  if (before.length === 2) return words(['in']);
  if (before.length < 3) return [];
  if (last.image === 'size' || before.at(-2)?.image === 'size') return [];
  const brace = braceAt(before, range.start.line);
  if (brace === undefined) {
    const more = words(['metal', 'shield', 'thick', 'size'].filter((one) => !before.some(({ image }) => image === one)));
    return [
      ...more,
      { label: '{ }', kind: CompletionItemKind.Snippet, text: '{ $0 }', isSnippet: true, detail: 'parts mounted on it' },
    ];
  }
  if (brace.name !== undefined) return brace.values.length === 0 ? words(['at'], 'at X Y, from the plate’s corner') : [];
  return partOffers(at.circuit, ({ name, family }) => !brace.given.includes(name) && family !== 'plate' && family !== 'cavity');
}

export function placeOffers(asked: CompletionContext): Offer[] {
  const { before, at } = asked;
  const last = lastOf(before);
  if (last.image === 'in') return cavities(asked);
  if (before.length === 1 || isSign(last, ','))
    return partOffers(at.circuit, ({ family }) => family !== 'plate' && family !== 'cavity');
  if (last.image === 'at') return [];
  return words([before.some(({ image }) => image === 'in') ? 'at' : 'in']);
}

export function useOffers({ paths }: CompletionContext): Offer[] {
  return paths.map((path) => ({ label: path, text: `"${path}"`, kind: CompletionItemKind.File }));
}

export function instrumentOffers({ before, range }: CompletionContext): Offer[] {
  const brace = braceAt(before, range.start.line);
  if (brace === undefined) return before.length < 2 ? [] : [braces];
  if (brace.name === 'hand') return choices(['right', 'left'], 'hand');
  if (brace.name === 'seen') return choices(['front', 'back'], 'side seen in the diagram');
  if (brace.name === 'scale') return values(['648mm', '628mm', '864mm']);
  if (brace.name === 'tuning') return values(['"E2 A2 D3 G3 B3 E4"', '"E1 A1 D2 G2"']);
  if (brace.name !== undefined) return [];
  return properties([
    ['batch', 'number of identical instruments'],
    ['hand', 'turn every pot to the left unless it says otherwise'],
    ['seen', 'side seen in the diagram'],
    ['scale', 'length of the open strings, for the response of a string'],
    ['tuning', 'notes of the open strings, for the response of a string'],
  ]).filter(({ label }) => !brace.given.includes(label));
}

export function buildOffers({ before, range }: CompletionContext): Offer[] {
  const brace = braceAt(before, range.start.line);
  if (brace === undefined) return [braces];
  const usual = buildDefaults[brace.name ?? ''];
  if (usual !== undefined) return values([usual]);
  return properties(
    Object.entries(buildDefaults).map(([name, value]): [string, string] => [name, `workshop setting: ${name} ${value}`]),
  ).filter(({ label }) => !brace.given.includes(label));
}

/** What holds where nothing is said, as it is written. */
const buildDefaults: Readonly<Record<string, string>> = {
  slack: '20mm',
  lift: '50mm',
  strip: '6mm',
  step: '5mm',
  crossing: '50mm',
  depth: '35mm',
  gauge: '22awg',
  fill: '60%',
  shielded: '2.2mm',
  lead: '1.6mm',
  cable: '3.5mm',
  sleeve: '12mm',
  spares: '1',
  ends: '4',
  'case-ends': '2',
  nut: '3mm',
  knob: '8mm',
  'pickup-tolerance': '5%',
  meter: '1%',
  temperature: '5',
  'shielded-capacitance': '150pF',
  first: 'signal',
  leads: 'first',
  from: 'jack',
};

export function recordOffers({ before, range }: CompletionContext): Offer[] {
  const brace = braceAt(before, range.start.line);
  if (brace === undefined) return [braces];
  if (brace.name !== undefined) return [];
  return properties([
    ['by', 'who did the work'],
    ['date', 'when it was done'],
    ['changed', 'what was changed, for the player to read'],
    ['before', 'a reading from before the work'],
    ['done', 'key of a finished step'],
  ]).filter(({ label }) => (label !== 'by' && label !== 'date') || !brace.given.includes(label));
}

export function actualOffers({ at, before }: CompletionContext): Offer[] {
  if (before.length > 1) return [braces];
  return partOffers(at.circuit, ({ family, parent }) => family !== 'plate' && family !== 'cavity' && parent === undefined);
}

export function rigOffers({ before, word, range }: CompletionContext): Offer[] {
  const brace = braceAt(before, range.start.line);
  if (brace === undefined) return [braces];
  if (brace.name === 'cable')
    return word === ''
      ? values(['500pF', '700pF', '1nF', '3m', '6m'])
      : valueOffers(
          [
            { unit: 'farad', name: 'cable', use: 'other' },
            { unit: 'metre', name: 'cable', use: 'other' },
          ],
          word,
        );
  if (brace.name === 'input')
    return word === '' ? values(['1M', '500k', '10M']) : valueOffers([{ unit: 'ohm', name: 'input', use: 'other' }], word);
  return properties([
    ['cable', 'capacitance or length of the lead: cable 500pF, cable 3m'],
    ['input', 'input resistance of the amplifier, and its capacitance if known: input 1M 100pF'],
  ]).filter(({ label }) => !brace.given.includes(label));
}

export function allowOffers(asked: CompletionContext): Offer[] {
  const { before, at } = asked;
  const last = lastOf(before);
  if (before.length === 1) {
    return rules.map(({ id, summary }) => ({
      label: id,
      kind: CompletionItemKind.EnumMember,
      detail: summary,
      about: { kind: 'rule', name: id },
    }));
  }
  const owner = ownerOf(before);
  if (owner !== undefined) return lugsOf(asked, owner);
  if (last.image === 'on') return partOffers(at.circuit, () => true);
  const why: Offer = { label: '"why"', text: '"${1:why}"', isSnippet: true, kind: CompletionItemKind.Text, detail: 'the reason' };
  return before.some(({ image }) => image === 'on') ? [why] : [...words(['on'], 'a part or a lug'), why];
}

function cavities({ at, before }: CompletionContext): Offer[] {
  const named = new Set(before.map(({ image }) => image));
  return at.circuit.cavities
    .filter(({ name }) => !named.has(name))
    .map(({ name, shielded }) => ({
      label: name,
      kind: CompletionItemKind.Folder,
      detail: shielded ? 'shielded cavity' : 'cavity',
    }));
}

function properties(list: readonly (readonly [string, string])[]): Offer[] {
  return list.map(([label, detail]) => ({ label, text: `${label} `, kind: CompletionItemKind.Property, detail }));
}

function lengths(list: readonly string[]): Offer[] {
  return values(list);
}

function values(list: readonly string[]): Offer[] {
  return list.map((label) => ({ label, kind: CompletionItemKind.Value }));
}
