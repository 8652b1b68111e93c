/** A drawing of several files, one a page: how the command names them, and how it knows again those of an earlier run. */
import { createHash } from 'node:crypto';
import { lstatSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, extname, resolve } from 'node:path';
import { listed } from '../../../language/words.js';
import type { Host } from '../command.js';
import { describeError } from '../system-words.js';

const signature = /<!-- page by lugwork draw, ([0-9a-f]{64}) -->\n$/;

/** `no-17-3.svg` for the third page of `no-17.svg`; the first page has the name itself. */
export function pageName(output: string, page: number): string {
  const ending = extname(output);
  return page === 1 ? output : `${output.slice(0, output.length - ending.length)}-${page}${ending}`;
}

/** The text of a page with a last line by which a later run knows that nobody has renamed or changed the file since. */
export function signed(text: string, name: string): string {
  return `${text}<!-- page by lugwork draw, ${digest(text, name)} -->\n`;
}

/** Removes the pages that an earlier run wrote beside `output` beyond the last of this run, and says so; a page changed since then stays. */
export function removeOldPages(output: string, last: number, host: Host): void {
  const path = resolve(host.cwd, output);
  const removed: string[] = [];
  for (const page of pagesBeside(path).filter((number) => number > last)) {
    const [name, old] = [pageName(output, page), pageName(path, page)];
    try {
      const state = lstatSync(old).isFile() ? stateOf(readFileSync(old, 'utf8'), old) : 'foreign';
      if (state === 'own') {
        rmSync(old);
        removed.push(name);
      } else if (state === 'changed') {
        host.err(`lugwork: ${name}: a page of an earlier drawing, renamed or changed since then, so it was not removed\n`);
      }
    } catch (error) {
      host.err(`lugwork: ${name}: a page of an earlier drawing that can’t be removed: ${describeError(error)}\n`);
    }
  }
  if (removed.length > 0) host.err(`lugwork: removed ${listed(removed, 'and')}, left over from an earlier drawing\n`);
}

/** Numbers of the files that are named as pages of this one, in order. */
function pagesBeside(path: string): number[] {
  if (statSync(path, { throwIfNoEntry: false })?.isFile() !== true) return [];
  const own = basename(path);
  const numbers = readdirSync(dirname(path)).flatMap((name) => {
    const page = Number(/-([1-9]\d{0,3})(?:\.[^.]*)?$/.exec(name)?.[1]);
    return page > 1 && pageName(own, page) === name ? [page] : [];
  });
  return numbers.sort((a, b) => a - b);
}

function stateOf(text: string, path: string): 'own' | 'changed' | 'foreign' {
  const found = signature.exec(text);
  if (found === null) return 'foreign';
  return found[1] === digest(text.slice(0, found.index), path) ? 'own' : 'changed';
}

function digest(text: string, path: string): string {
  return createHash('sha256')
    .update(`${basename(path)}\n${text}`)
    .digest('hex');
}
