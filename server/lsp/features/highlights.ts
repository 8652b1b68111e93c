/** Where else in the file the thing at the cursor is named. */
import { DocumentHighlightKind } from 'vscode-languageserver';
import { mentionsOf } from '../mentions.js';
import { toRange } from '../to-protocol.js';
import { onDocument, type Feature } from '../feature.js';

export const highlights: Feature = {
  capabilities: { documentHighlightProvider: true },
  register(service) {
    service.connection.onDocumentHighlight(
      onDocument(service, 'highlights', null, (at, { position }) => {
        const found = mentionsOf(at, position, [at]);
        const here = found?.mentions.filter(({ range }) => range.uri === at.uri);
        return (
          here?.map(({ range, isDefinition }) => ({
            range: toRange(range),
            kind: isDefinition ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
          })) ?? null
        );
      }),
    );
  },
};
