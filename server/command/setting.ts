/** `--set "selector 1, volume 5"`: read as the settings of an `expect` line are, so that the same words mean the same. */
import type { Circuit } from '../../language/circuit/model.js';
import { restingSetting, withSettings, type Setting } from '../../language/electrics/index.js';
import { linesOf } from '../../language/grammar/index.js';
import { CannotRun, type Call, type OptionDefinition } from './command.js';
import { projectWith, type SourceFile } from './reading/reading.js';

export const setOption: OptionDefinition = {
  name: 'set',
  value: '"SETTING, …"',
  summary: 'how the controls stand, as after `expect`: "selector 1, volume 5"; the others rest',
};

/** The setting that a call asks for. Throws `CannotRun` with the language's own message where it names what the circuit has not. */
export function chosenSetting(call: Call, file: SourceFile, circuit: Circuit): Setting {
  const words = call.values.get('set');
  return words === undefined ? restingSetting(circuit) : parseSetting(words, file, circuit, call.flags.has('outside'));
}

function parseSetting(words: string, file: SourceFile, circuit: Circuit, outside: boolean): Setting {
  if (file.path.endsWith('.json')) throw new CannotRun(`--set needs the text of the circuit, and ${file.path} is not one`);
  const ending = /[\r\n]$/.test(file.text) ? '' : '\n';
  const line = linesOf(file.text + ending).length - 1;
  const text = `${file.text}${ending}expect ${words} : silent\n`;
  const asked = projectWith(file.uri, text, { cwd: process.cwd(), outside }).circuit(file.uri)!;
  const isAsked = (range: { uri: string; start: { line: number } }) => range.uri === file.uri && range.start.line >= line;
  const problem = asked.problems.find(({ range }) => isAsked(range));
  if (problem) throw new CannotRun(`--set: ${problem.message}`);
  const [expectation, ...more] = asked.expectations.filter(({ range }) => isAsked(range));
  const isPlain =
    expectation &&
    more.length === 0 &&
    expectation.settings.length > 0 &&
    expectation.claims.length === 1 &&
    !/[\r\n]/.test(words);
  if (!isPlain) throw new CannotRun(`--set “${words}” cannot be read; write it as "selector 1, volume 5"`);
  return withSettings(circuit, expectation.settings);
}
