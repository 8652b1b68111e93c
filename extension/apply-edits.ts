/** Edits that the server made, as one edit of the text, which one undo takes back. */
import { Range, workspace, WorkspaceEdit, type Uri } from 'vscode';
import type { TextEdits } from '../server/protocol.js';

/** False where the editor did not take them. */
export function applyEdits(uri: Uri, { edits }: TextEdits): Thenable<boolean> {
  const edit = new WorkspaceEdit();
  for (const { range, text } of edits)
    edit.replace(uri, new Range(range.start.line, range.start.character, range.end.line, range.end.character), text);
  return workspace.applyEdit(edit);
}
