/** The one layout of the text: of a whole document, of some lines, and of the lines above as one goes on to the next. */
import { lastOf } from '../../../language/collections.js';
import type { CancellationToken, TextEdit } from 'vscode-languageserver';
import { formatTextSteps, lineEndOf, linesOf } from '../../../language/grammar/index.js';
import { lineEdits, toTextEdits, type LineEdit } from '../texts/line-edits.js';
import { inSlices } from '../messages/pause.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

export const formatting: Feature = {
  capabilities: {
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n', moreTriggerCharacter: ['}'] },
  },
  register(service) {
    service.connection.onDocumentFormatting(onDocument(service, 'format', null, (at, _, token) => format(at, token)));
    service.connection.onDocumentRangeFormatting(
      onDocument(service, 'formatRange', null, (at, { range: { start, end } }, token) => {
        // A selection that ends before a line's first character does not mean that line.
        const last = end.character === 0 && end.line > start.line ? end.line - 1 : end.line;
        return format(at, token, ({ from, to }) => from <= last && Math.max(to, from + 1) > start.line);
      }),
    );
    service.connection.onDocumentOnTypeFormatting(
      onDocument(service, 'formatOnType', null, (at, { position, ch }, token) => {
        const last = ch === '\n' ? position.line - 1 : position.line;
        const first = firstOfParagraph(at.text, last);
        // The line of the cursor stays, and no line is added or taken away above it.
        return format(at, token, ({ from, to, lines }) => from >= first && to <= last + 1 && lines.length === to - from);
      }),
    );
  },
};

async function format(
  { text, tree }: Snapshot,
  token: CancellationToken,
  isWanted?: (edit: LineEdit) => boolean,
): Promise<TextEdit[] | null> {
  const formatted = await inSlices(formatTextSteps(text, tree), () => token.isCancellationRequested);
  if (formatted === undefined) return null;
  // Line ends of several kinds become one, as the command writes them; edits of lines alone would leave those between them.
  if (isWanted === undefined && formatted !== text && hasOtherEnds(text)) return [wholeText(text, formatted)];
  return toTextEdits(text, lineEdits(text, formatted).filter(isWanted ?? (() => true)));
}

function hasOtherEnds(text: string): boolean {
  const usual = lineEndOf(text);
  return text.match(/\r\n|\r|\n/g)?.some((end) => end !== usual) ?? false;
}

function wholeText(text: string, newText: string): TextEdit {
  const lines = linesOf(text);
  const end = { line: lines.length - 1, character: lastOf(lines).length };
  return { range: { start: { line: 0, character: 0 }, end }, newText };
}

function firstOfParagraph(text: string, line: number): number {
  const lines = linesOf(text);
  let first = line;
  while (first > 0 && lines[first - 1]?.trim() !== '') first--;
  return first;
}
