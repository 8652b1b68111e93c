/** The guides: pages to follow step by step. What they show of a run is what the command prints for the files that the reader has typed so far. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fenced, shownRun } from './run-shown.js';

/** A file that the reader types, a change of one, or a run with its output. */
const step = new RegExp(
  [
    /<!-- file: (?<file>\S+) -->\n\n```\w+\n(?<text>[^]*?)```\n/,
    /<!-- change: (?<changed>\S+) -->\n\n```diff\n(?<lines>[^]*?)```\n/,
    /<!-- ran: (?<line>.+) -->\n[^]*?<!-- end -->/,
  ]
    .map(({ source }) => source)
    .join('|'),
  'g',
);

/** Path from the root and fresh text of each guide. */
export async function guides(root: string): Promise<[string, string][]> {
  const names = readdirSync(join(root, 'guides')).sort();
  return Promise.all(
    names.map(async (name): Promise<[string, string]> => {
      const path = `guides/${name}`;
      return [path, await followed(readFileSync(join(root, path), 'utf8'))];
    }),
  );
}

/** A guide with the output of each of its runs made anew. Throws where a change does not fit the file. */
export async function followed(page: string): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'lugwork-'));
  const files = new Map<string, string>();
  const write = (name: string, text: string): void => {
    files.set(name, text);
    writeFileSync(join(folder, name), text);
  };
  let [fresh, end] = ['', 0];
  try {
    for (const found of page.matchAll(step)) {
      const { file, text = '', changed, lines = '', line } = found.groups ?? {};
      let shown = found[0];
      if (file !== undefined) write(file, text);
      else if (changed !== undefined) write(changed, withChange(changed, files.get(changed) ?? '', lines));
      else if (line !== undefined)
        shown = `<!-- ran: ${line} -->\n\n${fenced('text', await shownRun(folder, line))}\n\n<!-- end -->`;
      fresh += page.slice(end, found.index) + shown;
      end = found.index + found[0].length;
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
  return fresh + page.slice(end);
}

/** A file with lines taken out and put in; each run of lines that go, or the line before those that come, must be there exactly once. */
function withChange(name: string, text: string, lines: string): string {
  return lines
    .split(/^\s*\.\.\.\n/m)
    .filter((hunk) => hunk !== '')
    .reduce((now, hunk) => {
      const kept = (sign: string): string =>
        [...hunk.matchAll(/^([ +-])(.*\n)/gm)].map(([, mark, line]) => (mark === ' ' || mark === sign ? line : '')).join('');
      const before = kept('-');
      if (before === '' || now.split(before).length !== 2)
        throw new Error(`${name} does not hold these lines exactly once:\n${before}`);
      return now.replace(before, () => kept('+'));
    }, text);
}
