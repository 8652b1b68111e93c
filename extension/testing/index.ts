/** The Testing view: a file of circuits holds one test for each of its `expect` lines. */
import { l10n, TestRunProfileKind, TestRunRequest, tests, Uri, workspace, type Disposable, type TextDocument } from 'vscode';
import { findCircuits } from '../find-circuits.js';
import type { ServerLink } from '../server-link.js';
import { createItems } from './items.js';
import { createRuns } from './run.js';

/** Milliseconds after a change in which the lines are asked for once more. */
const restMs = 150;

/** Registers the view and keeps it in step with the files. */
export function registerTesting(link: ServerLink): Disposable {
  const controller = tests.createTestController('lugwork', 'Lugwork');
  const items = createItems(controller, link);
  const runs = createRuns(controller, link, items);
  controller.createRunProfile(l10n.t('Check'), TestRunProfileKind.Run, (request, token) => runs.run(request, token), true);
  controller.resolveHandler = async (item) => {
    if (item === undefined) await findAll();
    else if (item.uri !== undefined) await items.refresh(item.uri);
  };
  controller.refreshHandler = findAll;

  async function findAll(): Promise<void> {
    const found = await findCircuits();
    for (const uri of found) items.file(uri);
    await Promise.all(found.filter(isOpen).map((uri) => items.refresh(uri)));
  }
  const onDocument = (document: TextDocument): void => {
    if (isCircuit(document)) void items.refresh(document.uri);
  };
  const resting = new Map<string, ReturnType<typeof setTimeout>>();
  /** Asked in the moment of the change the server might still have the text before it. */
  const onChange = (document: TextDocument): void => {
    const id = document.uri.toString();
    clearTimeout(resting.get(id));
    resting.set(
      id,
      setTimeout(() => {
        resting.delete(id);
        onDocument(document);
      }, restMs),
    );
  };
  const watcher = workspace.createFileSystemWatcher('**/*.lug');
  const disposables = [
    controller,
    watcher,
    watcher.onDidCreate((uri) => items.file(uri)),
    watcher.onDidDelete((uri) => items.remove(uri)),
    workspace.onDidOpenTextDocument(onDocument),
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (contentChanges.length > 0) onChange(document);
    }),
    // Results follow the text: a circuit that has some is run again when the server is through with its newest text.
    link.onChecked((uri) => {
      const file = items.filesBelow().find(({ id }) => id === Uri.parse(uri, true).toString());
      if (file !== undefined && runs.has(file)) void runs.run(new TestRunRequest([file]), undefined, { isKept: false });
    }),
    // What was open before the server could answer.
    link.onDidChangeState((state) => {
      if (state === 'ready') workspace.textDocuments.forEach(onDocument);
    }),
  ];
  return {
    dispose: () => {
      resting.forEach(clearTimeout);
      disposables.forEach((one) => void one.dispose());
    },
  };
}

function isCircuit(document: TextDocument): boolean {
  return document.languageId === 'lugwork' && document.uri.scheme !== 'lugwork' && document.uri.scheme !== 'git';
}

function isOpen(uri: Uri): boolean {
  return workspace.textDocuments.some((document) => document.uri.toString() === uri.toString());
}
