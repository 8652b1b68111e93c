/** Repairs of a circuit, and what follows from what, searched for a slice at a time with the budget that the command has: the same text has the same repairs in both. What one edit has brought may be listed together before the search. */
import type { CancellationToken } from 'vscode-languageserver';
import { createCheckedTexts, followsFromText, withCauses, type Follows } from '../../language/causes.js';
import { derivation, derive, type AnalysedCircuit } from '../../language/circuit/index.js';
import { canBeRewired, repairSteps, usualWork, type Repair } from '../../language/intent/index.js';
import type { Project } from '../../language/project.js';
import type { Finding } from '../../language/source.js';
import { createWork, type Work } from '../../language/work.js';
import { stoppedFixes } from '../stopped-search.js';
import { followsOf, keysOf } from './edit-causes.js';
import { inSlices } from './messages/pause.js';
import type { Snapshot } from './workspace.js';

interface Search {
  readonly work: Work;
  readonly steps: Generator<undefined, readonly Repair[]>;
  found?: readonly Repair[];
  /** Keys of findings that follow from a fault of the text, with that of their cause. */
  spelt?: ReadonlyMap<string, string>;
  /** The same of what an edit of one statement brought. */
  edited?: ReadonlyMap<string, string>;
}

type Token = Pick<CancellationToken, 'isCancellationRequested'>;

/** Findings with the repairs that cure them, and which follow from which. */
export interface Explained {
  readonly findings: readonly Finding[];
  readonly follows: Follows;
}

/** What is found in a document, explained; undefined where the request is cancelled. `report` is called for a search that was stopped. */
export async function explain(
  at: Snapshot,
  found: readonly Finding[],
  project: Project,
  token: Token,
  report: (text: string) => void,
): Promise<Explained | undefined> {
  if (found.length === 0) return { findings: found, follows: new Map() };
  const repairs = canBeRewired(at.circuit) ? await repairsOf(at.circuit, token, report) : [];
  if (token.isCancellationRequested) return undefined;
  const spelt = await speltOf(at, found, project, token);
  return spelt && withCauses(found, repairs, spelt.size > 0 ? spelt : editedOf(at.circuit, found));
}

/** Keeps what an edit brought with the circuit, so that who asks for what follows from what gets the same before a search and after it. */
export function noteEdited(circuit: AnalysedCircuit, follows: Follows): void {
  derive(circuit, started).edited = keysOf(follows);
}

function editedOf(circuit: AnalysedCircuit, found: readonly Finding[]): Follows {
  return followsOf(found, derive(circuit, started).edited ?? new Map());
}

/**
 * The repairs of a circuit; none where the question is taken back, and the next question goes on from there. `report` is called once where the search
 * was stopped before it was through.
 */
export async function repairsOf(
  circuit: AnalysedCircuit,
  token: Token,
  report: (text: string) => void,
): Promise<readonly Repair[]> {
  const search = derive(circuit, started);
  await inSlices(goOn(search, report), () => token.isCancellationRequested);
  return search.found ?? [];
}

/** What follows from faults of the text; found once for a circuit. */
async function speltOf(
  { circuit, uri, text }: Snapshot,
  found: readonly Finding[],
  project: Project,
  token: Token,
): Promise<Follows | undefined> {
  const search = derive(circuit, started);
  if (search.spelt === undefined) {
    // Meanwhile the project may have got a newer text.
    const texts = { ...project, text: (asked: string) => (asked === uri ? text : project.text(asked)) };
    const steps = followsFromText(circuit, found, createCheckedTexts(texts, uri), search.work);
    const follows = await inSlices(steps, () => token.isCancellationRequested);
    if (follows === undefined) return undefined;
    search.spelt ??= keysOf(follows);
  }
  return followsOf(found, search.spelt);
}

const started = derivation(['text'], (circuit): Search => {
  const work = createWork(usualWork);
  return { work, steps: repairSteps(circuit, { work }) };
});

/** Goes on with a search, which several questions may do in turn. */
function* goOn(search: Search, report: (text: string) => void): Generator<undefined, void> {
  while (search.found === undefined) {
    const step = search.steps.next();
    if (step.done === true) {
      search.found = step.value;
      if (search.work.isSpent) report(stoppedFixes(step.value.length));
    } else yield;
  }
}
