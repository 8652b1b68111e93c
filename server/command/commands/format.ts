/** `lugwork format`: the one layout of the text. */
import { oneLine } from '../../../language/escape.js';
import { formatText } from '../../../language/grammar/index.js';
import { CannotRun, exit, type Command } from '../command.js';
import { readFiles, standardInput } from '../reading/reading.js';
import { counted } from '../../../language/circuit/index.js';
import { rewrite } from '../output/rewrite.js';

export const format: Command = {
  name: 'format',
  operands: 'FILE…',
  arity: [1, Infinity],
  summary: 'format files in place',
  details: ['Aligns columns and spaces. Comments are kept and the meaning never changes. A second run changes nothing more.'],
  options: [{ name: 'check', summary: 'change nothing; exit with 1 if a file is not formatted' }],
  examples: ['lugwork format no-3.lug', 'lugwork format --check circuits'],

  run(call, host) {
    if (call.operands.includes(standardInput)) throw new CannotRun('lugwork format changes files in place, so it can’t take `-`');
    const { files, isComplete } = readFiles(call.operands, host);
    const isCheck = call.flags.has('check');
    let changed = 0;
    let isWritten = true;
    for (const file of files) {
      const text = formatText(file.text);
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
