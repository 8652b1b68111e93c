/** `lugwork netlist`: one setting as a deck for a general circuit solver. */
import { firstOf } from '../../../language/collections.js';
import { spiceDeck } from '../../../language/electrics/index.js';
import { exit, type Command } from '../command.js';
import { readCircuit } from '../reading/reading.js';
import { atOption, heardAtChosen } from '../output-option.js';
import { chosenSetting, setOption } from '../setting.js';

export const netlist: Command = {
  name: 'netlist',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'print one setting of the circuit as a plain SPICE deck, for any general circuit solver',
  details: ['Nets have readable names; each pot is fixed at its rotation; the lead and amplifier of `rig` are included.'],
  options: [setOption, atOption],
  examples: ['lugwork netlist no-3.lug --set "selector 2, tone 5" > no-3.cir'],

  run(call, host) {
    const circuit = heardAtChosen(call, readCircuit(firstOf(call.operands), host).circuit);
    host.out(spiceDeck(circuit, chosenSetting(call, circuit)));
    return exit.good;
  },
};
