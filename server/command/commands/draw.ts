/** `lugwork draw`: the wiring drawing as SVG, or its scene as JSON. */
import { basename } from 'node:path';
import { firstOf } from '../../../language/collections.js';
import type { Circuit } from '../../../language/circuit/index.js';
import {
  draw as drawCircuit,
  highlightOf,
  leastPoints,
  placeNames,
  renderSvg,
  smallestPoints,
  type Scene,
} from '../../../language/drawing/index.js';
import { oneLine } from '../../../language/escape.js';
import { listed } from '../../../language/words.js';
import { CannotRun, exit, type Call, type Command } from '../command.js';
import { choice } from '../options.js';
import { forceOption, outputOption, sourcesOf, writeResult } from '../output/output.js';
import { readCircuit } from '../reading/reading.js';
import { atOption, heardAtChosen } from '../output-option.js';
import { chosenSetting, setOption } from '../setting.js';

export const draw: Command = {
  name: 'draw',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'draw the wiring',
  details: [
    'The drawing shows the solder side unless --side says otherwise. With --set it shows that setting: closed contacts, the signal path, idle parts; with --at the path to that output.',
    'With --plate a wire that leaves the plate or cavity ends in a mark that says where it goes. On A4 and Letter the smallest text should be 6 pt at least; where the whole drawing is too large for that, a remark says so.',
    'Ground wires are drawn, or shown as a mark at each end; `auto` uses marks when there are so many ground wires that they would hide the signal.',
  ],
  options: [
    outputOption,
    forceOption,
    setOption,
    atOption,
    { name: 'plate', value: 'NAME', summary: 'draw only what is on that plate or in that cavity' },
    { name: 'side', choices: ['solder', 'player'], summary: 'side to show' },
    { name: 'grounds', choices: ['auto', 'wires', 'marks'], summary: 'how to show ground wires' },
    {
      name: 'scheme',
      choices: ['reader', 'light', 'dark'],
      summary: 'colour scheme; `reader` follows the reader’s system',
    },
    { name: 'revision', value: 'TEXT', summary: 'revision for the title block' },
    { name: 'date', value: 'TEXT', summary: 'date for the title block; a record’s own by default' },
    { name: 'format', choices: ['svg', 'json'], summary: 'output format: the picture, or the scene it is made from' },
  ],
  examples: [
    'lugwork draw no-3.lug -o no-3.svg',
    'lugwork draw no-3.lug --set "selector 2" --side player -o no-3-2.svg',
    'lugwork draw no-17.lug --plate controls -o controls.svg',
  ],

  async run(call, host) {
    const { file, circuit } = readCircuit(firstOf(call.operands), host);
    const plate = chosenPlate(call, circuit);
    const heard = heardAtChosen(call, circuit);
    const setting = chosenSetting(call, heard);
    const scheme = choice(call, draw, 'scheme');
    const thread = host.startLayout();
    try {
      const { scene, diagram, remarks } = await drawCircuit(circuit, thread.layout, {
        side: choice(call, draw, 'side') === 'player' ? 'player' : 'solder',
        grounds: choice(call, draw, 'grounds') as 'auto' | 'wires' | 'marks',
        ...(plate === undefined ? {} : { plate }),
        sheet: { file: basename(file.path), ...valueOf(call, 'revision'), ...valueOf(call, 'date') },
      });
      for (const remark of remarks) host.err(`lugwork: ${file.path}: ${remark}\n`);
      const remark = printRemark(scene, circuit, plate);
      if (remark !== undefined) host.err(`lugwork: ${file.path}: ${remark}\n`);
      const isJson = choice(call, draw, 'format') === 'json';
      const text = isJson
        ? `${JSON.stringify(scene, null, 2)}\n`
        : renderSvg(scene, {
            ...(call.values.has('set') || call.values.has('at') ? { highlight: highlightOf(heard, diagram, setting) } : {}),
            ...(scheme === 'light' || scheme === 'dark' ? { scheme } : {}),
          });
      writeResult({ text, sources: sourcesOf(file.uri, circuit), form: isJson ? 'JSON' : 'SVG' }, call, host);
    } finally {
      thread.dispose();
    }
    return exit.good;
  },
};

/** Throws `CannotRun` where the circuit has no such plate or cavity, and names those that it has. */
function chosenPlate(call: Call, circuit: Circuit): string | undefined {
  const name = call.values.get('plate');
  const names = placeNames(circuit);
  if (name === undefined || names.includes(name)) return name;
  const known = names.length === 0 ? 'it has none with parts on it' : `it has ${listed(names, 'and')}`;
  throw new CannotRun(`--plate: this circuit has no plate or cavity ${oneLine(name)}; ${known}`);
}

function valueOf<Name extends string>(call: Call, name: Name): { [K in Name]?: string } {
  const value = call.values.get(name);
  return (value === undefined ? {} : { [name]: value }) as { [K in Name]?: string };
}

/** What to do about texts that would be too small on paper. */
function printRemark(scene: Scene, circuit: Circuit, plate: string | undefined): string | undefined {
  const points = smallestPoints(scene);
  if (points >= leastPoints) return undefined;
  const names = placeNames(circuit).filter((name) => name !== plate);
  const cure =
    plate !== undefined || names.length === 0
      ? 'print it on a larger sheet'
      : `\`--plate NAME\` draws a page each: ${listed(names, 'or')}`;
  return `on A4 or Letter its smallest text is ${points.toFixed(1)} pt, less than ${leastPoints} pt; ${cure}`;
}
