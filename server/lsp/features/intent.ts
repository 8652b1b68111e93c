/** What the client's own commands ask: the faults that the readings tell of, and the `expect` lines that can be written. */
import { LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { locatedText } from '../../../language/intent/index.js';
import type { DocumentParams, DrawnSearch, ExpectationChoice, ServerRequests, WrittenReading } from '../../protocol.js';
import { choiceSteps } from '../panels/expectation-choices.js';
import { locatedOf } from '../panels/locating.js';
import { drawnSearch } from '../panels/suspects.js';
import { writtenReading } from '../panels/typed-reading.js';
import { inSlices } from '../messages/pause.js';
import type { Feature } from '../feature.js';

export const intent: Feature = {
  capabilities: {},
  register({ connection, guard, workspace }) {
    connection.onRequest(
      'lugwork/locate',
      guard.request<DocumentParams, string | null>('lugwork/locate', null, async ({ uri }, token) => {
        const at = await workspace.snapshot(uri);
        if (at === undefined) return null;
        const located = await locatedOf(at.circuit, token);
        if (located === undefined) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
        return `${at.circuit.title ?? decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1))}\n\n${locatedText(located)}`;
      }),
    );
    connection.onRequest(
      'lugwork/suspects',
      guard.request<DocumentParams, DrawnSearch | null>('lugwork/suspects', null, async ({ uri }, token) => {
        const at = await workspace.snapshot(uri);
        if (at === undefined) return null;
        const located = await locatedOf(at.circuit, token);
        if (located === undefined) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
        return drawnSearch(at.circuit, located);
      }),
    );
    connection.onRequest(
      'lugwork/writeReading',
      guard.request<ServerRequests['lugwork/writeReading']['params'], WrittenReading | null>(
        'lugwork/writeReading',
        null,
        async ({ uri, line, text }, token) => {
          const at = await workspace.snapshot(uri);
          if (at === undefined) return null;
          const located = await locatedOf(at.circuit, token);
          if (located === undefined) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
          return writtenReading(at, located, line, text);
        },
      ),
    );
    connection.onRequest(
      'lugwork/expectationChoices',
      guard.request<DocumentParams, readonly ExpectationChoice[]>('lugwork/expectationChoices', [], async ({ uri }, token) => {
        const at = await workspace.snapshot(uri);
        return at === undefined
          ? []
          : ((await inSlices(choiceSteps(at, workspace.texts.project), () => token.isCancellationRequested)) ?? []);
      }),
    );
  },
};
