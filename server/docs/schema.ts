/** The published schema of a circuit's JSON form, beside the code that it is made from. */
import { circuitSchema } from '../../language/circuit/index.js';

export function schemaFile(): [string, string] {
  return ['language/circuit/circuit.schema.json', `${JSON.stringify(circuitSchema(), null, 2)}\n`];
}
