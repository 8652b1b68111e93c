/** How many findings one output lists: the gravest, never one without the finding that it follows from, and how many are left out. */
import { itemAt } from './collections.js';
import type { Follows } from './causes.js';
import { counted } from './circuit/index.js';
import type { Change } from './compare/index.js';
import { figure } from './claim.js';
import { severityRanks, type Finding, type Severity, type SourceRange } from './source.js';

/** The most that is listed of one rule, and of one file. */
export interface Caps {
  readonly perRule: number;
  readonly perFile: number;
}

export const caps: Caps = { perRule: 200, perFile: 1000 };

/** What is said of the entries that are left out. */
export interface Ranked {
  readonly rule: string;
  readonly severity: Severity;
}

export interface CapOptions<T> {
  /** For an entry, the numbers of those that it must not stand without. */
  readonly causes?: ReadonlyMap<number, readonly number[]>;
  readonly limits?: Caps;
  /** Entries of a lower rank are taken first. */
  readonly rankOf: (entry: T) => number;
}

export interface Capped<T> {
  /** In the order in which they came. */
  readonly shown: readonly T[];
  readonly omitted: readonly T[];
}

/** The rule of the entry that says how many findings are left out. */
export const omittedRule = 'omitted';

/** The findings of one file that an output lists. Those beyond the caps are left out; everything that a listed one follows from is listed. */
export function capFindings(
  findings: readonly Finding[],
  { follows = new Map(), limits = caps }: { readonly follows?: Follows; readonly limits?: Caps } = {},
): Capped<Finding> {
  return isWithin(findings, limits)
    ? { shown: findings, omitted: [] }
    : cap(findings, { causes: causesOf(findings, follows), limits, rankOf });
}

/** Errors before warnings before notes. */
export function rankOf({ severity }: Ranked): number {
  return severityRanks[severity];
}

/** Takes entries by their rank, then in their order, while there is room for them and for their causes. An entry whose causes find no room is left out. */
export function cap<T extends { readonly rule: string }>(
  entries: readonly T[],
  { causes = new Map(), limits = caps, rankOf }: CapOptions<T>,
): Capped<T> {
  const taken = new Set<number>();
  const ofRule = new Map<string, number>();
  const ranked = entries
    .map((entry, index) => ({ index, rank: rankOf(entry) }))
    .sort((a, b) => a.rank - b.rank || a.index - b.index);
  for (const { index } of ranked) {
    if (taken.has(index)) continue;
    const together = withCauses(index, causes, taken, limits.perFile - taken.size);
    if (together === undefined) continue;
    const rules = new Map<string, number>();
    for (const { rule } of [...together].map((one) => itemAt(entries, one))) rules.set(rule, (rules.get(rule) ?? 0) + 1);
    if ([...rules].some(([rule, number]) => (ofRule.get(rule) ?? 0) + number > limits.perRule)) continue;
    for (const one of together) taken.add(one);
    for (const [rule, number] of rules) ofRule.set(rule, (ofRule.get(rule) ?? 0) + number);
  }
  return {
    shown: entries.filter((_, index) => taken.has(index)),
    omitted: entries.filter((_, index) => !taken.has(index)),
  };
}

/** What a finding must not stand without, by their numbers: its cause, and the gravest finding at each place that it refers to. */
export function causesOf(findings: readonly Finding[], follows: Follows = new Map()): ReadonlyMap<number, readonly number[]> {
  const atPlace = new Map<string, { readonly index: number; readonly rank: number }>();
  const indexOf = new Map(findings.map((finding, index) => [finding, index]));
  for (const [index, finding] of findings.entries()) {
    const [place, rank] = [placeKey(finding.range), rankOf(finding)];
    const known = atPlace.get(place);
    if (known === undefined || rank < known.rank) atPlace.set(place, { index, rank });
  }
  const causes = new Map<number, readonly number[]>();
  for (const [index, finding] of findings.entries()) {
    const cause = follows.get(finding);
    const own = [
      ...finding.related.map(({ range }) => atPlace.get(placeKey(range))?.index),
      cause === undefined ? undefined : indexOf.get(cause),
    ].filter((other) => other !== undefined && other !== index);
    if (own.length > 0) causes.set(index, own as number[]);
  }
  return causes;
}

/** The last entry of a list from which findings are left out, at the beginning of the file; `cure` says where all of them are. */
export function omittedFinding(uri: string, omitted: readonly Ranked[], cure: string): Finding {
  const start = { line: 0, character: 0 };
  return {
    rule: omittedRule,
    severity: 'info',
    claim: { rule: omittedRule, figures: { omitted: figure(omitted.length, 'count') } },
    message: omittedSentence(omitted, cure),
    range: { uri, start, end: start },
    related: [],
    fixes: [],
    subjects: [],
  };
}

/** `3 more findings are not listed: 1 error, 2 warnings; …`. */
export function omittedSentence(omitted: readonly Ranked[], cure: string): string {
  const kinds = [
    ['error', omitted.filter(({ severity }) => severity === 'error').length],
    ['warning', omitted.filter(({ severity }) => severity === 'warning').length],
    ['note', omitted.filter(({ severity }) => severity === 'info' || severity === 'hint').length],
  ] as const;
  const parts = kinds.filter(([, number]) => number > 0).map(([word, number]) => counted(number, word));
  const verb = omitted.length === 1 ? 'is' : 'are';
  return `${counted(omitted.length, 'more finding')} ${verb} not listed: ${parts.join(', ')}; ${cure}`;
}

/** A comparison whose list of findings keeps to the caps; those of one circuit count together. */
export function capChange(change: Change): Change {
  const { shown, omitted } = cap(change.findings, { rankOf });
  return omitted.length === 0 ? change : { ...change, findings: shown, omitted: omitted.length };
}

function isWithin(findings: readonly Finding[], { perRule, perFile }: Caps): boolean {
  return findings.length <= Math.min(perRule, perFile);
}

/** The entry and all that it follows from, of those not taken yet; undefined where they are more than there is room for. */
function withCauses(
  first: number,
  causes: ReadonlyMap<number, readonly number[]>,
  taken: ReadonlySet<number>,
  room: number,
): ReadonlySet<number> | undefined {
  const together = new Set([first]);
  for (const one of together) {
    if (together.size > room) return undefined;
    for (const cause of causes.get(one) ?? []) if (!taken.has(cause)) together.add(cause);
  }
  return together.size > room ? undefined : together;
}

function placeKey({ uri, start, end }: SourceRange): string {
  return `${uri} ${start.line}:${start.character} ${end.line}:${end.character}`;
}
