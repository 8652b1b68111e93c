/** Writes a circuit that was read and changed back into its file. */
import { resolve } from 'node:path';
import type { Host } from '../command.js';
import { readText, type SourceFile } from '../reading/reading.js';
import { replaceFile, type Written } from './write-file.js';

/** Leaves alone what was saved by another program while the new text was made. */
export function rewrite(file: SourceFile, text: string, { cwd }: Pick<Host, 'cwd'>): Written {
  const path = resolve(cwd, file.path);
  const now = readText(path);
  if (!('text' in now) || now.text !== file.text) return { problem: 'another program changed it in the meantime' };
  return replaceFile(path, (file.hasMark ? '\uFEFF' : '') + text);
}
