/** The table of usual practice, worked out from the circuits of `language/practice`. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createProject } from '../../language/project.js';
import { patternsOf, type Practice } from '../../language/roles/index.js';

const folder = 'language/practice';

/** The path of the module, and its text. Throws where a circuit has an error or speaks of no part. */
export function practiceFile(root: string): readonly [path: string, text: string] {
  const names = readdirSync(join(root, folder))
    .filter((name) => name.endsWith('.lug'))
    .map((name) => name.slice(0, -4))
    .sort();
  const all = names.map((name) => patternsIn(join(root, folder, `${name}.lug`), name));
  const table = (['tracks', 'poles', 'leads', 'lugs'] as const).flatMap((kind) => {
    const rows = all.flatMap((practice): readonly object[] => practice[kind]);
    return [`  ${kind}: [`, ...rows.map((pattern) => `    ${literal(pattern)},`), '  ],'];
  });
  const text = [
    '/** Patterns of usual practice, worked out from the circuits of language/practice/. Made by server/docs/practice.ts. */',
    "import type { Practice } from '../practice-table.js';",
    '',
    '/* prettier-ignore */',
    'export const PRACTICE: Practice = {',
    ...table,
    '};',
    '',
  ].join('\n');
  return ['language/roles/generated/practice.ts', text];
}

function patternsIn(path: string, name: string): Practice {
  const uri = pathToFileURL(path).href;
  const circuit = createProject({ read: (asked) => (asked === uri ? readFileSync(path, 'utf8') : undefined) }).circuit(uri);
  const [problem] = circuit?.problems ?? [];
  if (circuit === undefined || problem !== undefined) throw new Error(`${path}: ${problem?.message ?? 'not read'}`);
  const patterns = patternsOf(circuit, name);
  if (Object.values(patterns).flat().length === 0) throw new Error(`${path} states no role, and no part has a comment`);
  return patterns;
}

/** A value as source text of a module: strings in single quotes, field names without quotes where they are words. */
function literal(value: unknown): string {
  if (typeof value === 'string') return value.includes("'") ? JSON.stringify(value) : `'${value}'`;
  if (Array.isArray(value)) return `[${value.map(literal).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).map(
    ([key, field]) => `${/^[a-z]\w*$/i.test(key) ? key : literal(key)}: ${literal(field)}`,
  );
  return `{ ${fields.join(', ')} }`;
}
