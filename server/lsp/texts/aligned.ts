/** Edits that leave the lines that they touch in the one layout, where these were in it before. */
import type { TextEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { formatText, lineEndOf, linesOf } from '../../../language/grammar/index.js';
import { lineEdits, toTextEdits } from './line-edits.js';

/** Lines without a blank one between them, first and last included. */
interface Paragraph {
  readonly first: number;
  readonly last: number;
}

/** The same edits, with the columns of their neighbours kept: of each paragraph that was laid out as `formatText` does. Others stay as they are. */
export function aligned(text: string, edits: readonly TextEdit[]): TextEdit[] {
  const lines = linesOf(text);
  const groups = new Map<number, { paragraph: Paragraph; edits: TextEdit[] }>();
  for (const edit of edits) {
    const paragraph = paragraphOf(lines, edit);
    const group = groups.get(paragraph.first);
    if (group === undefined) groups.set(paragraph.first, { paragraph, edits: [edit] });
    else group.edits.push(edit);
  }
  return [...groups.values()].flatMap(({ paragraph, edits: own }) => alignedIn(lines, paragraph, own, lineEndOf(text)) ?? own);
}

/** The lines around an edit. A line that is put in before a blank one belongs to the paragraph above. */
function paragraphOf(lines: readonly string[], { range: { start, end } }: TextEdit): Paragraph {
  const isBlank = (line: number): boolean => (lines[line] ?? '').trim() === '';
  let [first, last] = [start.line, end.line];
  if (isBlank(first) && start.character === 0 && first > 0) first--;
  while (first > 0 && !isBlank(first) && !isBlank(first - 1)) first--;
  while (last < lines.length - 1 && !isBlank(last) && !isBlank(last + 1)) last++;
  return { first, last };
}

function alignedIn(
  lines: readonly string[],
  { first, last }: Paragraph,
  edits: readonly TextEdit[],
  eol: string,
): TextEdit[] | undefined {
  const old = lines.slice(first, last + 1).join(eol);
  if (formatText(old).trimEnd() !== old.trimEnd()) return undefined;
  const inside = edits.map(({ range, newText }) => ({ range: moved(range, -first), newText }));
  const edited = TextDocument.applyEdits(TextDocument.create('', 'lugwork', 0, old), inside);
  const ends = /(\r?\n)*$/.exec(edited)?.[0] ?? '';
  const laidOut = formatText(edited).trimEnd() + ends;
  return toTextEdits(old, lineEdits(old, laidOut)).map(({ range, newText }) => ({ range: moved(range, first), newText }));
}

function moved({ start, end }: TextEdit['range'], by: number): TextEdit['range'] {
  return {
    start: { line: start.line + by, character: start.character },
    end: { line: end.line + by, character: end.character },
  };
}
