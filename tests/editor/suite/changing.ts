/** Changes that the server makes in the text: rename, format. */
import { commands, workspace, WorkspaceEdit, type TextEdit } from 'vscode';
import { serverReady } from './activation.js';
import { createCircuit, openCircuit, placeIn } from './documents.js';
import { ensure, eventually, same, test } from './harness.js';

test('a part is renamed wherever it is named', async () => {
  await serverReady();
  const original = await openCircuit('two-pickups.lug');
  const document = await createCircuit(original.getText());
  const edit = await eventually('a rename', () =>
    commands.executeCommand<WorkspaceEdit>(
      'vscode.executeDocumentRenameProvider',
      document.uri,
      placeIn(document, 'neck.hot', 1),
      'front',
    ),
  );
  ensure(await workspace.applyEdit(edit), 'the edit was refused');
  // The string "neck" names a switch position and stays.
  const expected = original.getText().replace(/(?<!")\bneck\b(?!")/g, 'front');
  same(document.getText(), expected, 'text after the rename');
});

test('formatting changes the layout and nothing else, and is done after once', async () => {
  await serverReady();
  const document = await createCircuit('part   volume:pot   250k audio\nwire volume.2 to\n      volume.case\n');
  const edits = await eventually('edits', async () => {
    const found = await formatEdits();
    return found !== undefined && found.length > 0 && found;
  });
  for (const { range, newText } of [...edits].reverse()) await replace(range, newText);
  const text = document.getText();
  same(text.replace(/\s+/g, ''), 'partvolume:pot250kaudiowirevolume.2tovolume.case', 'words');
  ensure(text.startsWith('part volume : pot 250k audio\n'), `layout: ${text}`);
  same(
    (await formatEdits())?.filter(({ range, newText }) => document.getText(range) !== newText).length ?? 0,
    0,
    'edits of a second time',
  );

  function formatEdits(): Thenable<TextEdit[] | undefined> {
    return commands.executeCommand<TextEdit[] | undefined>('vscode.executeFormatDocumentProvider', document.uri, {
      tabSize: 2,
      insertSpaces: true,
    });
  }
  async function replace(range: TextEdit['range'], newText: string): Promise<void> {
    const change = new WorkspaceEdit();
    change.replace(document.uri, range, newText);
    ensure(await workspace.applyEdit(change), 'the edit was refused');
  }
});
