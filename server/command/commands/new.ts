/** `lugwork new`: a small whole circuit to start from. */
import { oneLine } from '../../../language/escape.js';
import { nearest } from '../../../language/nearest.js';
import { startingCircuits } from '../../../language/starts/index.js';
import { listed } from '../../../language/words.js';
import { CannotRun, exit, type Command } from '../command.js';
import { forceOption, outputOption, writeResult } from '../output/output.js';

const names = startingCircuits.map(({ name }) => name);

export const newCircuit: Command = {
  name: 'new',
  operands: '',
  arity: [0, 0],
  summary: 'print a small circuit to start from',
  details: [
    'Each is whole, with its expectations, and checks without findings: change the values to those of your parts, then the wiring.',
    ...startingCircuits.map(({ name, summary }) => `${name}: ${summary}`),
  ],
  options: [outputOption, forceOption, { name: 'pattern', value: 'NAME', summary: `the circuit; ${names[0] ?? ''} by default` }],
  examples: ['lugwork new -o no-42.lug', 'lugwork new --pattern two-pickups-lever-3 -o no-43.lug'],

  run(call, host) {
    const asked = call.values.get('pattern') ?? names[0];
    const circuit = startingCircuits.find(({ name }) => name === asked);
    if (circuit === undefined) {
      const near = nearest(asked ?? '', names);
      const hint = near === undefined ? '' : `; did you mean ${near}?`;
      throw new CannotRun(`--pattern ${oneLine(asked ?? '')} is not known${hint} (${listed(names)})`);
    }
    writeResult({ text: circuit.text, sources: [], form: 'a circuit' }, call, host);
    return exit.good;
  },
};
