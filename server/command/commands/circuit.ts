/** `lugwork circuit`: the circuit as JSON for other programs. */
import { writeFileSync } from 'node:fs';
import { dirname, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { circuitSchema, circuitToJson } from '../../../language/circuit/index.js';
import { CannotRun, exit, type Command } from '../command.js';
import { reason } from '../files.js';
import { readCircuit } from '../reading.js';

export const circuit: Command = {
  name: 'circuit',
  operands: 'FILE',
  arity: [0, 1],
  summary: 'the circuit as JSON that other programs can read, and its schema',
  details: [
    'Parts, lugs, joints, elements, switches, shafts, expectations: all that is computed with, by name, in SI units, each with its place in the text. The schema is published as language/circuit/circuit.schema.json.',
    'Every command that takes a FILE takes such a file too where its name ends in .json: it reads back to the same circuit.',
  ],
  options: [
    { name: 'output', short: 'o', value: 'FILE', summary: 'where to write it; to the standard output where nothing is said' },
    { name: 'schema', summary: 'write the JSON Schema in place of a circuit' },
  ],
  examples: ['lugwork circuit no-3.lug -o no-3.json', 'lugwork check no-3.json', 'lugwork circuit --schema'],

  run(call, host) {
    const [operand] = call.operands;
    const output = call.values.get('output');
    const folder = output === undefined ? host.cwd : dirname(resolve(host.cwd, output));
    let data: object;
    if (call.flags.has('schema')) data = circuitSchema();
    else if (operand === undefined) throw new CannotRun('lugwork circuit needs FILE, or --schema');
    else {
      // Places name files from where the JSON lies, so that it is the same on every machine.
      const nameOf = (uri: string): string =>
        uri.startsWith('file:') ? encodeURI(relative(folder, fileURLToPath(uri)).replaceAll('\\', '/')) : uri;
      data = circuitToJson(readCircuit(operand, host).circuit, { nameOf });
    }
    const text = `${JSON.stringify(data, null, 2)}\n`;
    if (output === undefined) host.out(text);
    else write(resolve(host.cwd, output), output, text);
    return exit.good;
  },
};

function write(path: string, name: string, text: string): void {
  try {
    writeFileSync(path, text);
  } catch (error) {
    throw new CannotRun(`${name} cannot be written (${reason(error)})`);
  }
}
