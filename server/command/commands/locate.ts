/** `lugwork locate`: from the `measured` lines, the faults that would explain them. */
import { oneLine } from '../../../language/escape.js';
import { locate as locateFaults, locatedJson, locatedText, usualLocatingWork } from '../../../language/intent/index.js';
import { createWork } from '../../../language/work.js';
import { longer, mostEffort } from '../../stopped-search.js';
import { exit, type Command } from '../command.js';
import { choice, numberOption } from '../options.js';
import { readCircuit } from '../reading/reading.js';

export const locate: Command = {
  name: 'locate',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'from the `measured` lines, the faults that would explain them, and what to meter next',
  details: [
    'Simulates every single fault (a cold joint, a lug or strand on metal, an open or shorted winding, a contact that does not close, a worn pot, a wire on the wrong lug …) and holds it against the readings. A reading fits inside the tolerances of the parts (4 % for a coil that gives none) and the meter’s 1 % and one in the third digit.',
    'Step by step: take the reading it asks for, write it into the file, ask again. Values written `?` and joints that readings prove are told too.',
    'The search has a budget of work, about six seconds, and finds the same on every machine; the commonest faults are tried first. Where the budget is spent the report says so, and --effort 4 searches four times as long.',
    'Before metering: unplug from the amplifier and take batteries out.',
  ],
  options: [
    { name: 'format', choices: ['text', 'json'], summary: 'how it is written' },
    { name: 'effort', value: 'N', summary: 'budget of the search, a factor from 0.01 to 100; 1 where nothing is said' },
  ],
  examples: ['lugwork locate no-31.lug', 'lugwork locate --format json no-31.lug'],

  run(call, host) {
    const effort = numberOption(call, 'effort', 1, 0.01, mostEffort);
    const { circuit, file } = readCircuit(call.operands[0]!, host);
    const located = locateFaults(circuit, createWork(effort * usualLocatingWork));
    if (choice(call, locate, 'format') === 'json') host.out(locatedJson(located));
    else host.out(`${oneLine(circuit.title ?? file.path)}\n\n${locatedText(located)}`);
    if (located.isStopped === true) host.err(`${longer('locate', effort)}\n`);
    return exit.good;
  },
};
