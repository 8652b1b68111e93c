/** `lugwork page`: the instrument as one HTML file that draws, solves and shows what its controls do, without a network. */
import { basename } from 'node:path';
import { firstOf } from '../../../language/collections.js';
import { draw } from '../../../language/drawing/index.js';
import { fillPage, livePage } from '../../../language/live/index.js';
import { exit, type Command } from '../command.js';
import { forceOption, outputOption, sourcesOf, writeResult } from '../output/output.js';
import { readCircuit } from '../reading/reading.js';

export const page: Command = {
  name: 'page',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'make one HTML page with the live drawing: switches and pots to operate, what each position gives',
  details: [
    'The page is one file that opens in any browser, on a phone as well, and never uses a network. It has the drawing with the chosen setting lit, the controls, the table of positions, the response, what each position gives in the player’s words, and the cautions. The page itself computes what a setting sounds like, as the command does, and plays synthesised strings through it when it is asked to.',
    'The page contains the whole circuit: who gets the page gets the wiring.',
  ],
  options: [outputOption, forceOption],
  examples: ['lugwork page no-3.lug -o no-3.html'],

  async run(call, host) {
    const { file, circuit } = readCircuit(firstOf(call.operands), host);
    const thread = host.startLayout();
    try {
      const drawing = await draw(circuit, thread.layout, { side: 'solder', sheet: { file: basename(file.path) } });
      for (const remark of drawing.remarks) host.err(`lugwork: ${file.path}: ${remark}\n`);
      const text = fillPage(host.readPage('dist/page.html'), livePage(circuit, drawing));
      writeResult({ text, sources: sourcesOf(file.uri, circuit), form: 'HTML' }, call, host);
    } finally {
      thread.dispose();
    }
    return exit.good;
  },
};
