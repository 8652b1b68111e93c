/** Readings and intent in the editor: faults beside the text that follow each reading, the next reading written in, expectations chosen. */
import { commands, ViewColumn, window, workspace, type CodeAction, type TextDocument } from 'vscode';
import { serverReady } from './activation.js';
import { createCircuit, openCircuit, placeIn } from './documents.js';
import { ensure, eventually, same, test } from './harness.js';

test('the faults that readings tell of stand beside the circuit, and the list shrinks with the reading that was asked for', async () => {
  await serverReady();
  const whole = await openCircuit('two-pickups.lug');
  const document = await createCircuit(
    `${whole.getText()}\nmeasured selector "bridge" : reads 6.62k\nmeasured selector "neck" : reads 249k\n`,
  );
  await commands.executeCommand('lugwork.locateFault');
  const located = await eventually('the faults are shown', () => locatedDocument());
  await eventually('suspects are told', () => suspectsIn(located) > 1);
  const before = suspectsIn(located);
  same(window.activeTextEditor?.document.uri.toString(), document.uri.toString(), 'the keyboard stays in the circuit');
  const place = placeIn(document, 'measured selector "neck"', 2);
  const action = await eventually('the next reading is offered', async () => {
    const actions = await commands.executeCommand<CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      document.lineAt(place.line).range,
    );
    return actions.find(({ title }) => title.startsWith('take the next reading'));
  });
  ensure(action.edit !== undefined, 'no action that takes the next reading');
  await workspace.applyEdit(action.edit);
  const line = document
    .getText()
    .split('\n')
    .findIndex((text) => text.endsWith(': reads ?'));
  ensure(line > 0, 'the reading is not written in');
  const editor = window.visibleTextEditors.find((one) => one.document === document)!;
  const at = document.lineAt(line).range.end;
  // What the meter says where the first of the suspects is to blame.
  const [, says] = /^ {4}(?:about )?(\S+): 1\b/m.exec(located.getText()) ?? [];
  ensure(says !== undefined, `no outcome is told: ${located.getText()}`);
  await editor.edit((edit) => edit.replace(document.lineAt(line).range.with(at.translate(0, -1)), says));
  await eventually('the list shrinks', () => suspectsIn(located) < before && suspectsIn(located) > 0);
});

test('expectations, unlike readings, are chosen from a list and written for all positions', async () => {
  await serverReady();
  const whole = await openCircuit('two-pickups.lug');
  const document = await createCircuit(whole.getText().replace(/^expect.*\n/gm, ''));
  await window.showTextDocument(document, ViewColumn.One);
  const written = commands.executeCommand('lugwork.writeExpectations');
  await eventually('a line is picked', async () => {
    await commands.executeCommand('workbench.action.acceptSelectedQuickOpenItem');
    return document.getText().includes('expect selector "both"');
  });
  await written;
  ensure(document.getText().includes('sounds parallel(bridge, neck), hum cancelled'), `not what is so: ${document.getText()}`);
});

function locatedDocument(): TextDocument | undefined {
  return workspace.textDocuments.find(({ uri }) => uri.scheme === 'lugwork-located');
}

/** Suspects that explain every reading. */
function suspectsIn(document: TextDocument): number {
  return [...document.getText().matchAll(/explains (\d+) of \1/g)].length;
}
