/** A comparison as lines of plain text: the summary, then a section for each kind of change. */
import { append, getOrCreate } from '../collections.js';
import type { Change, ExpectationChange, FindingChange, Kind } from './change.js';

export interface ChangeSection {
  readonly title: string;
  readonly lines: readonly { readonly mark: string; readonly says: string }[];
}

/** `+` new, `-` gone, `>` moved, `~` otherwise. */
export const marks: Readonly<Record<Kind, string>> = { new: '+', gone: '-', moved: '>', changed: '~' };

/** The sections that have something to tell; rows of positions that tell the same are one line. */
export function changeSections(change: Change): readonly ChangeSection[] {
  const marked = (items: readonly { readonly kind: Kind; readonly says: string }[]): ChangeSection['lines'] =>
    items.map(({ kind, says }) => ({ mark: marks[kind], says }));
  const plain = (items: readonly { readonly says: string }[]): ChangeSection['lines'] =>
    items.map(({ says }) => ({ mark: '', says }));
  const sections: ChangeSection[] = [
    { title: 'not read', lines: plain(change.unread) },
    { title: 'instrument', lines: marked(change.instrument) },
    { title: 'parts', lines: marked(change.parts) },
    { title: 'wires', lines: marked(change.wires) },
    { title: 'positions', lines: positionLines(change.positions) },
    { title: 'lost', lines: change.lost.map((name) => ({ mark: '', says: `${name} is not heard in any position now` })) },
    { title: 'controls', lines: plain(change.controls) },
    { title: 'expectations', lines: plain(change.expectations) },
    { title: 'record', lines: marked(change.records) },
    { title: 'set aside', lines: plain(change.allows) },
    { title: 'findings', lines: [...marked(change.findings.map(withKind)), ...omittedLine(change)] },
    { title: 'cut list', lines: marked(change.cuts) },
    { title: 'steps', lines: marked(change.steps) },
    { title: 'notes', lines: change.notes.map((says) => ({ mark: '', says })) },
  ];
  return sections.filter(({ lines }) => lines.length > 0);
}

/** What is only set aside is not gone, and what is no longer set aside not new. */
function withKind({ kind, says }: FindingChange): { readonly kind: Kind; readonly says: string } {
  return { kind: kind === 'set-aside' || kind === 'reopened' ? 'changed' : kind, says };
}

function omittedLine({ omitted }: Change): ChangeSection['lines'] {
  if (omitted === undefined) return [];
  const number = omitted === 1 ? '1 more finding is' : `${omitted} more findings are`;
  return [{ mark: '', says: `${number} not listed; \`lugwork compare --all\` lists them all` }];
}

/** The summary, and the sections behind an empty line. */
export function changeLines(change: Change): readonly string[] {
  const sections = changeSections(change).flatMap(({ title, lines }) => [
    title,
    ...lines.map(({ mark, says }) => `  ${mark === '' ? '' : `${mark} `}${says}`),
  ]);
  return sections.length === 0 ? [change.summary] : [change.summary, '', ...sections];
}

const KINDS: Readonly<Partial<Record<ExpectationChange['kind'], string>>> = {
  broken: 'broken',
  held: 'now met',
  unknown: 'can’t be checked now',
};

/** Expectations with those of one position in one line, `broken at selector "neck": sounds neck, hum cancelled (nothing is heard)`; the others a line each. */
export function expectationGroups({ expectations }: Change): readonly string[] {
  const groups = new Map<string, { readonly head: string; readonly byFound: Map<string, string[]> }>();
  for (const { kind, says, place, claim, found = '' } of expectations) {
    const word = KINDS[kind];
    const isGrouped = word !== undefined && place !== undefined && claim !== undefined;
    const head = isGrouped ? `${word} ${place === '' ? 'in every setting' : `at ${place}`}` : says;
    const group = getOrCreate(groups, head, () => ({ head, byFound: new Map<string, string[]>() }));
    if (isGrouped) append(group.byFound, found, claim);
  }
  return [...groups.values()].map(({ head, byFound }) => {
    const parts = [...byFound].map(([found, claims]) => `${claims.join(', ')}${found === '' ? '' : ` (${found})`}`);
    return parts.length === 0 ? head : `${head}: ${parts.join('; ')}`;
  });
}

function positionLines(positions: Change['positions']): ChangeSection['lines'] {
  const byWhat = new Map<string, string[]>();
  for (const { label, what } of positions) byWhat.set(what, [...(byWhat.get(what) ?? []), label || 'default']);
  return [...byWhat].map(([what, labels]) => ({ mark: '', says: `${labels.join('; ')}: ${what}` }));
}
