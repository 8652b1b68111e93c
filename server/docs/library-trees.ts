/** The module that holds the standard library as the parser reads it, so that a start needn't read it again. */
import { parseText } from '../../language/grammar/index.js';
import { libraryText, libraryUris } from '../../language/parts/index.js';

/** Path and text of the module. */
export function libraryTreesFile(): [path: string, text: string] {
  const trees = libraryUris.map((uri) => {
    const { statements, problems } = parseText(uri, libraryText(uri) ?? '');
    if (problems.length > 0) throw new Error(`${uri} can’t be read: ${problems[0]?.message}`);
    return { uri, statements, problems };
  });
  const literal = JSON.stringify(trees).replaceAll('\\', '\\\\').replaceAll('`', '\\`').replaceAll('${', '\\${');
  const lines = [
    '/** The trees of the standard library as JSON, a place without a lug as `null`. Made by server/docs/library-trees.ts from the .lug files of language/parts/. */',
    `export const LIBRARY_TREES = \`${literal}\`;`,
    '',
  ];
  return ['language/circuit/types/generated/library-trees.ts', lines.join('\n')];
}
