/** `lugwork locate`: from the `measured` lines, the faults that would explain them. */
import { oneLine } from '../../../language/escape.js';
import { locate as locateFaults, locatedJson, locatedText } from '../../../language/intent/index.js';
import { exit, type Command } from '../command.js';
import { choice } from '../options.js';
import { readCircuit } from '../reading.js';

export const locate: Command = {
  name: 'locate',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'from the `measured` lines, the faults that would explain them, and what to meter next',
  details: [
    'Simulates every single fault (a cold joint, a lug or strand on metal, an open or shorted winding, a contact that does not close, a worn pot, a wire on the wrong lug …) and holds it against the readings. A reading fits inside the tolerances of the parts (4 % for a coil that gives none) and the meter’s 1 % and one in the third digit.',
    'Step by step: take the reading it asks for, write it into the file, ask again. Values written `?` and joints that readings prove are told too.',
    'Before metering: unplug from the amplifier and take batteries out.',
  ],
  options: [{ name: 'format', choices: ['text', 'json'], summary: 'how it is written' }],
  examples: ['lugwork locate no-31.lug', 'lugwork locate --format json no-31.lug'],

  run(call, host) {
    const { circuit, file } = readCircuit(call.operands[0]!, host);
    const located = locateFaults(circuit);
    if (choice(call, locate, 'format') === 'json') host.out(locatedJson(located));
    else host.out(`${oneLine(circuit.title ?? file.path)}\n\n${locatedText(located)}`);
    return exit.good;
  },
};
