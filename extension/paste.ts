/** Pastes a table of wires, as a spreadsheet copies it, as wire statements; the plain text stays one choice away. */
import {
  DocumentDropOrPasteEditKind,
  DocumentPasteEdit,
  l10n,
  languages,
  type CancellationToken,
  type DataTransfer,
  type Disposable,
  type DocumentPasteEditContext,
  type DocumentPasteEditProvider,
  type Range,
  type TextDocument,
} from 'vscode';
import type { ServerLink } from './server-link.js';

const plainText = 'text/plain';
/** The server reads no longer table. */
const longest = 100_000;

/** Registers the way to paste: after it the editor shows a button with which the plain text is chosen instead. */
export function registerPaste(link: ServerLink): Disposable {
  const kind = DocumentDropOrPasteEditKind.Text.append('lugwork', 'wires');
  const provider: DocumentPasteEditProvider = {
    async provideDocumentPasteEdits(document, ranges, data, context, token) {
      const table = await tableIn(data, ranges, context, kind);
      if (table === undefined || token.isCancellationRequested || link.state === 'starting') return undefined;
      const wires = await link.request('lugwork/wiresOfTable', { text: table });
      const [range] = ranges;
      if (wires === null || range === undefined || isCancelled(token)) return undefined;
      return [new DocumentPasteEdit(onOwnLines(wires.text, document, range), titleOf(wires.wires, wires.unread), kind)];
    },
  };
  return languages.registerDocumentPasteEditProvider({ language: 'lugwork' }, provider, {
    providedPasteEditKinds: [kind],
    pasteMimeTypes: [plainText],
  });
}

/** The pasted text where it may be a table and goes to one place. */
async function tableIn(
  data: DataTransfer,
  ranges: readonly Range[],
  { only }: DocumentPasteEditContext,
  kind: DocumentDropOrPasteEditKind,
): Promise<string | undefined> {
  if (ranges.length !== 1 || (only !== undefined && !only.contains(kind))) return undefined;
  const text = await data.get(plainText)?.asString();
  // A text without a separator in its first line is no table; the server need not be asked.
  return text !== undefined && text.length <= longest && /^[^\r\n]*[\t;,]/.test(text.trimStart()) ? text : undefined;
}

function isCancelled(token: CancellationToken): boolean {
  return token.isCancellationRequested;
}

function titleOf(wires: number, unread: number): string {
  return unread === 0
    ? l10n.t('Insert {0} wires of the table', wires)
    : l10n.t('Insert {0} wires of the table; {1} rows have something that can’t be read', wires, unread);
}

/** The statements begin on a line of their own and leave what is behind them on another. */
function onOwnLines(text: string, document: TextDocument, range: Range): string {
  const before = document.lineAt(range.start.line).text.slice(0, range.start.character);
  const behind = document.lineAt(range.end.line).text.slice(range.end.character);
  const lines = before.trim() === '' ? text : `\n${text}`;
  return behind.trim() === '' ? lines.replace(/\n$/, '') : lines;
}
