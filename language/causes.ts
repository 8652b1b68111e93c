/** Findings under their cause: those that are gone once one misspelt word is corrected, or once one repair is made. */
import { append, itemAt, valueFor } from './collections.js';
import { expectation, openQuestion, rules } from './checks/index.js';
import { analysed, type AnalysedCircuit } from './circuit/index.js';
import { identityOf, namesIn } from './claim.js';
import { edited } from './edited.js';
import { findingSteps } from './findings.js';
import { createRepairLookup, findingKey, withRepairs, type Repair, type RepairStep } from './intent/index.js';
import { circuitWith, type Project } from './project.js';
import { severityRanks, type Edit, type Finding } from './source.js';
import type { Steps } from './steps.js';
import { followsFromUnread } from './unread-statements.js';
import { untilSpent, type Work } from './work.js';

/** The cause of each finding that follows from another. A cause follows from nothing itself. */
export type Follows = ReadonlyMap<Finding, Finding>;

/** A file of a project with the files that it uses, as they were checked. */
export interface CheckedTexts {
  readonly text: (uri: string) => string | undefined;
  /** The circuit after these edits; undefined where the text to edit is missing. The project keeps its texts. */
  readonly corrected: (edits: readonly Edit[]) => AnalysedCircuit | undefined;
}

export function createCheckedTexts(project: Pick<Project, 'text' | 'used'>, uri: string): CheckedTexts {
  return {
    text: project.text,
    corrected(edits) {
      const texts = new Map<string, string>();
      for (const edit of edits) {
        const { uri: changed } = edit.range;
        const text = texts.get(changed) ?? project.text(changed);
        if (text === undefined) return undefined;
        texts.set(changed, edited(text, [edit]));
      }
      return circuitWith(project, uri, texts);
    },
  };
}

/** How many misspelt words are corrected to see what follows from them, at most. */
const mostCorrected = 20;
/** What it takes to read the text again, for each thing in the circuit, in looks of a rule. */
const readingAgain = 20;

/**
 * What follows from faults of the text. Each misspelt word is corrected by itself and everything checked again; for a statement that can't be corrected so, what it
 * leaves open. `found` are the findings without repairs, so that the only fixes that aren't merely possible are spellings. With no work left, what is known so far.
 */
export function* followsFromText(
  circuit: AnalysedCircuit,
  found: readonly Finding[],
  { text, corrected }: CheckedTexts,
  work: Work,
): Steps<Follows> {
  const follows = new Map<Finding, Finding>();
  yield* untilSpent(correctEach(found, corrected, work, follows));
  return followsFromUnread(circuit, found, text, follows);
}

function* correctEach(
  found: readonly Finding[],
  corrected: CheckedTexts['corrected'],
  work: Work,
  follows: Map<Finding, Finding>,
): Generator<undefined, void> {
  const misspelt = found.filter(({ fixes: [first] }) => first !== undefined && first.confidence !== 'possible');
  const causes = new Set<Finding>();
  for (const cause of misspelt.slice(0, mostCorrected)) {
    const open = found.filter((finding) => finding !== cause && !follows.has(finding) && !causes.has(finding));
    if (open.length === 0 || follows.has(cause)) continue;
    yield;
    const circuit = corrected(cause.fixes[0]?.edits ?? []);
    if (circuit === undefined) continue;
    work.charge('rule', readingAgain * (circuit.lugs.length + circuit.joints.length + circuit.elements.length));
    const after = yield* findingSteps(analysed(circuit, { work }));
    const still = new Set(after.flatMap(traceOf));
    const gone = open.filter((finding) => !traceOf(finding).some((trace) => still.has(trace)));
    if (gone.length > 0) causes.add(cause);
    for (const finding of gone) follows.set(finding, cause);
  }
}

/**
 * By what a finding is known again in a corrected text, where columns of the corrected line may have moved: a claim by what it says on its line, a fault of the
 * text by its line, anything else by each of its subjects. Rather too easily than not.
 */
function traceOf(finding: Finding): readonly string[] {
  const { rule, claim, subjects, range } = finding;
  const line = `${rule} ${range.uri} ${range.start.line}`;
  if (isClaim(finding)) return [`${line} ${identityOf(claim)}`];
  return subjects.length === 0 ? [line] : subjects.map((subject) => `${rule} ${subject}`);
}

/** `known` and what follows beside it: of all findings for which the same repair comes first, the one at its place is the cause. */
export function followsFromRepairs(found: readonly Finding[], repairs: readonly Repair[], known: Follows = new Map()): Follows {
  const follows = new Map(known);
  const causes = new Set(known.values());
  const repairsOf = createRepairLookup(repairs);
  const stepOf = createStepLookup(repairs);
  const groups = new Map<RepairStep, Finding[]>();
  for (const finding of found) {
    if (follows.has(finding) || causes.has(finding)) continue;
    const [repair] = repairsOf(finding);
    const step = repair && stepOf(repair, finding);
    if (step !== undefined) append(groups, step, finding);
  }
  for (const [step, together] of groups) {
    const [cause, ...others] = [...together].sort(byNearness(step.lugs, together));
    for (const finding of others) if (cause !== undefined) follows.set(finding, cause);
  }
  return follows;
}

/**
 * What follows from what where one statement was edited, without a search: all that came up with it is gone once it is as it was before, and the one
 * nearest to its lugs is the cause. `fresh` are the errors and warnings that came up; `lugs` are those that the statement names or named, by label.
 */
export function followsFromEdit(fresh: readonly Finding[], lugs: ReadonlySet<string>): Follows {
  const [cause, ...others] = [...fresh].sort(byNearness(lugs, fresh));
  return new Map(cause === undefined ? [] : others.map((finding) => [finding, cause]));
}

/** The findings with their repairs, and which of them follow from which. `spelt` is what follows from faults of the text. */
export function withCauses(
  found: readonly Finding[],
  repairs: readonly Repair[],
  spelt: Follows,
): { readonly findings: readonly Finding[]; readonly follows: Follows } {
  const findings = withRepairs(found, repairs);
  const repaired = new Map(found.map((finding, index) => [finding, itemAt(findings, index)]));
  const follows = [...followsFromRepairs(found, repairs, spelt)].map(
    ([finding, cause]) => [valueFor(repaired, finding), valueFor(repaired, cause)] as const,
  );
  return { findings, follows: new Map(follows) };
}

/** Those that follow from each cause, in the order in which they were found. */
export function followersOf(found: readonly Finding[], follows: Follows): ReadonlyMap<Finding, readonly Finding[]> {
  const followers = new Map<Finding, Finding[]>();
  for (const finding of found) {
    const cause = follows.get(finding);
    if (cause !== undefined) append(followers, cause, finding);
  }
  return followers;
}

/** `and 12 more follow from it`; undefined where none does. */
export function followText(followers: readonly Finding[] = []): string | undefined {
  const { length } = followers;
  return length === 0 ? undefined : `and ${length} more ${length === 1 ? 'follows' : 'follow'} from it`;
}

/** Of the changes that a repair makes, the one that cures a finding. */
function createStepLookup(repairs: readonly Repair[]): (repair: Repair, finding: Finding) => RepairStep | undefined {
  const keys = new Map(repairs.flatMap(({ steps }) => steps.map((step) => [step, new Set(step.cures.map(findingKey))] as const)));
  return ({ steps }, finding) => steps.find((step) => keys.get(step)?.has(findingKey(finding)) === true);
}

/**
 * The finding at the place at fault first: one that names a lug that the change touches (`lugs`), or else its part, before one that only shows what comes of it.
 * A broken expectation is the cause only where no rule has found anything nearby.
 */
function byNearness(lugs: ReadonlySet<string>, together: readonly Finding[]): (a: Finding, b: Finding) => number {
  const parts = new Set([...lugs].map(partOf));
  const order = new Map(rules.map(({ id }, index) => [id, index]));
  const ranks = new Map(
    together.map((finding, index) => {
      const names = namesIn(finding.claim);
      const isAt = names.some((name) => lugs.has(name));
      const distance = isAt ? 0 : names.some((name) => parts.has(partOf(name))) ? 1 : 2;
      const isBeside = isClaim(finding) || distance === 2;
      const effect = isClaim(finding) ? 2 : heardOnly.has(finding.rule) ? 1 : 0;
      const rank = [Number(isBeside), distance, effect, severityRanks[finding.severity], order.get(finding.rule) ?? 0, index];
      return [finding, rank] as const;
    }),
  );
  return (a, b) => compareRanks(ranks.get(a) ?? [], ranks.get(b) ?? []);
}

function compareRanks(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((rank, index) => rank !== b[index]);
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0);
}

/** `volume` of `volume.3`. */
function partOf(name: string): string {
  const dot = name.lastIndexOf('.');
  return dot < 0 ? name : name.slice(0, dot);
}

/** Rules that say what is heard or what a control does, not what is connected to what. */
const heardOnly: ReadonlySet<string> = new Set([
  'never-heard',
  'silent-at-rest',
  'silent-position',
  'silent-combination',
  'silenced-pickup',
  'silent-coil',
  'backwards-control',
  'idle-control',
  'idle-switch',
  'idle-part',
  'loud-kill',
  'reversed-connector',
  'out-of-phase',
  'twin-positions',
  'constant-cut',
  'no-supply',
]);

function isClaim({ rule }: Finding): boolean {
  return rule === expectation.id || rule === openQuestion.id;
}
