/** `lugwork format`: the one layout of the text. */
import { oneLine } from '../../../language/escape.js';
import { formatText } from '../../../language/grammar/index.js';
import { CannotRun, exit, type Command } from '../command.js';
import { circuitOf, diskProject, readFiles, standardInput, type SourceFile } from '../reading/reading.js';
import { counted, numberEdits } from '../../../language/circuit/index.js';
import { edited } from '../../../language/edited.js';
import type { Project } from '../../../language/project.js';
import { rewrite } from '../output/rewrite.js';

export const format: Command = {
  name: 'format',
  operands: 'FILE…',
  arity: [1, Infinity],
  summary: 'format files in place',
  details: [
    'Aligns columns and spaces. Comments are kept and the meaning never changes. A second run changes nothing more.',
    'With --number each wire also gets its number from the cut list (`no 12`), so that it keeps it when other wires come and go.',
  ],
  options: [
    { name: 'check', summary: 'change nothing; exit with 1 if a file is not formatted' },
    { name: 'number', summary: 'write down the number of each wire' },
  ],
  examples: ['lugwork format no-3.lug', 'lugwork format --number no-3.lug', 'lugwork format --check circuits'],

  run(call, host) {
    if (call.operands.includes(standardInput)) throw new CannotRun('lugwork format changes files in place, so it can’t take `-`');
    const { files, isComplete } = readFiles(call.operands, host);
    const isCheck = call.flags.has('check');
    const project = call.flags.has('number') ? diskProject(host) : undefined;
    let changed = 0;
    let isWritten = true;
    for (const file of files) {
      const numbered = project === undefined ? file.text : numberedText(file, project);
      if (numbered === undefined) {
        isWritten = false;
        host.err(`lugwork: ${file.path}: the text has errors, so its wires can’t be numbered; \`lugwork check\` lists them\n`);
        continue;
      }
      const text = formatText(numbered);
      if (text === file.text) continue;
      if (isCheck) {
        changed += 1;
        host.out(`${oneLine(file.path)} is not formatted; \`lugwork format\` formats it\n`);
        continue;
      }
      const { problem, remark } = rewrite(file, text, host);
      if (problem !== undefined) {
        isWritten = false;
        host.err(`lugwork: ${file.path}: this file can’t be written: ${problem}\n`);
        continue;
      }
      changed += 1;
      host.out(`${oneLine(file.path)}\n`);
      if (remark !== undefined) host.err(`lugwork: ${file.path}: ${remark}\n`);
    }
    if (files.length > 0) host.out(`${counted(files.length, 'file')}, ${changed} ${isCheck ? 'not formatted' : 'changed'}\n`);
    if (!isComplete || !isWritten) return exit.cannotRun;
    return isCheck && changed > 0 ? exit.findings : exit.good;
  },
};

/** The text with a number behind each wire; undefined where errors leave it open what a wire is. A library's wires belong to the circuits that use it. */
function numberedText({ uri, text }: SourceFile, project: Project): string | undefined {
  const circuit = circuitOf(project, uri);
  const tree = project.tree(uri);
  if (circuit.isLibrary || tree === undefined) return text;
  if (circuit.problems.some(({ severity }) => severity === 'error')) return undefined;
  return edited(text, numberEdits(tree, circuit));
}
