/** What goes into a wire or a direct joint: its ends, and how the wire looks. */
import { lastOf } from '../../../language/collections.js';
import { CompletionItemKind } from 'vscode-languageserver';
import { colours, isSign, parseColour, parseValue, type Token } from '../../../language/grammar/index.js';
import { words, type CompletionContext, type Offer } from './item.js';
import { endOffers } from './lugs.js';
import { valueOffers, type Wanted } from './values.js';

export function wireOffers(asked: CompletionContext): Offer[] {
  const { before, head } = asked;
  const last = lastOf(before);
  const isJoiner = before.length > 1 && (last.image === 'to' || last.image === 'and') && !isSign(before[before.length - 2], '.');
  if (before.length === 1 || isJoiner || isSign(last, '.')) return endOffers(asked);
  if (last.image === 'no') return [];
  if (last.image === 'screen') return words(['to']);
  const joined = before.some(({ image }, i) => i > 1 && image === 'to');
  const runs = words(['to'], 'another end', 3);
  if (!joined || head === 'solder') return runs;
  const screen = before.some(({ image }) => image === 'screen');
  return [...(screen ? words(['and'], 'the screen’s other end') : runs), ...lookOffers(before, asked.word)];
}

const wanted: readonly Wanted[] = [
  { unit: 'awg', name: 'gauge', use: 'wire' },
  { unit: 'metre', name: 'length', use: 'wire' },
];

/** Colours by name and IEC letters, gauges, lengths and the words for a wire; what is said already is left out. */
export function lookOffers(said: readonly Token[], typed: string): Offer[] {
  const units = said.map(({ kind, image }) => (kind === 'value' ? parseValue(image)?.unit : undefined));
  const hasColour = said.some(({ kind, image }) => kind === 'word' && parseColour(image) !== undefined);
  const spoken = new Set(said.map(({ image }) => image));
  const named = hasColour
    ? []
    : colours.flatMap(({ name, code }): Offer[] => [
        { label: name, kind: CompletionItemKind.Color, detail: code, docs: `IEC 60757: ${code}`, rank: 4 },
        { label: code, kind: CompletionItemKind.Color, detail: name, rank: 7 },
      ]);
  const flags: Offer[] = [
    { label: 'bare', kind: CompletionItemKind.Keyword, detail: 'without insulation', rank: 6 },
    { label: 'twisted', kind: CompletionItemKind.Keyword, detail: 'with its return', rank: 6 },
    { label: 'shielded', kind: CompletionItemKind.Keyword, detail: 'with a screen', rank: 6 },
    { label: 'solid', kind: CompletionItemKind.Keyword, detail: 'of one conductor', rank: 7 },
    { label: 'stranded', kind: CompletionItemKind.Keyword, detail: 'of many thin conductors', rank: 7 },
    { label: 'cloth', kind: CompletionItemKind.Keyword, detail: 'covered with cloth', rank: 7 },
    { label: 'braided', kind: CompletionItemKind.Keyword, detail: 'in a metal braid', rank: 7 },
    { label: 'no', kind: CompletionItemKind.Keyword, text: 'no ', detail: 'its number in the cut list: no 12', rank: 6 },
    {
      label: 'screen',
      kind: CompletionItemKind.Keyword,
      text: 'screen to ',
      detail: 'where its screen is connected: screen to LUG',
      rank: 6,
    },
  ];
  const values = valueOffers(
    wanted.filter(({ unit }) => !units.includes(unit)),
    typed,
  );
  return [...named, ...flags.filter(({ label }) => !spoken.has(label)), ...values.map((offer) => ({ ...offer, rank: 5 }))];
}
