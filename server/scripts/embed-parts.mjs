// Writes .lug files as modules, for stages that have no file system: the standard library of parts, and the circuits to start from.
import { readFileSync, readdirSync } from 'node:fs';

/** language/parts/generated/library.ts from the .lug files of language/parts/, so that a test can prove that the file on disk is fresh. */
export function libraryModule() {
  return embedded(
    'parts',
    '/** The standard library of parts as text, by the address under which an editor opens it. Made by server/scripts/embed-parts.mjs from the .lug files of language/parts/. */',
    'LIBRARY',
    (name) => `lugwork:/parts/${name}`,
  );
}

/** language/starts/generated/texts.ts from the .lug files of language/starts/. */
export function startsModule() {
  return embedded(
    'starts',
    '/** The circuits to start from as text, by name. Made by server/scripts/embed-parts.mjs from the .lug files of language/starts/. */',
    'STARTS',
    (name) => name.replace(/\.lug$/, ''),
  );
}

function embedded(folder, heading, constant, keyOf) {
  const place = new URL(`../../language/${folder}/`, import.meta.url);
  const files = readdirSync(place)
    .filter((name) => name.endsWith('.lug'))
    .sort();
  const entries = files.map((name) => {
    const text = readFileSync(new URL(name, place), 'utf8')
      .replaceAll('\\', '\\\\')
      .replaceAll('`', '\\`')
      .replaceAll('${', '\\${');
    return `  '${keyOf(name)}': \`${text}\`,`;
  });
  return [heading, `export const ${constant}: Readonly<Record<string, string>> = {`, ...entries, '};', ''].join('\n');
}
