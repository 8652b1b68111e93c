/** Hover: small tables about parts, lugs, wires, positions, expectations, values, types, properties and rules. */
import { MarkupKind } from 'vscode-languageserver';
import { hoverSteps } from '../hover/index.js';
import { inSlices } from '../messages/pause.js';
import { onDocument, type Feature } from '../feature.js';

export const hover: Feature = {
  capabilities: { hoverProvider: true },
  register(service) {
    service.connection.onHover(
      onDocument(service, 'hover', null, async (at, { position }, token) => {
        // There may be thousands of settings to solve before it can be said where a part is heard.
        const steps = hoverSteps(at, position, service.workspace.analysis);
        const found = await inSlices(
          steps,
          () => token.isCancellationRequested,
          () => 'interactive',
        );
        return found === undefined
          ? null
          : { contents: { kind: MarkupKind.Markdown, value: found.markdown }, range: found.range };
      }),
    );
  },
};
