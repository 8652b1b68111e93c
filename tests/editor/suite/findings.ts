/** Findings appear under the text, lead to their page, and go when they are fixed, by a quick fix as well. */
import { CodeActionKind, commands, languages, Uri, workspace, type CodeAction, type Diagnostic, type TextDocument } from 'vscode';
import { createCircuit, openCircuit, replaceText } from './documents.js';
import { ensure, eventually, same, test } from './harness.js';
import { serverReady } from './activation.js';

test('a circuit that is right has no errors and no warnings', async () => {
  await serverReady();
  const document = await openCircuit('two-pickups.lug');
  // Another circuit's error shows that findings have come at all.
  const wrong = await createCircuit('part volume : pot 250k\npart volume : pot 500k\n');
  await eventually('the wrong circuit has an error', () => serious(wrong).length > 0);
  same(
    serious(document).map(({ message }) => message),
    [],
    'findings of the right circuit',
  );
});

test('a lug that the part does not have is reported in its place, and a quick fix corrects it', async () => {
  await serverReady();
  const document = await createCircuit(await textOf('two-pickups.lug', 'neck.ground ', 'neck.grond '));
  const finding = await eventually('the wrong lug is told', () =>
    serious(document).find(({ message }) => message.includes('grond')),
  );
  same(document.getText(finding.range).includes('grond'), true, 'the range covers the lug');
  same(finding.source, 'lugwork', 'source');
  await applyFix(document, finding, 'ground');
  await eventually('the finding is gone', () => serious(document).length === 0);
});

test('a finding goes when the text is corrected by hand', async () => {
  await serverReady();
  const document = await createCircuit(await textOf('two-pickups.lug', 'wire volume.2 ', '// wire volume.2 '));
  await eventually('the missing wire is told', () => serious(document).length > 0);
  await replaceText(document, '// wire volume.2 ', 'wire volume.2 ');
  await eventually('nothing is told any more', () => serious(document).length === 0);
});

test('a finding names its rule and leads to the page of the rule', async () => {
  await serverReady();
  const document = await createCircuit(await textOf('two-pickups.lug', 'wire saddle ', '// wire saddle '));
  const finding = await eventually('the loose bridge is told', () =>
    languages.getDiagnostics(document.uri).find(({ message }) => message.includes('saddle')),
  );
  ensure(typeof finding.code === 'object', 'the rule is no link');
  const page = await workspace.openTextDocument(Uri.parse(String(finding.code.target)));
  ensure(page.getText().includes(String(finding.code.value)), 'the page does not name its rule');
});

/** Errors and warnings. */
function serious(document: TextDocument): Diagnostic[] {
  return languages.getDiagnostics(document.uri).filter(({ severity }) => severity <= 1);
}

async function textOf(name: string, old: string, replacement: string): Promise<string> {
  const text = (await openCircuit(name)).getText();
  ensure(text.includes(old), `${name} does not hold ${old}`);
  return text.replace(old, replacement);
}

/** A request that crosses a change of the document is answered with nothing; like the editor's light bulb, this asks again. */
async function applyFix(document: TextDocument, finding: Diagnostic, word: string): Promise<void> {
  const edit = await eventually(`a fix with ${word} is offered`, async () => {
    const actions = await commands.executeCommand<CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      finding.range,
      CodeActionKind.QuickFix.value,
    );
    return actions.find((action) => action.edit !== undefined && action.title.includes(word))?.edit;
  });
  ensure(await workspace.applyEdit(edit), 'the edit was refused');
}
