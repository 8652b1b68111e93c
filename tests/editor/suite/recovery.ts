/** The server goes and comes back: by the command, and after it was killed. */
import { commands, languages } from 'vscode';
import { isNodeHost, serverProcesses } from './host.js';
import { serverReady, theExtension } from './activation.js';
import { createCircuit, replaceText } from './documents.js';
import { ensure, eventually, test } from './harness.js';

const wrong = 'part volume : pot 250k\npart volume : pot 500k\n';

test('the restart command brings a server that answers again', async () => {
  await serverReady();
  await commands.executeCommand('lugwork.restartServer');
  await serverReady();
  await answersFindings();
});

if (isNodeHost) {
  test('a server that is killed is started again and answers', async () => {
    await serverReady();
    const before = serverProcesses();
    ensure(before.length === 1, `${before.length} server processes`);
    const states: string[] = [];
    const api = await theExtension().activate();
    const listening = api.onDidChangeServerState((state) => states.push(state));
    process.kill(before[0]!, 'SIGKILL');
    await eventually(
      `a new start, told: ${states.join(' ')}`,
      () => states.includes('restarting') && api.serverState() === 'ready',
    );
    listening.dispose();
    const after = serverProcesses();
    ensure(after.length === 1 && after[0] !== before[0], 'it is not a new process');
    await answersFindings();
  });
}

async function answersFindings(): Promise<void> {
  const document = await createCircuit(wrong);
  await eventually('findings', () => languages.getDiagnostics(document.uri).length > 0);
  await replaceText(document, 'part volume : pot 500k', 'part tone : pot 500k');
  await eventually(
    'the finding of the double name is gone',
    () =>
      !languages.getDiagnostics(document.uri).some(({ message }) => message.includes('volume') && message.includes('already')),
  );
}
