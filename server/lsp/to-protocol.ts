/** From the language's vocabulary to the Language Server Protocol's. */
import {
  DiagnosticSeverity,
  DiagnosticTag,
  type CodeAction,
  type Diagnostic,
  type DiagnosticRelatedInformation,
  type Location,
  type Range,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { followText, type Follows } from '../../language/causes.js';
import type { Circuit } from '../../language/circuit/index.js';
import type { Edit, Finding, Fix, Related, Severity, SourceRange } from '../../language/source.js';
import { capitalised } from '../../language/words.js';
import { rulePage } from './texts/built-ins.js';

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** Rules whose findings point at something that does nothing: shown faded. */
const unnecessary = new Set([
  'idle-allow',
  'idle-wire',
  'repeated-joint',
  'self-joint',
  'unwired-part',
  'idle-switch',
  'idle-control',
]);

export function toRange({ start, end }: SourceRange): Range {
  return { start, end };
}

/** Which findings follow from which, and the other way round. */
export interface Causes {
  readonly follows: Follows;
  readonly followers: ReadonlyMap<Finding, readonly Finding[]>;
}

/** Findings of a circuit as its own file shows them: what lies in a file that it uses stands at the `use` line, with the place beside it. */
export function toDiagnostics(circuit: Circuit, findings: readonly Finding[], causes: Causes): Diagnostic[] {
  return findings.flatMap((finding) => {
    if (finding.range.uri === circuit.uri) return [toDiagnostic(finding, causes)];
    const uses = circuit.names.filter(({ kind, range }) => kind === 'file' && range.uri === circuit.uri);
    const use = uses.find(({ definition }) => definition?.uri === finding.range.uri) ?? uses[0];
    if (use === undefined) return [];
    const there = { message: finding.message, range: finding.range };
    const shown = toDiagnostic(finding, causes);
    return [{ ...shown, range: toRange(use.range), relatedInformation: [toRelated(there), ...(shown.relatedInformation ?? [])] }];
  });
}

/** Of those that follow from a finding so many are listed at it. */
const mostListed = 20;

/**
 * One sentence, its reason, its places and the link to its rule's page. A cause is as grave as the gravest of what follows from it and lists it; what follows is
 * a hint at its own place that leads to the cause.
 */
export function toDiagnostic(finding: Finding, { follows, followers }: Causes): Diagnostic {
  const page = rulePage(finding.rule);
  const cause = follows.get(finding);
  const following = followers.get(finding) ?? [];
  const gravest = Math.min(...[finding, ...following].map(({ severity }) => severities[severity])) as DiagnosticSeverity;
  const more = followText(following);
  const message = [
    finding.message,
    finding.why,
    cause && `Follows from line ${cause.range.start.line + 1}: ${cause.message}`,
    more && capitalised(`${more}.`),
  ];
  const related: readonly Related[] = [
    ...(cause === undefined ? [] : [{ message: cause.message, range: cause.range }]),
    ...finding.related,
    ...following.slice(0, mostListed).map((one) => ({ message: `follows from it: ${one.message}`, range: one.range })),
  ];
  return {
    range: toRange(finding.range),
    severity: cause === undefined ? gravest : DiagnosticSeverity.Hint,
    source: 'lugwork',
    code: finding.rule,
    ...(page === undefined ? {} : { codeDescription: { href: page } }),
    message: message.filter(Boolean).join('\n'),
    ...(unnecessary.has(finding.rule) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    relatedInformation: related.map(toRelated),
  };
}

function toRelated({ message, range }: Related): DiagnosticRelatedInformation {
  return { message, location: toLocation(range) };
}

/** Fixes of a finding to choose from. */
export interface Offer {
  readonly finding: Finding;
  readonly fixes: readonly Fix[];
}

/** The fixes of a finding, the likeliest first; one that is sure is preferred, so that the editor may make it without being asked which. */
export function toQuickFixes({ finding, fixes }: Offer, causes: Causes): CodeAction[] {
  return fixes.map(({ title, edits, confidence }) => ({
    title: confidence === 'sure' ? title : `${title} (${confidence})`,
    kind: 'quickfix',
    diagnostics: [toDiagnostic(finding, causes)],
    isPreferred: confidence === 'sure',
    edit: toEdit(edits),
  }));
}

export function toLocation(range: SourceRange): Location {
  return { uri: range.uri, range: toRange(range) };
}

export function toEdit(edits: readonly Edit[]): WorkspaceEdit {
  const changes: NonNullable<WorkspaceEdit['changes']> = {};
  for (const { range, text } of edits) (changes[range.uri] ??= []).push({ range: toRange(range), newText: text });
  return { changes };
}
