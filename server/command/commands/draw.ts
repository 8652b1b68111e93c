/** `lugwork draw`: the wiring drawing as SVG, or its scene as JSON. */
import { firstOf } from '../../../language/collections.js';
import { draw as drawCircuit, highlightOf, renderSvg } from '../../../language/drawing/index.js';
import { exit, type Command } from '../command.js';
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
    'Ground wires are drawn, or shown as a mark at each end; `auto` uses marks when there are so many ground wires that they would hide the signal.',
  ],
  options: [
    outputOption,
    forceOption,
    setOption,
    atOption,
    { name: 'side', choices: ['solder', 'player'], summary: 'side to show' },
    { name: 'grounds', choices: ['auto', 'wires', 'marks'], summary: 'how to show ground wires' },
    {
      name: 'scheme',
      choices: ['reader', 'light', 'dark'],
      summary: 'colour scheme; `reader` follows the reader’s system',
    },
    { name: 'format', choices: ['svg', 'json'], summary: 'output format: the picture, or the scene it is made from' },
  ],
  examples: ['lugwork draw no-3.lug -o no-3.svg', 'lugwork draw no-3.lug --set "selector 2" --side player -o no-3-2.svg'],

  async run(call, host) {
    const { file, circuit } = readCircuit(firstOf(call.operands), host);
    const heard = heardAtChosen(call, circuit);
    const setting = chosenSetting(call, heard);
    const scheme = choice(call, draw, 'scheme');
    const thread = host.startLayout();
    try {
      const { scene, diagram, remarks } = await drawCircuit(circuit, thread.layout, {
        side: choice(call, draw, 'side') === 'player' ? 'player' : 'solder',
        grounds: choice(call, draw, 'grounds') as 'auto' | 'wires' | 'marks',
      });
      for (const remark of remarks) host.err(`lugwork: ${file.path}: ${remark}\n`);
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
