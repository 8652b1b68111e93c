/** Findings as the panel shows them, and the repairs behind them: both are the editor's own, so that panel and text never differ. */
import {
  type CodeAction,
  CodeActionKind,
  commands,
  DiagnosticSeverity,
  languages,
  Location,
  workspace,
  type Diagnostic,
  type Uri,
} from 'vscode';
import type { DrawnScene } from '../../server/protocol.js';
import { idsAt, idsOnLine } from './places.js';
import type { PanelFinding } from './protocol.js';

const severities: Readonly<Record<DiagnosticSeverity, PanelFinding['severity']>> = {
  [DiagnosticSeverity.Error]: 'error',
  [DiagnosticSeverity.Warning]: 'warning',
  [DiagnosticSeverity.Information]: 'info',
  [DiagnosticSeverity.Hint]: 'hint',
};

/** A document's findings, gravest first. */
export function findingsOf(uri: Uri): readonly Diagnostic[] {
  return languages
    .getDiagnostics(uri)
    .filter(({ source }) => source === 'lugwork')
    .sort((a, b) => a.severity - b.severity || a.range.start.compareTo(b.range.start));
}

/** The same for the panel: each with what it is about in the drawing. */
export function panelFindings(uri: Uri, findings: readonly Diagnostic[], places: DrawnScene['places']): PanelFinding[] {
  return findings.map(({ severity, message, range, relatedInformation }, number) => ({
    number,
    severity: severities[severity],
    message,
    ids: idsOf([new Location(uri, range), ...(relatedInformation ?? []).map(({ location }) => location)], places),
  }));
}

/** At the finding's own place; where the drawing holds nothing of it, at the first of the others that belong to it. */
function idsOf(locations: readonly Location[], places: DrawnScene['places']): string[] {
  for (const { uri, range } of locations) {
    const ids = idsAt(places, uri.toString(), range.start);
    if (ids.length > 0) return ids;
  }
  // What is wrong may be why it is not drawn: then it stands at what else its line names.
  return locations.slice(0, 1).flatMap(({ uri, range }) => idsOnLine(places, uri.toString(), range.start.line));
}

/** What the lamp would offer where a finding stands, the likeliest first. */
export async function fixesOf(uri: Uri, { range }: Diagnostic): Promise<CodeAction[]> {
  const actions = await commands.executeCommand<CodeAction[]>(
    'vscode.executeCodeActionProvider',
    uri,
    range,
    CodeActionKind.QuickFix.value,
  );
  return actions.filter(({ edit }) => edit !== undefined);
}

/** Does what the lamp would do. */
export async function applyFix(fix: CodeAction): Promise<boolean> {
  return fix.edit !== undefined && (await workspace.applyEdit(fix.edit, { isRefactoring: false }));
}
