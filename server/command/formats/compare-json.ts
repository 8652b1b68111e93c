/** A comparison for programs: the plain data, places by path and counted from 0. */
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Change } from '../../../language/compare/index.js';
import type { SourceRange } from '../../../language/source.js';
import type { Sides } from '../compare-sides.js';

export function compareJson(change: Change, { before, after }: Sides): string {
  const { title, ...rest } = change;
  const data = {
    old: { path: before.path, title: title.before },
    new: { path: after.path, title: title.after },
    ...rest,
  };
  return `${JSON.stringify(data, (_, value: unknown) => (isRange(value) ? placed(value) : value), 2)}\n`;
}

function isRange(value: unknown): value is SourceRange {
  return typeof value === 'object' && value !== null && 'uri' in value && 'start' in value && 'end' in value;
}

function placed({ uri, start, end }: SourceRange): object {
  return {
    path: uri.startsWith('file:') ? relative(process.cwd(), fileURLToPath(uri)).replaceAll('\\', '/') : uri,
    range: { start, end },
  };
}
