/** The table of usual practice, worked out from the circuits of `language/practice`. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createProject } from '../../language/project.js';
import { patternsOf, type TrackPattern } from '../../language/roles/index.js';

const folder = 'language/practice';

/** The path of the module, and its text. Throws where a circuit has an error or states no role. */
export function practiceFile(root: string): readonly [path: string, text: string] {
  const names = readdirSync(join(root, folder))
    .filter((name) => name.endsWith('.lug'))
    .map((name) => name.slice(0, -4))
    .sort();
  const tracks = names.flatMap((name) => patternsIn(join(root, folder, `${name}.lug`), name));
  const rows = tracks.map((pattern) => `    ${literal(pattern)},`);
  const text = [
    '/** Patterns of usual practice, worked out from the circuits of language/practice/. Made by server/docs/practice.ts. */',
    "import type { Practice } from '../practice.js';",
    '',
    '/* prettier-ignore */',
    'export const PRACTICE: Practice = {',
    '  tracks: [',
    ...rows,
    '  ],',
    '};',
    '',
  ].join('\n');
  return ['language/roles/generated/practice.ts', text];
}

function patternsIn(path: string, name: string): readonly TrackPattern[] {
  const uri = pathToFileURL(path).href;
  const circuit = createProject({ read: (asked) => (asked === uri ? readFileSync(path, 'utf8') : undefined) }).circuit(uri);
  const [problem] = circuit?.problems ?? [];
  if (circuit === undefined || problem !== undefined) throw new Error(`${path}: ${problem?.message ?? 'not read'}`);
  const patterns = patternsOf(circuit, name);
  if (patterns.length === 0) throw new Error(`${path} states the role of no pot`);
  return patterns;
}

function literal({ role, name, says, cold, wiper, hot }: TrackPattern): string {
  const fields = Object.entries({ role, name, says, cold, wiper, hot });
  return `{ ${fields.map(([key, value]) => `${key}: ${quoted(value)}`).join(', ')} }`;
}

function quoted(text: string): string {
  return text.includes("'") ? JSON.stringify(text) : `'${text}'`;
}
