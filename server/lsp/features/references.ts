/** Every mention of a part, lug, type, position or other name, in all files of the folders. */
import { mentionsOf } from '../mentions.js';
import { toLocation } from '../to-protocol.js';
import { onDocument, type Feature } from '../feature.js';

export const references: Feature = {
  capabilities: { referencesProvider: true },
  register(service) {
    service.connection.onReferences(
      onDocument(service, 'references', null, async (at, { position, context }, token) => {
        const snapshots = await service.workspace.snapshots();
        if (token.isCancellationRequested) return null;
        const found = mentionsOf(at, position, [...snapshots, at]);
        const wanted = found?.mentions.filter(({ isDefinition }) => context.includeDeclaration || !isDefinition);
        return wanted?.map(({ range }) => toLocation(range)) ?? null;
      }),
    );
  },
};
