// Writes language/parts/generated/library.ts, the text of the standard library as a module, from the .lug files of language/parts/.
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

const parts = new URL('../../language/parts/', import.meta.url);
const library = new URL('generated/library.ts', parts);

/** The module's text, so that a test can prove that the file on disk is fresh. */
export function libraryModule() {
  const files = readdirSync(parts)
    .filter((name) => name.endsWith('.lug'))
    .sort();
  const entries = files.map((name) => {
    const text = readFileSync(new URL(name, parts), 'utf8')
      .replaceAll('\\', '\\\\')
      .replaceAll('`', '\\`')
      .replaceAll('${', '\\${');
    return `  'lugwork:/parts/${name}': \`${text}\`,`;
  });
  return [
    '/** The standard library of parts as text, by the address under which an editor opens it. Made by server/scripts/embed-parts.mjs from the .lug files of language/parts/. */',
    'export const LIBRARY: Readonly<Record<string, string>> = {',
    ...entries,
    '};',
    '',
  ].join('\n');
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) writeFileSync(library, libraryModule());
