/** Circuits of several files: what one uses of another is found in the opened folder, open or not. */
import { env, languages, workspace } from 'vscode';
import { serverReady } from './activation.js';
import { openCircuit, placeOf, replaceText } from './documents.js';
import { eventually, same, test } from './harness.js';
import { isNodeHost } from './host.js';

if (isNodeHost && env.appHost !== 'desktop') {
  // All tests of the suite run in this host, so that what they find holds for a folder without trust.
  test('the opened folder is not trusted', async () => {
    await serverReady();
    same(workspace.isTrusted, false, 'trusted');
  });
}

if (!isNodeHost) {
  // As above, for a virtual folder.
  test('the opened folder is on no disk', async () => {
    await serverReady();
    const { scheme } = placeOf('two-pickups.lug');
    same(['file', 'vscode-remote'].includes(scheme), false, `the folder is on a disk: ${scheme}`);
  });
}

test('a circuit that uses a file of the folder knows its types, and follows when that file is changed', async () => {
  await serverReady();
  const circuit = await openCircuit('kill-switch.lug');
  const errors = () => languages.getDiagnostics(circuit.uri).filter(({ severity }) => severity === 0);
  // Without the other file its type would be unknown; what is used must have come before this can be right.
  await eventually('no error is left', () => errors().length === 0);
  const parts = await openCircuit('shared-parts.lug');
  await replaceText(parts, 'type kill-slide ', 'type other-slide ');
  await eventually('the missing type is told in the circuit', () =>
    errors().some(({ message }) => message.includes('kill-slide')),
  );
  await replaceText(parts, 'type other-slide ', 'type kill-slide ');
  await eventually('nothing is told any more', () => errors().length === 0);
  same(parts.isDirty && circuit.isDirty, false, 'the circuit itself was changed');
});
