/** `lugwork draw`: the wiring drawing as SVG, on a screen or as pages of paper, or its scene as JSON. */
import { basename } from 'node:path';
import { firstOf } from '../../../language/collections.js';
import type { Circuit } from '../../../language/circuit/index.js';
import {
  draw as drawCircuit,
  highlightOf,
  leastPoints,
  papers,
  placeNames,
  pointsOnOne,
  printPages,
  renderSvg,
  type Drawing,
  type SheetNotes,
  type SvgOptions,
} from '../../../language/drawing/index.js';
import { oneLine } from '../../../language/escape.js';
import { listed } from '../../../language/words.js';
import { CannotRun, exit, type Call, type Command, type Host } from '../command.js';
import { choice } from '../options.js';
import {
  forceOption,
  isStandardOutput,
  outputOption,
  sourcesOf,
  writeOutput,
  writeResult,
  type Result,
} from '../output/output.js';
import { pageName, removeOldPages, signed } from '../output/pages.js';
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
    'With --plate a wire that leaves the plate or cavity ends in a mark that says where it goes.',
    'With --paper the drawing is as large as the sheet, to print at 100 %, and its smallest text is at least 6 pt. Where one sheet is too small, -o FILE.svg is an overview with numbered outlines, and FILE-2.svg, FILE-3.svg … beside it are those pages; a wire that leaves a page says where it goes on. Pages that an earlier run left beside FILE.svg and that this one does not need are removed, unless someone has changed them.',
    'Ground wires are drawn, or shown as a mark at each end; `auto` uses marks when there are so many ground wires that they would hide the signal.',
  ],
  options: [
    outputOption,
    forceOption,
    setOption,
    atOption,
    { name: 'plate', value: 'NAME', summary: 'draw only what is on that plate or in that cavity' },
    { name: 'paper', choices: ['none', 'a4', 'letter'], summary: 'sheet to print on; `none` is one drawing of any size' },
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
    'lugwork draw no-17.lug --paper a4 -o no-17.svg',
  ],

  async run(call, host) {
    const { file, circuit } = readCircuit(firstOf(call.operands), host);
    const plate = chosenPlate(call, circuit);
    const heard = heardAtChosen(call, circuit);
    const setting = chosenSetting(call, heard);
    const scheme = choice(call, draw, 'scheme');
    const paper = choice(call, draw, 'paper');
    const isJson = choice(call, draw, 'format') === 'json';
    if (isJson && paper !== 'none') throw new CannotRun('--paper makes pages to print, which are SVG; leave out --format json');
    const sheet = { file: basename(file.path), ...valueOf(call, 'revision'), ...valueOf(call, 'date') };
    const thread = host.startLayout();
    try {
      const drawing = await drawCircuit(circuit, thread.layout, {
        side: choice(call, draw, 'side') === 'player' ? 'player' : 'solder',
        grounds: choice(call, draw, 'grounds') as 'auto' | 'wires' | 'marks',
        ...(plate === undefined ? {} : { plate }),
        sheet,
      });
      for (const remark of drawing.remarks) host.err(`lugwork: ${file.path}: ${remark}\n`);
      const isLit = call.values.has('set') || call.values.has('at');
      const look: SvgOptions = {
        ...(isLit ? { highlight: highlightOf(heard, drawing.diagram, setting) } : {}),
        ...(scheme === 'light' || scheme === 'dark' ? { scheme } : {}),
      };
      const result = { sources: sourcesOf(file.uri, circuit), form: isJson ? ('JSON' as const) : ('SVG' as const) };
      if (paper === 'a4' || paper === 'letter') {
        writePages({ drawing, sheet, paper, look }, result, call, host);
      } else {
        const remark = printRemark(drawing, sheet);
        if (remark !== undefined) host.err(`lugwork: ${file.path}: ${remark}\n`);
        const text = isJson ? `${JSON.stringify(drawing.scene, null, 2)}\n` : renderSvg(drawing.scene, look);
        writeOne({ ...result, text }, call, host);
      }
    } finally {
      thread.dispose();
    }
    return exit.good;
  },
};

interface Printed {
  readonly drawing: Drawing;
  readonly sheet: SheetNotes;
  readonly paper: keyof typeof papers;
  readonly look: SvgOptions;
}

/** One file where it fits on one sheet, else a file a page: `-o` names the overview, the others have their numbers after its name. */
function writePages({ drawing, sheet, paper, look }: Printed, result: Omit<Result, 'text'>, call: Call, host: Host): void {
  const says = look.highlight?.says;
  const pages = printPages(drawing, { paper: papers[paper], sheet, ...(says === undefined ? {} : { says }) });
  const texts = pages.map((page) => renderSvg(page.scene, { ...look, paper: page }));
  if (texts.length === 1) return writeOne({ ...result, text: firstOf(texts) }, call, host);
  const output = call.values.get('output');
  if (output === undefined || isStandardOutput(output, host.cwd))
    throw new CannotRun(`the drawing takes ${texts.length} pages, a file each; name the first with -o FILE.svg`);
  texts.forEach((text, index) => {
    const name = pageName(output, index + 1);
    const page = index === 0 ? text : signed(text, name);
    writeOutput(name, { ...result, text: page }, call.flags.has('force'), host);
  });
  removeOldPages(output, texts.length, host);
}

/** A drawing in one file; pages that an earlier one had beside it are of no use any more. */
function writeOne(result: Result, call: Call, host: Host): void {
  writeResult(result, call, host);
  const output = call.values.get('output');
  if (output !== undefined && !isStandardOutput(output, host.cwd)) removeOldPages(output, 1, host);
}

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
function printRemark(drawing: Drawing, sheet: SheetNotes): string | undefined {
  const points = pointsOnOne(drawing, { sheet });
  return points >= leastPoints
    ? undefined
    : `on one sheet of A4 or Letter its smallest text is ${points.toFixed(1)} pt, less than ${leastPoints} pt; \`--paper a4\` and \`--paper letter\` write pages`;
}
