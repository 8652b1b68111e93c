/** Go to definition: parts, lugs, types, coils, cavities, positions, used files; into the standard parts and a rule's page as well. */
import { toLocation } from '../to-protocol.js';
import { definitionOf, useAt } from '../places.js';
import { onDocument, type Feature } from '../feature.js';

export const definition: Feature = {
  capabilities: { definitionProvider: true },
  register(service) {
    service.connection.onDefinition(
      onDocument(service, 'definition', null, ({ circuit, uri }, { position }) => {
        const use = useAt(circuit, uri, position);
        const found = use === undefined ? undefined : definitionOf(circuit, use);
        return found === undefined ? null : toLocation(found);
      }),
    );
  },
};
