/** From the language's vocabulary to the Language Server Protocol's. */
import {
  DiagnosticSeverity,
  DiagnosticTag,
  type CodeAction,
  type Diagnostic,
  type Location,
  type Range,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { Circuit } from '../../language/circuit/index.js';
import type { Edit, Finding, Severity, SourceRange } from '../../language/source.js';
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

/** Findings of a circuit as its own file shows them: what lies in a file that it uses stands at the `use` line, with the place beside it. */
export function toDiagnostics(circuit: Circuit, findings: readonly Finding[]): Diagnostic[] {
  return findings.flatMap((finding) => {
    if (finding.range.uri === circuit.uri) return [toDiagnostic(finding)];
    const uses = circuit.names.filter(({ kind, range }) => kind === 'file' && range.uri === circuit.uri);
    const use = uses.find(({ definition }) => definition?.uri === finding.range.uri) ?? uses[0];
    if (use === undefined) return [];
    const there = { message: finding.message, range: finding.range };
    return [toDiagnostic({ ...finding, range: use.range, related: [there, ...finding.related] })];
  });
}

/** One sentence, its reason, its places and the link to its rule's page. */
export function toDiagnostic(finding: Finding): Diagnostic {
  const page = rulePage(finding.rule);
  return {
    range: toRange(finding.range),
    severity: severities[finding.severity],
    source: 'lugwork',
    code: finding.rule,
    ...(page === undefined ? {} : { codeDescription: { href: page } }),
    message: finding.why === undefined ? finding.message : `${finding.message}\n${finding.why}`,
    ...(unnecessary.has(finding.rule) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    relatedInformation: finding.related.map(({ message, range }) => ({
      message,
      location: toLocation(range),
    })),
  };
}

/** The fixes of a finding, the likeliest first and marked as preferred. */
export function toQuickFixes(finding: Finding): CodeAction[] {
  return finding.fixes.map(({ title, edits }, index) => ({
    title,
    kind: 'quickfix',
    diagnostics: [toDiagnostic(finding)],
    isPreferred: index === 0,
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
