/** Documents of the suite's folder: opened, looked up, changed. */
import { Uri, window, workspace, type TextDocument } from 'vscode';
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
