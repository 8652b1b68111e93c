/** Hover: small tables about parts, lugs, wires, positions, expectations, values, types, properties and rules. */
import { MarkupKind } from 'vscode-languageserver';
import { hoverAt } from '../hover/index.js';
import { inSlices } from '../pause.js';
import { useAt } from '../places.js';
import { onDocument, type Feature } from './feature.js';

export const hover: Feature = {
  capabilities: { hoverProvider: true },
  register(service) {
    service.connection.onHover(
      onDocument(service, 'hover', null, async (at, { position }, token) => {
        const { analysis } = service.workspace;
        const kind = useAt(at.circuit, at.uri, position)?.kind;
        // Parts and positions say where they are heard; there may be thousands of settings to solve first.
        const isTable = kind === 'part' || kind === 'position';
        const table = isTable && (await inSlices(analysis.positionSteps(at.circuit), () => token.isCancellationRequested));
        if (table === undefined) return null;
        const found = hoverAt(at, position, analysis);
        return found === undefined
          ? null
          : { contents: { kind: MarkupKind.Markdown, value: found.markdown }, range: found.range };
      }),
    );
  },
};
