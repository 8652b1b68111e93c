/** What the Testing view and the preview ask: `expect` lines and whether they hold, the position table, texts inside the server, what a pasted table becomes. */
import { shownPositions } from '../../../language/live/index.js';
import { wiresOfTable, type PastedWires } from '../../../language/table/index.js';
import type { DocumentParams, ExpectationItem, ExpectationOutcome, PositionTable, ServerRequests } from '../../protocol.js';
import { builtInText } from '../texts/built-ins.js';
import { inSlices } from '../messages/pause.js';
import { expectationItems, outcomeSteps } from '../panels/expectations.js';
import type { Feature } from '../feature.js';

export const expectations: Feature = {
  capabilities: {},
  register({ connection, guard, workspace }) {
    connection.onRequest(
      'lugwork/builtInText',
      guard.request('lugwork/builtInText', null, ({ uri }: DocumentParams): string | null => builtInText(uri) ?? null),
    );
    connection.onRequest(
      'lugwork/wiresOfTable',
      guard.request('lugwork/wiresOfTable', null, ({ text }: { text: string }): PastedWires | null => wiresOfTable(text) ?? null),
    );
    connection.onRequest(
      'lugwork/expectations',
      guard.request<DocumentParams, readonly ExpectationItem[]>('lugwork/expectations', [], async ({ uri }) => {
        const snapshot = await workspace.snapshot(uri);
        return snapshot === undefined ? [] : expectationItems(snapshot.circuit, snapshot.text);
      }),
    );
    connection.onRequest(
      'lugwork/checkExpectations',
      guard.request<ServerRequests['lugwork/checkExpectations']['params'], readonly ExpectationOutcome[]>(
        'lugwork/checkExpectations',
        [],
        async ({ uri, lines }, token) => {
          const snapshot = await workspace.snapshot(uri);
          const steps = snapshot && outcomeSteps(snapshot.circuit, snapshot.text, lines);
          const outcomes = steps && (await inSlices(steps, () => token.isCancellationRequested));
          return outcomes ?? [];
        },
      ),
    );
    connection.onRequest(
      'lugwork/positions',
      guard.request<DocumentParams, PositionTable>('lugwork/positions', { rows: [], leftOut: [] }, async ({ uri }, token) => {
        const snapshot = await workspace.snapshot(uri);
        const steps = snapshot && workspace.analysis.positionSteps(snapshot.circuit);
        const table = steps && (await inSlices(steps, () => token.isCancellationRequested));
        return table === undefined ? { rows: [], leftOut: [] } : shownPositions(table);
      }),
    );
  },
};
