/** Over the instrument: how many positions it has, what was found, how many of its expectations hold; over a switch what is usual for it; can be turned off. */
import { CodeLensRefreshRequest, type CancellationToken, type CodeLens } from 'vscode-languageserver';
import { counted } from '../../../language/circuit/index.js';
import { usualText, type Located } from '../../../language/intent/index.js';
import type { DocumentParams, Overview } from '../../protocol.js';
import { overviewOf } from '../overview.js';
import { usualAtSteps } from '../panels/expectation-choices.js';
import { locatedOf } from '../panels/locating.js';
import { inSlices } from '../messages/pause.js';
import { inFile } from '../places.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

export const codeLens: Feature = {
  capabilities: { codeLensProvider: {} },
  register(service) {
    const { connection, workspace, diagnostics, guard } = service;
    connection.onCodeLens(
      onDocument(service, 'lens', null, async (at, _, token) => {
        const { tree, uri } = at;
        const title = tree.statements.find(({ kind }) => kind === 'instrument');
        const isWanted = (await workspace.settings.of(uri)).codeLens.enabled;
        const others = isWanted
          ? [
              ...(await readingLens(at, token, workspace.client.locatesFaults === true)),
              ...(await usualLens(at, token, workspace.client.writesUsual === true)),
            ]
          : [];
        if (title === undefined || !isWanted) return others.length === 0 ? null : others;
        const overview = await overviewOf(service, at, token);
        if (overview === undefined) return null;
        const { positions, findings, expectations } = overview;
        const texts = [positions, findings, ...(expectations === undefined ? [] : [expectations])];
        const range = inFile(title.line, title.range) as CodeLens['range'];
        // Without a command an editor shows the text alone.
        return [...texts.map((text): CodeLens => ({ range, command: { title: text, command: '' } })), ...others];
      }),
    );
    const refresh = (): void => {
      if (workspace.capabilities.workspace?.codeLens?.refreshSupport === true)
        void guard.attempt('refresh', () => connection.sendRequest(CodeLensRefreshRequest.type));
    };
    workspace.onShared(refresh);
    diagnostics.onListed(refresh);
    connection.onRequest(
      'lugwork/overview',
      guard.request<DocumentParams, Overview | null>('lugwork/overview', null, async ({ uri }, token) => {
        const snapshot = await workspace.snapshot(uri);
        return (snapshot && (await overviewOf(service, snapshot, token))) ?? null;
      }),
    );
  },
};

/** Over the first reading: how many suspects there are, and the most likely one. */
async function readingLens({ tree, circuit, uri }: Snapshot, token: CancellationToken, hasCommand: boolean): Promise<CodeLens[]> {
  const first = tree.statements.find(({ kind }) => kind === 'measured');
  if (first === undefined || circuit.measurements.length === 0) return [];
  const located = await locatedOf(circuit, token);
  if (located === undefined) return [];
  const command = hasCommand ? { command: 'lugwork.locateFault', arguments: [uri] } : { command: '' };
  return [{ range: inFile(first.line, first.range), command: { title: locatedBriefly(located), ...command } }];
}

/** Over the switch that chooses, where nothing is expected yet: what its positions usually give, to be kept with one click. */
async function usualLens(at: Snapshot, token: CancellationToken, hasCommand: boolean): Promise<CodeLens[]> {
  const found = await inSlices(usualAtSteps(at), () => token.isCancellationRequested);
  if (found === undefined) return [];
  const { usual, statement } = found;
  const command = hasCommand ? { command: 'lugwork.writeExpectations', arguments: [at.uri] } : { command: '' };
  const title = `keep what such a circuit usually gives as expectations: ${usualText(usual)}`;
  return [{ range: inFile(statement.line, statement.range), command: { title, ...command } }];
}

function locatedBriefly({ suspects, readings, asWritten, estimates, proofs }: Located): string {
  const [first] = suspects;
  if (first !== undefined)
    return `${counted(suspects.length, 'suspect')}, most likely: ${first.fault.where}: ${first.fault.says}`;
  const proved = estimates.length + proofs.length;
  const gives = proved === 0 ? '' : `; ${counted(proved, 'thing')} proved`;
  if (readings.length > asWritten.length) return `no single fault explains the readings${gives}`;
  return readings.length === 0
    ? `readings${gives === '' ? ' that give no result yet' : gives.slice(1)}`
    : `no fault is needed to explain the readings${gives}`;
}
