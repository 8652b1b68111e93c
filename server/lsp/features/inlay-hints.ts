/** Hints in the text: what a position sounds like beside its `expect` line, and the name of its net behind a wire; both can be turned off. */
import { InlayHintKind, type InlayHint } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.js';
import { claimsNow } from '../claims-now.js';
import { netText } from '../hover/wire.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from './feature.js';

export const inlayHints: Feature = {
  capabilities: { inlayHintProvider: true },
  register(service) {
    const { connection, workspace, guard } = service;
    connection.languages.inlayHint.on(
      onDocument(service, 'hints', null, async (at, { range }) => {
        const { sounds, nets } = (await workspace.settings.of(at.uri)).inlayHints;
        const hints = [...(sounds ? soundHints(at, workspace.analysis) : []), ...(nets ? netHints(at) : [])];
        return hints.filter(({ position: { line } }) => line >= range.start.line && line <= range.end.line);
      }),
    );
    workspace.onShared(() => {
      if (workspace.capabilities.workspace?.inlayHint?.refreshSupport === true)
        void guard.attempt('refresh', () => connection.languages.inlayHint.refresh());
    });
  },
};

/** `sounds parallel(bridge, neck), hum cancelled`; where it differs between the settings that a line speaks of there is no hint. */
function soundHints({ circuit, uri }: Snapshot, analysis: Analysis): InlayHint[] {
  return circuit.expectations.flatMap(({ settings, range }): InlayHint[] => {
    if (range.uri !== uri) return [];
    const now = claimsNow(analysis, circuit, settings);
    const said = [now?.sounds, now?.hum].filter((one) => one !== undefined).join(', ');
    if (said === '') return [];
    const { reads, peak } = now ?? {};
    const more = [reads === undefined ? '' : `reads ${reads}`, peak === undefined ? '' : `peak ${peak}`].filter(
      (one) => one !== '',
    );
    return [
      { position: range.end, label: `= ${said}`, paddingLeft: true, ...(more.length > 0 ? { tooltip: more.join(', ') } : {}) },
    ];
  });
}

function netHints({ circuit, uri }: Snapshot): InlayHint[] {
  const told = new Set<number>();
  return circuit.joints.flatMap((joint): InlayHint[] => {
    const { kind, statement, statementRange } = joint;
    if (kind !== 'wire' || statementRange.uri !== uri || told.has(statement)) return [];
    told.add(statement);
    return [
      { position: statementRange.end, label: `net ${netText(circuit, joint)}`, kind: InlayHintKind.Type, paddingLeft: true },
    ];
  });
}
