/** `--set "selector 1, volume 5"`: read as the settings of an `expect` line are, so that the same words mean the same. */
import { readSettings, type AnalysedCircuit } from '../../language/circuit/index.js';
import { restingSetting, withSettings, type Setting } from '../../language/electrics/index.js';
import { CannotRun, type Call, type OptionDefinition } from './command.js';

export const setOption: OptionDefinition = {
  name: 'set',
  value: '"SETTING, …"',
  summary: 'positions of the controls, written as after `expect`: "selector 1, volume 5"; the others are at rest',
};

/** The setting that a call asks for. Throws `CannotRun` with the language's own message, and its place in the words, where it names what the circuit has not. */
export function chosenSetting(call: Call, circuit: AnalysedCircuit): Setting {
  const words = call.values.get('set');
  if (words === undefined) return restingSetting(circuit);
  const read = readSettings(circuit, words);
  if ('settings' in read) return withSettings(circuit, read.settings);
  throw new CannotRun(`--set, character ${read.character + 1}: ${read.problem}`);
}
