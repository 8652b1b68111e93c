/** Hover: small tables about parts, lugs, wires, positions, expectations, values, types, properties and rules. */
import { MarkupKind } from 'vscode-languageserver';
import { hoverAt } from '../hover/index.js';
import { onDocument, type Feature } from './feature.js';

export const hover: Feature = {
  capabilities: { hoverProvider: true },
  register(service) {
    service.connection.onHover(
      onDocument(service, 'hover', null, (at, { position }) => {
        const found = hoverAt(at, position, service.workspace.analysis);
        return found === undefined
          ? null
          : { contents: { kind: MarkupKind.Markdown, value: found.markdown }, range: found.range };
      }),
    );
  },
};
