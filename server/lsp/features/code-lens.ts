/** Over the instrument: how many positions it has, what was found, how many of its expectations hold; can be turned off. */
import { CodeLensRefreshRequest, type CodeLens } from 'vscode-languageserver';
import { evaluate } from '../../../language/intent/index.js';
import { inFile } from '../places.js';
import { onDocument, type Feature } from './feature.js';

export const codeLens: Feature = {
  capabilities: { codeLensProvider: {} },
  register(service) {
    const { connection, workspace, diagnostics, guard } = service;
    connection.onCodeLens(
      onDocument(service, 'lens', null, async (at, _, token) => {
        const { circuit, tree, uri } = at;
        const title = tree.statements.find(({ kind }) => kind === 'instrument');
        if (title === undefined || !(await workspace.settings.of(uri)).codeLens.enabled) return null;
        const found = await diagnostics.current(at, token);
        if (token.isCancellationRequested) return null;
        const { rows, leftOut } = workspace.analysis.positions(circuit);
        const own = circuit.expectations.filter(({ range }) => range.uri === uri);
        const held = own.filter((line) => evaluate(circuit, line).every(({ verdict }) => verdict === 'held'));
        const texts = [
          counted(rows.length, 'position') + (leftOut.length > 0 ? ', not all of them' : ''),
          found.length === 0 ? 'no findings' : counted(found.length, 'finding'),
          ...(own.length === 0 ? [] : [`${held.length} of ${counted(own.length, 'expectation')} held`]),
        ];
        const range = inFile(title.line, title.range) as CodeLens['range'];
        // Without a command an editor shows the text alone.
        return texts.map((text): CodeLens => ({ range, command: { title: text, command: '' } }));
      }),
    );
    workspace.onShared(() => {
      if (workspace.capabilities.workspace?.codeLens?.refreshSupport === true)
        void guard.attempt('refresh', () => connection.sendRequest(CodeLensRefreshRequest.type));
    });
  },
};

function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}
