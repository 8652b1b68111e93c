/** Findings that are new and gone; expectations have a list of their own. */
import { expectation, openQuestion } from '../checks/index.js';
import type { Finding } from '../source.js';
import type { FindingChange } from './change.js';
import type { Match } from './match.js';

/**
 * A finding is known by its rule and its sentence, whatever its place; the same rule about the same things in other words is one that changed.
 * Where nothing changes electrically the order of names in a sentence is that of the text, and says nothing.
 */
export function compareFindings(
  before: readonly Finding[],
  after: readonly Finding[],
  { renamed }: Match,
  electrical: boolean,
): readonly FindingChange[] {
  const keyOf = ({ rule, message }: Finding, as: (text: string) => string): string =>
    `${rule}\n${
      electrical
        ? as(message)
        : as(message)
            .split(/[\s,;:]+/)
            .sort()
            .join(' ')
    }`;
  const waiting = new Map<string, Finding[]>();
  for (const finding of told(before)) add(waiting, keyOf(finding, renamed), finding);
  const open = told(after).filter((finding) => waiting.get(keyOf(finding, (text) => text))?.shift() === undefined);
  const left = new Map<string, Finding[]>();
  for (const finding of [...waiting.values()].flat()) add(left, subjectKey(finding, renamed), finding);
  const changes = open.map((finding): FindingChange => {
    const earlier = left.get(subjectKey(finding, (text) => text))?.shift();
    return earlier === undefined
      ? { ...item('new', finding), after: finding.range }
      : { ...item('changed', finding), before: earlier.range, after: finding.range };
  });
  return [...changes, ...[...left.values()].flat().map((finding) => ({ ...item('gone', finding), before: finding.range }))];
}

const own = new Set([expectation.id, openQuestion.id]);

function told(findings: readonly Finding[]): readonly Finding[] {
  return findings.filter(({ rule }) => !own.has(rule));
}

function add(map: Map<string, Finding[]>, key: string, finding: Finding): void {
  map.set(key, [...(map.get(key) ?? []), finding]);
}

function subjectKey({ rule, subjects }: Finding, renamed: (text: string) => string): string {
  return [rule, ...subjects.map(renamed).sort()].join('\n');
}

function item(kind: FindingChange['kind'], { rule, severity, message }: Finding): FindingChange {
  return { kind, rule, severity, message, says: `${severity} [${rule}] ${message}` };
}
