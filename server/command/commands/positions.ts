/** `lugwork positions`: what each setting of the switches sounds and reads like. */
import { firstOf } from '../../../language/collections.js';
import { oneLine } from '../../../language/escape.js';
import { positionTable } from '../../../language/electrics/index.js';
import { exit, type Command } from '../command.js';
import { distinctRows, positionsCsv, positionsJson, positionsMarkdown, positionsText } from '../formats/positions.js';
import { choice } from '../options.js';
import { atOption, chosenOutput } from '../output-option.js';
import { chosenSetting, setOption } from '../setting.js';
import { readCircuit } from '../reading/reading.js';

export const positions: Command = {
  name: 'positions',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'show what sounds in each switch setting, its hum, meter reading and resonance',
  details: [
    'Pots that --set does not name are at 10, or at their resting rotation. The meter reads between tip and sleeve with nothing plugged in and the batteries out; the range beside it comes from the tolerances of the parts. The peak is given in dB above the reference level, into the lead and amplifier of `rig`.',
    'With --set the table has one row, for that setting. With --distinct rows in which everything is alike but the setting (what sounds, hum, reading, peak, corner and level) are one row that lists its settings; in JSON it has them as `settings`.',
    'Before metering: unplug from the amplifier and take the batteries out.',
  ],
  options: [
    setOption,
    { name: 'distinct', summary: 'list settings that come to the same as one row' },
    atOption,
    { name: 'format', choices: ['text', 'json', 'markdown', 'csv'], summary: 'output format of the table' },
  ],
  examples: [
    'lugwork positions no-3.lug',
    'lugwork positions no-3.lug --set "selector 2, volume 5"',
    'lugwork positions --distinct no-3.lug',
    'lugwork positions --format markdown no-3.lug',
  ],

  run(call, host) {
    const { file, circuit } = readCircuit(firstOf(call.operands), host);
    const output = chosenOutput(call, circuit);
    const whole = positionTable(circuit, {
      response: true,
      ...(output === undefined ? {} : { outputs: [output] }),
      ...(call.values.has('set') ? { setting: chosenSetting(call, circuit) } : {}),
    });
    const table = call.flags.has('distinct') ? distinctRows(whole) : whole;
    switch (choice(call, positions, 'format')) {
      case 'json':
        host.out(positionsJson(table));
        break;
      case 'markdown':
        host.out(positionsMarkdown(table));
        break;
      case 'csv':
        host.out(positionsCsv(table));
        break;
      default:
        host.out(`${oneLine(circuit.title ?? file.path)}\n\n${positionsText(table)}`);
    }
    return exit.good;
  },
};
