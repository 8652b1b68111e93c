/** `lugwork response`: the frequency response of one setting, from string to amplifier. */
import { firstOf } from '../../../language/collections.js';
import { oneLine } from '../../../language/escape.js';
import type { AnalysedCircuit, StringNote } from '../../../language/circuit/index.js';
import {
  response as sweep,
  settingKeys,
  settingLabel,
  stringResponse,
  type Setting,
  uncountedWires,
} from '../../../language/electrics/index.js';
import { listed } from '../../../language/words.js';
import { CannotRun, exit, type Call, type Command, type Host } from '../command.js';
import { responseCsv, responseJson, responseText } from '../formats/response.js';
import { responseSvg } from '../formats/response-svg.js';
import { stringCsv, stringJson, stringSvg, stringText } from '../formats/string-response.js';
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
    'With --string the pickups sense that string where they are: the file gives `instrument { scale 648mm, tuning "E2 A2 D3 G3 B3 E4" }` and each pickup `from-bridge 165mm, aperture 20mm`. The curve is for comparison by eye: no other figure is made from it.',
  ],
  options: [
    setOption,
    atOption,
    {
      name: 'string',
      value: 'STRING',
      summary: 'as this string sounds, partial by partial: its number (1 is the last of the tuning) or its note',
    },
    { name: 'from', value: 'HZ', summary: 'lowest frequency; 20 by default' },
    { name: 'to', value: 'HZ', summary: 'highest frequency; 20000 by default' },
    { name: 'points', value: 'N', summary: 'number of points, spaced logarithmically; 200 by default, 2000 with --string' },
    { name: 'format', choices: ['text', 'json', 'csv', 'svg'], summary: 'output format' },
  ],
  examples: ['lugwork response no-3.lug', 'lugwork response no-3.lug --set "selector 2, tone 5" --format svg > tone.svg'],

  run(call, host) {
    const asked = band(call);
    const { file, circuit: whole } = readCircuit(firstOf(call.operands), host);
    const circuit = heardAtChosen(call, whole);
    const setting = chosenSetting(call, circuit);
    const uncounted = uncountedWires(circuit);
    const string = call.values.get('string');
    const what: Asked = { call, host, path: file.path, circuit, setting, asked };
    if (string === undefined) showResponse(what);
    else showString(what, string);
    if (uncounted !== undefined) host.err(`lugwork: ${file.path}: ${uncounted}\n`);
    return exit.good;
  },
};

/** Close enough for the nodes of a low string's high partials. */
const stringPoints = 2000;

interface Band {
  readonly from: number;
  readonly to: number;
  readonly points: number;
}

/** One setting of a circuit, and in which band it is to be shown. */
interface Asked {
  readonly call: Call;
  readonly host: Host;
  readonly path: string;
  readonly circuit: AnalysedCircuit;
  readonly setting: Setting;
  readonly asked: Band;
}

function showResponse(asked: Asked): void {
  const { host, circuit, setting } = asked;
  const result = sweep(circuit, setting, asked.asked);
  write(asked, result.problem, {
    json: () => responseJson(result, settingKeys(circuit, setting)),
    csv: () => responseCsv(result),
    svg: (title, label) => responseSvg(result, title, label),
    text: () => `\n${responseText(result, host.columns)}`,
  });
}

function showString(asked: Asked, wanted: string): void {
  const { host, circuit, setting } = asked;
  const [number, string] = chosenString(circuit, wanted);
  const result = stringResponse(circuit, setting, string, asked.asked);
  if (result.missing.length > 0) {
    const names = listed(result.missing.map(({ name }) => name));
    throw new CannotRun(
      `it isn’t known where ${names} senses the string: add { from-bridge 165mm }, measured from the bridge to its middle`,
    );
  }
  const curve = { circuit, number, string, response: result };
  write(asked, result.problem, {
    json: () => stringJson(curve, settingKeys(circuit, setting)),
    csv: () => stringCsv(curve),
    svg: (title, label) => stringSvg(curve, title, label),
    text: () => stringText(curve, host.columns),
  });
}

interface Forms {
  readonly json: () => string;
  readonly csv: () => string;
  readonly svg: (title: string, label: string) => string;
  /** What follows the title and the setting. */
  readonly text: () => string;
}

/** Writes the form that is asked for, and why there is nothing to hear where that is so. */
function write({ call, host, path, circuit, setting }: Asked, problem: string | undefined, forms: Forms): void {
  const title = circuit.title ?? path;
  const label = settingLabel(circuit, setting) || 'default';
  if (problem !== undefined) host.err(`lugwork: ${path}: ${problem}\n`);
  const format = choice(call, response, 'format');
  if (format === 'json' || format === 'csv') host.out(forms[format]());
  else if (format === 'svg') host.out(forms.svg(title, label));
  else host.out(`${oneLine(title)}\n${oneLine(label)}\n${forms.text()}`);
}

/** A string by its number, 1 the last of the tuning as players count, or by its note. */
function chosenString({ strings }: AnalysedCircuit, wanted: string): readonly [number: number, string: StringNote] {
  const example = 'instrument "…" { scale 648mm, tuning "E2 A2 D3 G3 B3 E4" }';
  if (strings === undefined) throw new CannotRun(`the file gives no scale, so that no string is known: ${example}`);
  const numbered = strings.tuning.map((string, i): readonly [number, StringNote] => [strings.tuning.length - i, string]);
  if (numbered.length === 0) throw new CannotRun(`the file gives no tuning, so that no string is known: ${example}`);
  const found = numbered.find(([number, { name }]) => wanted === String(number) || wanted === name);
  if (found !== undefined) return found;
  const names = listed(numbered.map(([number, { name }]) => `${number} (${name})`));
  throw new CannotRun(`there is no string ${wanted}; the strings are ${names}`);
}

function band(call: Call): Band {
  const from = numberOption(call, 'from', 20, 0.001, 1e9);
  const to = numberOption(call, 'to', 20_000, 0.001, 1e9);
  if (to <= from) throw new CannotRun(`--to ${to} must be above --from ${from}`);
  const points = numberOption(call, 'points', call.values.has('string') ? stringPoints : 200, 2, 100_000);
  if (!Number.isInteger(points)) throw new CannotRun(`--points takes a whole number, not ${points}`);
  return { from, to, points };
}
