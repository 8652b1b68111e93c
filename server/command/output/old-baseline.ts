/** Baselines of version 1: their entries hold a sentence and a hash of it, and the sentences have been reworded since. */
import { createHash } from 'node:crypto';
import { namesIn } from '../../../language/claim.js';
import type { Finding } from '../../../language/source.js';

/** An entry as version 1 has it. */
interface OldEntry {
  readonly rule: string;
  readonly message: string;
  readonly fingerprint: string;
}

/**
 * An entry knows a finding with the very sentence; else one of the same rule and the same subjects whose positions and expectations occur in the old
 * sentence, the one with most of its other names there first. That the subjects are the same is certain, though version 1 doesn't list them: its
 * fingerprint is a hash of rule, sentence and subjects, so it is made again from the old sentence and the subjects of today's finding, and the two must be
 * equal. Few faults of the text have subjects; they are known by the words that they are about.
 */
export function matchBySentence<E extends OldEntry>(
  entries: readonly E[],
  findings: readonly Finding[],
): ReadonlyMap<Finding, E> {
  const pairs = new Map<Finding, E>();
  const waiting = new Set(entries);
  const take = (finding: Finding, entry: E | undefined): void => {
    if (entry === undefined) return;
    pairs.set(finding, entry);
    waiting.delete(entry);
  };
  for (const finding of findings) {
    const prints = oldFingerprints(finding, finding.message);
    take(
      finding,
      [...waiting].find((entry) => prints.includes(entry.fingerprint)),
    );
  }
  for (const finding of findings.filter((one) => !pairs.has(one))) {
    const fitting = [...waiting].filter((entry) => entry.rule === finding.rule && isSameFinding(entry, finding));
    const shares = fitting.map((entry) => shareOf(namesIn(finding.claim), entry.message));
    take(finding, fitting[shares.indexOf(Math.max(...shares))]);
  }
  return pairs;
}

/** The fingerprint of version 1. */
export function oldFingerprint({ rule, subjects }: Pick<Finding, 'rule' | 'subjects'>, message: string): string {
  return createHash('sha256')
    .update([rule, message, ...[...subjects].sort()].join('\n'))
    .digest('hex')
    .slice(0, 32);
}

/** With the subjects of today, and without the parts inside assemblies, which version 1 left out. */
function oldFingerprints(finding: Finding, message: string): readonly string[] {
  const { rule, subjects } = finding;
  const isInner = (one: string): boolean => one.includes('.') && subjects.some((other) => other.startsWith(`${one}.`));
  const outer = subjects.filter((one) => !isInner(one));
  return [subjects, ...(outer.length < subjects.length ? [outer] : [])].map((of) =>
    oldFingerprint({ rule, subjects: of }, message),
  );
}

function isSameFinding({ message, fingerprint }: OldEntry, finding: Finding): boolean {
  return (
    oldFingerprints(finding, message).includes(fingerprint) &&
    distinctionsOf(finding).every((words) => words.some((word) => message.includes(word)))
  );
}

/** What distinguished findings about the same things in the sentences of version 1; of each only one wording has to be there. */
function distinctionsOf({ claim, message }: Finding): readonly (readonly string[])[] {
  const { settings = [], subjects = {} } = claim;
  const positions = settings.flat().map(({ at }) => at.map(({ position, name }) => name ?? position));
  const { sounds, text } = subjects;
  // A sentence about several words of a line didn't quote them; it began, as now, with the name of the part.
  const [name = ''] = message.split(' ');
  const wordings = [sounds, text].flatMap((words) =>
    typeof words === 'string' ? [words.includes(' ') && words === text ? [words, name] : [words]] : [],
  );
  return [...positions, ...wordings];
}

/** The share of these names that are in the text. */
function shareOf(names: readonly string[], text: string): number {
  return names.length === 0 ? 0 : names.filter((name) => text.includes(name)).length / names.length;
}
