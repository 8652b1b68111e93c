/** `use "PATH.lug"` as a link to the file. */
import type { DocumentLink } from 'vscode-languageserver';
import { toRange } from '../to-protocol.js';
import { onDocument, type Feature } from '../feature.js';

export const documentLinks: Feature = {
  capabilities: { documentLinkProvider: {} },
  register(service) {
    service.connection.onDocumentLinks(
      onDocument(service, 'links', null, ({ circuit, uri }) =>
        circuit.names.flatMap(({ kind, range, definition, name }): DocumentLink[] => {
          if (kind !== 'file' || range.uri !== uri || definition === undefined) return [];
          const { start, end } = toRange(range);
          // The quotes are not the path.
          const inner = {
            start: { line: start.line, character: start.character + 1 },
            end: { line: end.line, character: end.character - 1 },
          };
          return [{ range: inner, target: definition.uri, tooltip: `open ${name}` }];
        }),
      ),
    );
  },
};
