/** Documents of the suite's folder: opened, looked up, changed. */
import { Range, Uri, window, workspace, WorkspaceEdit, type Position, type TextDocument } from 'vscode';
import { ensure } from './harness.js';

/** The address of a file of the opened folder. */
export function placeOf(name: string): Uri {
  const folder = workspace.workspaceFolders?.[0];
  ensure(folder !== undefined, 'no folder is open');
  return Uri.joinPath(folder.uri, name);
}

/** Opens a circuit of the folder and shows it. */
export async function openCircuit(name: string): Promise<TextDocument> {
  const document = await workspace.openTextDocument(placeOf(name));
  await window.showTextDocument(document);
  return document;
}

/** A new circuit that has no file. */
export async function createCircuit(content: string): Promise<TextDocument> {
  const document = await workspace.openTextDocument({ language: 'lugwork', content });
  await window.showTextDocument(document);
  return document;
}

/** The place `behind` characters into the first occurrence of a text. */
export function placeIn(document: TextDocument, text: string, behind = 0): Position {
  const at = document.getText().indexOf(text);
  ensure(at >= 0, `the document does not hold ${text}`);
  return document.positionAt(at + behind);
}

/** Replaces the first occurrence of a text. */
export async function replaceText(document: TextDocument, old: string, replacement: string): Promise<void> {
  const start = placeIn(document, old);
  const edit = new WorkspaceEdit();
  edit.replace(document.uri, new Range(start, document.positionAt(document.offsetAt(start) + old.length)), replacement);
  ensure(await workspace.applyEdit(edit), 'the edit was refused');
}
