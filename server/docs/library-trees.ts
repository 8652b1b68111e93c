/** The module that holds the standard library as the parser reads it, so that a start needn't read it again. */
import { parseText } from '../../language/grammar/index.js';
import { libraryText, libraryUris } from '../../language/parts/index.js';

/** Path and text of the module. */
export function libraryTreesFile(): [path: string, text: string] {
  const lines = libraryUris.flatMap((uri) => {
    const { statements, problems } = parseText(uri, libraryText(uri) ?? '');
    if (problems.length > 0) throw new Error(`${uri} can’t be read: ${problems[0]?.message}`);
    const types = statements.map((statement) => {
      if (statement.kind !== 'type') throw new Error(`${uri} holds more than types`);
      return `    ${JSON.stringify(statement.name.text)}: ${literal(JSON.stringify(statement))},`;
    });
    return [`  ${JSON.stringify(uri)}: {`, ...types, '  },'];
  });
  const text = [
    '/** The types of the standard library by file and name, each its statement as JSON, a place without a lug as `null`. Made by server/docs/library-trees.ts from the .lug files of language/parts/. */',
    'export const LIBRARY: Readonly<Record<string, Readonly<Record<string, string>>>> = {',
    ...lines,
    '};',
    '',
  ];
  return ['language/circuit/types/generated/library-trees.ts', text.join('\n')];
}

function literal(text: string): string {
  return `\`${text.replaceAll('\\', '\\\\').replaceAll('`', '\\`').replaceAll('${', '\\${')}\``;
}
