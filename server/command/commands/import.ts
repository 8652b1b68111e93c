/** `lugwork import`: a table of wires from a spreadsheet, made a circuit. */
import { basename, extname, resolve } from 'node:path';
import { firstOf } from '../../../language/collections.js';
import { oneLine } from '../../../language/escape.js';
import { circuitOfTable, type TableProblem } from '../../../language/table/index.js';
import { CannotRun, exit, type Call, type Command, type Host } from '../command.js';
import { forceOption, outputOption, writeResult } from '../output/output.js';
import { readPiped, readText, standardInput, uriOf } from '../reading/reading.js';

export const importTable: Command = {
  name: 'import',
  operands: 'WIRES.csv',
  arity: [1, 1],
  summary: 'make a circuit from a table of wires, such as a spreadsheet’s',
  details: [
    'The first row names the columns, in any order: `from` and `to`, and optionally `colour`, `gauge`, `length` and `note`. A cell under `from` or `to` is a lug, `volume.3`, or the name of a part that has only one. Cells are separated by commas, semicolons or tabs; beside semicolons and tabs a number may have a decimal comma.',
    'A table has no types of parts. Each is guessed from the lugs that are used and from the part’s name, and a comment on its line says so and names what else would fit; --types says what it is. A name that the language does not take is changed, “Neck PU” to neck-pu, and a comment keeps the original.',
    'What can’t be read is reported with its line and column, and the row is kept as a comment. WIRES.csv may be `-`: the table is then read from the standard input.',
    'Exit code: 0 if every row could be read, 1 if some are only comments or lack something, 2 if there is no circuit.',
  ],
  options: [
    outputOption,
    forceOption,
    { name: 'types', value: '"PART=TYPE, …"', summary: 'types of parts, where a guess is not wanted' },
  ],
  examples: ['lugwork import wires.csv -o no-41.lug', 'lugwork import wires.csv --types "neck=humbucker, bridge=humbucker-4"'],

  run(call, host) {
    const operand = firstOf(call.operands);
    const { name, text, uri } = tableOf(operand, host);
    const title = operand === standardInput ? 'Untitled' : basename(name, extname(name));
    const made = circuitOfTable(text, { name: basename(name), title, types: typesOf(call) });
    if ('problem' in made) throw new CannotRun(typeof made.problem === 'string' ? made.problem : placed(name, made.problem));
    for (const problem of made.problems) host.err(`lugwork: ${placed(name, problem)}\n`);
    for (const remark of made.remarks) host.err(`lugwork: ${name}: ${remark}\n`);
    writeResult({ text: made.text, sources: uri === undefined ? [] : [uri], form: 'a circuit' }, call, host);
    return made.problems.length > 0 ? exit.findings : exit.good;
  },
};

function tableOf(operand: string, host: Host): { name: string; text: string; uri?: string } {
  if (operand === standardInput) return { name: 'standard input', text: readPiped('standard input', host, 'a table').text };
  const read = readText(resolve(host.cwd, operand));
  if ('problem' in read) throw new CannotRun(`${operand}: ${read.problem}`);
  return { name: operand, text: read.text, uri: uriOf(operand, host.cwd) };
}

/** `neck=single-coil, bridge=humbucker`. */
function typesOf(call: Call): ReadonlyMap<string, string> {
  const types = new Map<string, string>();
  for (const entry of call.values.get('types')?.split(',') ?? []) {
    if (entry.trim() === '') continue;
    const [part = '', type = '', ...more] = entry.split('=').map((word) => word.trim());
    if (part === '' || type === '' || more.length > 0)
      throw new CannotRun(`--types takes PART=TYPE, separated by commas, not “${oneLine(entry.trim())}”`);
    types.set(part, type);
  }
  return types;
}

function placed(name: string, { line, character, message }: TableProblem): string {
  return `${name}:${line + 1}:${character + 1}: ${message}`;
}
