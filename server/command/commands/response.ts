/** `lugwork response`: the frequency response of one setting, from string to amplifier. */
import { firstOf } from '../../../language/collections.js';
import { oneLine } from '../../../language/escape.js';
import { response as sweep, settingKeys, settingLabel, uncountedWires } from '../../../language/electrics/index.js';
import { CannotRun, exit, type Call, type Command } from '../command.js';
import { responseCsv, responseJson, responseText } from '../formats/response.js';
import { responseSvg } from '../formats/response-svg.js';
import { choice, numberOption } from '../options.js';
import { readCircuit } from '../reading/reading.js';
import { atOption, heardAtChosen } from '../output-option.js';
import { chosenSetting, setOption } from '../setting.js';

export const response: Command = {
  name: 'response',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'show the frequency response from string to amplifier, in one setting',
  details: [
    '0 dB is the unloaded voltage of one pickup of output 100 %. Pots that --set does not name are at 10, or at their resting rotation.',
  ],
  options: [
    setOption,
    atOption,
    { name: 'from', value: 'HZ', summary: 'lowest frequency; 20 by default' },
    { name: 'to', value: 'HZ', summary: 'highest frequency; 20000 by default' },
    { name: 'points', value: 'N', summary: 'number of points, spaced logarithmically; 200 by default' },
    { name: 'format', choices: ['text', 'json', 'csv', 'svg'], summary: 'output format' },
  ],
  examples: ['lugwork response no-3.lug', 'lugwork response no-3.lug --set "selector 2, tone 5" --format svg > tone.svg'],

  run(call, host) {
    const { from, to, points } = band(call);
    const { file, circuit: whole } = readCircuit(firstOf(call.operands), host);
    const circuit = heardAtChosen(call, whole);
    const setting = chosenSetting(call, circuit);
    const result = sweep(circuit, setting, { from, to, points });
    const title = circuit.title ?? file.path;
    const label = settingLabel(circuit, setting) || 'default';
    if (result.problem !== undefined) host.err(`lugwork: ${file.path}: ${result.problem}\n`);
    const uncounted = uncountedWires(circuit);
    if (uncounted !== undefined) host.err(`lugwork: ${file.path}: ${uncounted}\n`);
    switch (choice(call, response, 'format')) {
      case 'json':
        host.out(responseJson(result, settingKeys(circuit, setting)));
        break;
      case 'csv':
        host.out(responseCsv(result));
        break;
      case 'svg':
        host.out(responseSvg(result, title, label));
        break;
      default:
        host.out(`${oneLine(title)}\n${oneLine(label)}\n\n${responseText(result, host.columns)}`);
    }
    return exit.good;
  },
};

function band(call: Call): { from: number; to: number; points: number } {
  const from = numberOption(call, 'from', 20, 0.001, 1e9);
  const to = numberOption(call, 'to', 20_000, 0.001, 1e9);
  if (to <= from) throw new CannotRun(`--to ${to} must be above --from ${from}`);
  const points = numberOption(call, 'points', 200, 2, 100_000);
  if (!Number.isInteger(points)) throw new CannotRun(`--points takes a whole number, not ${points}`);
  return { from, to, points };
}
