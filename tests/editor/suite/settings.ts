/** Settings of the extension reach the server, and circuits are told anew. */
import { ConfigurationTarget, DiagnosticSeverity, languages, workspace } from 'vscode';
import { serverReady } from './activation.js';
import { createCircuit, openCircuit, replaceText } from './documents.js';
import { eventually, same, test } from './harness.js';

test('a rule is told as the settings say, at once and back again', async () => {
  await serverReady();
  const document = await createCircuit((await openCircuit('two-pickups.lug')).getText());
  await replaceText(document, 'wire saddle ', '// wire saddle ');
  const finding = await eventually('the loose bridge is told', () => aboutSaddle()[0]);
  const rule = typeof finding.code === 'object' ? String(finding.code.value) : String(finding.code);
  const settings = workspace.getConfiguration('lugwork');
  try {
    await settings.update('rules', { [rule]: 'hint' }, ConfigurationTarget.Global);
    await eventually('it has become a hint', () => aboutSaddle().some(({ severity }) => severity === DiagnosticSeverity.Hint));
    await settings.update('rules', { [rule]: 'off' }, ConfigurationTarget.Global);
    await eventually('it is gone', () => !aboutSaddle().some(({ code }) => JSON.stringify(code).includes(rule)));
  } finally {
    await settings.update('rules', undefined, ConfigurationTarget.Global);
  }
  await eventually('it is told again', () => aboutSaddle().some(({ severity }) => severity === finding.severity));

  function aboutSaddle() {
    return languages.getDiagnostics(document.uri).filter(({ message }) => message.includes('saddle'));
  }
});

test('the usual settings are those of the manifest', async () => {
  const settings = workspace.getConfiguration('lugwork');
  same(settings.get('rules'), {}, 'rules');
  same(
    [settings.get('inlayHints.sounds'), settings.get('inlayHints.nets'), settings.get('codeLens.enabled')],
    [true, false, true],
    'hints',
  );
});
