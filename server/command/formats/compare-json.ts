/** A comparison for programs: the plain data, places by path and counted from 0. */
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { countsOf, type Change } from '../../../language/compare/index.js';
import type { SourceRange } from '../../../language/source.js';
import type { Sides } from '../compare-sides.js';

export function compareJson(change: Change, { before, after }: Sides): string {
  const data = changeData(change, { before: before.path, after: after.path }, process.cwd());
  return `${JSON.stringify({ ...data, counts: countsOf(change) }, null, 2)}\n`;
}

/** The change of one circuit, with what its two versions are called; files are named from the folder `base`. */
export function changeData(change: Change, paths: { readonly before: string; readonly after: string }, base: string): object {
  const { title, ...rest } = change;
  const data = { old: { path: paths.before, title: title.before }, new: { path: paths.after, title: title.after }, ...rest };
  return JSON.parse(JSON.stringify(data, (_, value: unknown) => (isRange(value) ? placed(value, base) : value))) as object;
}

function isRange(value: unknown): value is SourceRange {
  return typeof value === 'object' && value !== null && 'uri' in value && 'start' in value && 'end' in value;
}

function placed({ uri, start, end }: SourceRange, base: string): object {
  return {
    path: uri.startsWith('file:') ? relative(base, fileURLToPath(uri)).replaceAll('\\', '/') : uri,
    range: { start, end },
  };
}
