/** `lugwork circuit`: the circuit as JSON for other programs. */
import { dirname, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { circuitSchema, circuitToJson } from '../../../language/circuit/index.js';
import { CannotRun, exit, type Command } from '../command.js';
import { forceOption, outputOption, sourcesOf, writeResult } from '../output/output.js';
import { readCircuit } from '../reading/reading.js';

export const circuit: Command = {
  name: 'circuit',
  operands: 'FILE',
  arity: [0, 1],
  summary: 'print the circuit as JSON for other programs, or the JSON’s schema',
  details: [
    'Contains parts, lugs, joints, elements, switches, shafts and expectations: everything the calculation uses, by name, in SI units, each with its place in the text. The schema is published as language/circuit/circuit.schema.json.',
    'Every command that takes a FILE also takes such a file if its name ends in .json; it is read as the same circuit.',
  ],
  options: [outputOption, forceOption, { name: 'schema', summary: 'print the JSON Schema instead of a circuit' }],
  examples: ['lugwork circuit no-3.lug -o no-3.json', 'lugwork check no-3.json', 'lugwork circuit --schema'],

  run(call, host) {
    const [operand] = call.operands;
    const output = call.values.get('output');
    const folder = output === undefined ? host.cwd : dirname(resolve(host.cwd, output));
    let data: object;
    let sources: readonly string[] = [];
    if (call.flags.has('schema')) data = circuitSchema();
    else if (operand === undefined) throw new CannotRun('lugwork circuit needs FILE, or --schema');
    else {
      // Places name files from where the JSON lies, so that it is the same on every machine.
      const nameOf = (uri: string): string =>
        uri.startsWith('file:') ? encodeURI(relative(folder, fileURLToPath(uri)).replaceAll('\\', '/')) : uri;
      const read = readCircuit(operand, host);
      sources = sourcesOf(read.file.uri, read.circuit);
      data = circuitToJson(read.circuit, { nameOf });
    }
    writeResult({ text: `${JSON.stringify(data, null, 2)}\n`, sources, form: 'JSON' }, call, host);
    return exit.good;
  },
};
