/** `lugwork sheet`: the bench sheet as HTML or Markdown, its lists as comma-separated values. */
import { basename } from 'node:path';
import { firstOf } from '../../../language/collections.js';
import { extname } from 'node:path';
import {
  benchSheet,
  buildOf,
  paperPages,
  PAPERS,
  playerPage,
  sheetHtml,
  sheetMarkdown,
  type Paper,
} from '../../../language/workshop/index.js';
import { nearest } from '../../../language/nearest.js';
import type { AnalysedCircuit } from '../../../language/circuit/model.js';
import { draw, figuresOf } from '../../../language/drawing/index.js';
import { CannotRun, exit, type Call, type Command, type Host } from '../command.js';
import { sheetCsv, type SheetList } from '../formats/sheet.js';
import { choice } from '../options.js';
import { forceOption, outputOption, sourcesOf, writeResult } from '../output/output.js';
import { readCircuit } from '../reading/reading.js';

const endings: Readonly<Record<string, string>> = {
  '.html': 'html',
  '.htm': 'html',
  '.md': 'markdown',
  '.markdown': 'markdown',
  '.csv': 'csv',
};

export const sheet: Command = {
  name: 'sheet',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'make the bench sheet: solder order, cut list, meter sheet, parts list',
  details: [
    'The sheet has the cautions first, then the drawing, the lists, the solder order with boxes to tick, and the tests. HTML prints in black and white on A4 and Letter. The drawing takes one page, or an overview and several pages with text of at least 6 pt. The format follows the ending of the output file unless --format says otherwise.',
    'CSV holds one list: --list says which. Lengths come from cavities, channels and plates; if a route is not known, the sheet says to measure in place. `build { … }` in the file sets the workshop’s slack, strip, stock, fill and order. `--list buy` is one order list for the whole batch, with spares: parts, knobs, screws, solder lugs, shielding and battery clips where the text has shafts, plates, cavities and batteries, wire by the metre, heat-shrink; a quantity that the text cannot know is left empty.',
    'For a record (a file with `record 2` that uses the circuit) the sheet is that instrument’s: its values, its ticks, the readings taken. `--for player` names every control, draws the positions of the switches, and says in plain words what each sounds like, whether it hums, when to change the battery and what was changed.',
    '`--with flags,template,form` prints pages behind the sheet, in HTML: flags to fold round the ends of the wires, drilling templates at true size of the plates that give their parts places (`size 120 60` on a plate, `hole 9.5mm` on a part), and a form for the customer.',
  ],
  options: [
    outputOption,
    forceOption,
    {
      name: 'format',
      choices: ['auto', 'html', 'markdown', 'csv'],
      summary: 'output format; `auto` follows the output file, else CSV with --list, or Markdown',
    },
    {
      name: 'list',
      choices: ['cut', 'buy', 'parts', 'sleeves', 'order', 'meter', 'tap'],
      summary: 'the list to write as CSV',
    },
    { name: 'for', choices: ['bench', 'player'], summary: 'for the bench, or a page for the player without technical terms' },
    { name: 'with', value: 'WORDS', summary: 'print these as well, separated by commas: flags, template, form' },
    { name: 'no-drawing', summary: 'leave out the drawing' },
  ],
  examples: [
    'lugwork sheet no-3.lug -o no-3.html',
    'lugwork sheet no-3.lug --list buy -o order.csv',
    'lugwork sheet no-3.no-2.lug --for player -o page.html',
    'lugwork sheet no-3.lug --list parts -o parts.csv',
    'lugwork sheet no-3.lug --with flags,template -o no-3.html',
  ],

  async run(call, host) {
    const output = call.values.get('output');
    const asked = choice(call, sheet, 'format');
    const isList = call.values.has('list');
    const papers = papersAsked(call);
    const usual = isList ? 'csv' : papers === undefined ? 'markdown' : 'html';
    const form = asked !== 'auto' ? asked : output === undefined ? usual : endings[extname(output).toLowerCase()];
    if (form === undefined) throw new CannotRun(`${output} does not end in .html, .md or .csv; choose the format with --format`);
    if (isList && form !== 'csv')
      throw new CannotRun('--list writes one list as CSV: leave out --format, and name a .csv file after -o');
    if (papers !== undefined && (form !== 'html' || choice(call, sheet, 'for') === 'player'))
      throw new CannotRun('--with prints its pages behind the bench sheet in HTML: name an .html file after -o');
    const { file, circuit } = readCircuit(firstOf(call.operands), host);
    let text: string;
    if (form === 'csv') text = sheetCsv(buildOf(circuit), choice(call, sheet, 'list') as SheetList);
    else if (choice(call, sheet, 'for') === 'player') {
      const page = playerPage(buildOf(circuit));
      text = form === 'markdown' ? sheetMarkdown(page) : sheetHtml(page);
    } else if (form === 'markdown') text = sheetMarkdown(benchSheet(buildOf(circuit)));
    else {
      const drawing = call.flags.has('no-drawing') ? {} : await drawn(circuit, file.path, host);
      text = sheetHtml(benchSheet(buildOf(circuit), drawing), paperPages(buildOf(circuit), papers ?? []));
    }
    writeResult({ text, sources: sourcesOf(file.uri, circuit) }, call, host);
    return exit.good;
  },
};

/** The papers that `--with` names. */
function papersAsked(call: Call): readonly Paper[] | undefined {
  return call.values
    .get('with')
    ?.split(',')
    .map((word) => word.trim())
    .map((word) => {
      const paper = PAPERS.find((known) => known === word);
      if (paper !== undefined) return paper;
      const near = nearest(word, PAPERS);
      throw new CannotRun(
        `--with ${word} is not known${near === undefined ? '' : `; did you mean ${near}?`} (${PAPERS.join(', ')})`,
      );
    });
}

/** The drawing as the pages that it takes. */
async function drawn(circuit: AnalysedCircuit, path: string, host: Host): Promise<{ drawing: readonly string[] }> {
  const thread = host.startLayout();
  try {
    const sheet = { file: basename(path) };
    const drawing = await draw(circuit, thread.layout, { side: 'solder', sheet });
    for (const remark of drawing.remarks) host.err(`lugwork: ${path}: ${remark}\n`);
    return { drawing: figuresOf(drawing, sheet) };
  } finally {
    thread.dispose();
  }
}
