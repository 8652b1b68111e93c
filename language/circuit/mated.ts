/** Parts whose positions nobody sets while playing: how a connector is mated. */
import type { Circuit, Switch } from './circuit.js';
import { partById } from './ids.js';

/** True for the positions of a connector, standard or not: of a passive part that rests in one of them. A plug in a jack is another matter. */
export function isMated(circuit: Pick<Circuit, 'parts'>, { part, rest }: Switch): boolean {
  return rest !== undefined && partById(circuit, part).family === 'passive';
}
