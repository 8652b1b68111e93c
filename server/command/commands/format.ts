/** `lugwork format`: the one layout of the text. */
import { oneLine } from '../../../language/escape.js';
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { formatText } from '../../../language/grammar/index.js';
import { exit, type Command } from '../command.js';
import { said } from '../files.js';
import { readFiles } from '../reading.js';
import { counted } from '../report.js';

export const format: Command = {
  name: 'format',
  operands: 'FILE…',
  arity: [1, Infinity],
  summary: 'lay the text out in the one way, in place',
  details: ['Aligns columns and spaces; comments stay, and the meaning never changes. Running it twice changes nothing more.'],
  options: [{ name: 'check', summary: 'change nothing; exit with 1 where a file is not laid out so' }],
  examples: ['lugwork format no-3.lug', 'lugwork format --check circuits'],

  run(call, host) {
    const { files, isComplete } = readFiles(call.operands, host);
    const isCheck = call.flags.has('check');
    let changed = 0;
    let isWritten = true;
    for (const file of files) {
      const text = formatText(file.text);
      if (text === file.text) continue;
      changed += 1;
      if (isCheck) {
        host.out(`${oneLine(file.path)} is not laid out as \`lugwork format\` would\n`);
        continue;
      }
      try {
        writeFileSync(resolve(host.cwd, file.path), text);
        host.out(`${oneLine(file.path)}\n`);
      } catch (error) {
        isWritten = false;
        host.err(`lugwork: ${file.path}: this file cannot be written (${said(error)})\n`);
      }
    }
    if (files.length > 0) host.out(`${counted(files.length, 'file')}, ${changed} ${isCheck ? 'to be changed' : 'changed'}\n`);
    if (!isComplete || !isWritten) return exit.cannotRun;
    return isCheck && changed > 0 ? exit.findings : exit.good;
  },
};
