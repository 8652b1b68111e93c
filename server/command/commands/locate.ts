/** `lugwork locate`: from the `measured` lines, the faults that would explain them. */
import { firstOf } from '../../../language/collections.js';
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
  summary: 'find faults that explain the `measured` lines, and what to measure next',
  details: [
    'Simulates each single fault (a cold joint, a lug or strand touching metal, an open or shorted winding, a contact that does not close, a worn pot, a wire on the wrong lug …) and compares it with the readings. A reading fits if it is within the tolerances of the parts (4 % for a coil that gives none) plus the meter’s 1 % and one count of the third digit.',
    'Work step by step: take the reading it asks for, add it to the file, run the command again. It also reports values written `?` and joints that the readings prove.',
    'The search has a budget of work, about six seconds, and gives the same result on every machine; the commonest faults are tried first. If the budget runs out, the report says so; --effort 4 searches four times as long.',
    'Before metering: unplug from the amplifier and take the batteries out.',
  ],
  options: [
    { name: 'format', choices: ['text', 'json'], summary: 'output format' },
    { name: 'effort', value: 'N', summary: 'budget of the search, as a factor from 0.01 to 100; 1 by default' },
  ],
  examples: ['lugwork locate no-31.lug', 'lugwork locate --format json no-31.lug'],

  run(call, host) {
    const effort = numberOption(call, 'effort', 1, 0.01, mostEffort);
    const { circuit, file } = readCircuit(firstOf(call.operands), host);
    const located = locateFaults(circuit, createWork(effort * usualLocatingWork));
    if (choice(call, locate, 'format') === 'json') host.out(locatedJson(located));
    else host.out(`${oneLine(circuit.title ?? file.path)}\n\n${locatedText(located)}`);
    if (located.isStopped === true) host.err(`${longer('locate', effort)}\n`);
    return exit.good;
  },
};
