/** Hints in the text: what a position sounds like beside an `expect` line that does not say it, and the name of its net behind a wire; both can be turned off. */
import { InlayHintKind, type InlayHint } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.js';
import type { Claim } from '../../../language/circuit/index.js';
import { heardAt } from '../../../language/electrics/index.js';
import { evaluateSteps, type Verdict } from '../../../language/intent/index.js';
import { claimsNowSteps, type Now } from '../claims-now.js';
import type { Steps } from '../../../language/steps.js';
import { inSlices } from '../messages/pause.js';
import { netText } from '../hover/wire.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

export const inlayHints: Feature = {
  capabilities: { inlayHintProvider: true },
  register(service) {
    const { connection, workspace, guard } = service;
    connection.languages.inlayHint.on(
      onDocument(service, 'hints', null, async (at, { range }, token) => {
        const { sounds, nets } = (await workspace.settings.of(at.uri)).inlayHints;
        const steps = sounds ? soundHints(at, workspace.analysis) : undefined;
        const heard = steps && (await inSlices(steps, () => token.isCancellationRequested));
        const hints = [...(heard ?? []), ...(nets ? netHints(at) : [])];
        return hints.filter(({ position: { line } }) => line >= range.start.line && line <= range.end.line);
      }),
    );
    workspace.onShared(() => {
      if (workspace.capabilities.workspace?.inlayHint?.refreshSupport === true)
        void guard.attempt('refresh', () => connection.languages.inlayHint.refresh());
    });
  },
};

/** Which claims tell what. */
const kinds: Readonly<Record<keyof Now, readonly Claim['kind'][]>> = {
  sounds: ['sounds', 'silent'],
  hum: ['hum'],
  reads: ['reads', 'reads-open', 'reads-short'],
  peak: ['peak'],
  cutoff: ['cutoff'],
  level: ['level'],
};

/**
 * `= hum present`: what is so and is not said by a claim that holds, and what is so instead of one that does not.
 * Where it differs between the settings that a line speaks of there is no hint.
 */
function* soundHints({ circuit, uri }: Snapshot, analysis: Analysis): Steps<InlayHint[]> {
  const hints: InlayHint[] = [];
  for (const line of circuit.expectations) {
    const { at, settings, range } = line;
    if (range.uri !== uri) continue;
    const now = (yield* claimsNowSteps(analysis, heardAt(circuit, at), settings)) ?? {};
    const results = yield* evaluateSteps(circuit, line);
    const verdictOf = (what: keyof Now): Verdict | undefined =>
      results.find(({ claim }) => kinds[what].includes(claim.kind) && !('hz' in claim && claim.kind === 'level'))?.verdict;
    const said = (['sounds', 'hum', 'reads', 'peak', 'cutoff', 'level'] as const).filter((what) => {
      const verdict = verdictOf(what);
      // Readings are long and asked for by few: they stand in the text only where they answer a claim.
      return now[what] !== undefined && verdict !== 'held' && (verdict !== undefined || what === 'sounds' || what === 'hum');
    });
    if (said.length === 0) continue;
    const more = (['reads', 'peak'] as const).filter((what) => now[what] !== undefined && !said.includes(what));
    const tooltip = more.map((what) => words(what, now)).join(', ');
    const label = `= ${said.map((what) => words(what, now)).join(', ')}`;
    hints.push({ position: range.end, label, paddingLeft: true, ...(tooltip === '' ? {} : { tooltip }) });
  }
  return hints;
}

function words(what: keyof Now, now: Now): string {
  return what === 'sounds' || what === 'hum' ? (now[what] ?? '') : `${what} ${now[what]}`;
}

function netHints({ circuit, uri }: Snapshot): InlayHint[] {
  const hinted = new Set<number>();
  return circuit.joints.flatMap((joint): InlayHint[] => {
    const { kind, statement, statementRange } = joint;
    if (kind !== 'wire' || statementRange.uri !== uri || hinted.has(statement)) return [];
    hinted.add(statement);
    return [
      { position: statementRange.end, label: `net ${netText(circuit, joint)}`, kind: InlayHintKind.Type, paddingLeft: true },
    ];
  });
}
