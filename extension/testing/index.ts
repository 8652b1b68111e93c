/** The Testing view: a file of circuits holds one test for each of its `expect` lines. */
import { l10n, TestRunProfileKind, tests, workspace, type Disposable, type TextDocument, type Uri } from 'vscode';
import { findCircuits } from '../find-circuits.js';
import type { ServerLink } from '../server-link.js';
import { fileItem, refreshFile, removeFile } from './items.js';
import { runTests } from './run.js';

/** Registers the view and keeps it in step with the files. */
export function registerTesting(link: ServerLink): Disposable {
  const controller = tests.createTestController('lugwork', 'Lugwork');
  controller.createRunProfile(
    l10n.t('Check'),
    TestRunProfileKind.Run,
    (request, token) => runTests(controller, link, request, token),
    true,
  );
  controller.resolveHandler = async (item) => {
    if (item?.uri !== undefined) await refreshFile(controller, link, item.uri);
    else await findAll();
  };
  controller.refreshHandler = findAll;

  async function findAll(): Promise<void> {
    const found = await findCircuits();
    for (const uri of found) fileItem(controller, uri);
    await Promise.all(found.filter(isOpen).map((uri) => refreshFile(controller, link, uri)));
  }
  const onDocument = (document: TextDocument): void => {
    if (isCircuit(document)) void refreshFile(controller, link, document.uri);
  };
  const watcher = workspace.createFileSystemWatcher('**/*.lug');
  const disposables = [
    controller,
    watcher,
    watcher.onDidCreate((uri) => fileItem(controller, uri)),
    watcher.onDidDelete((uri) => removeFile(controller, uri)),
    workspace.onDidOpenTextDocument(onDocument),
    workspace.onDidChangeTextDocument(({ document }) => onDocument(document)),
    // What was open before the server could answer.
    link.onDidChangeState((state) => {
      if (state === 'ready') workspace.textDocuments.forEach(onDocument);
    }),
  ];
  return { dispose: () => disposables.forEach((one) => void one.dispose()) };
}

function isCircuit(document: TextDocument): boolean {
  return document.languageId === 'lugwork' && document.uri.scheme !== 'lugwork' && document.uri.scheme !== 'git';
}

function isOpen(uri: Uri): boolean {
  return workspace.textDocuments.some((document) => document.uri.toString() === uri.toString());
}
