/** A circuit is compared with another file, and with the last commit; with a real repository it is driven on the screen (`tests/editor/drive/compare.ts`). */
import { commands, TabInputWebview, window, type Tab } from 'vscode';
import { serverReady } from './activation.js';
import { openCircuit, placeOf } from './documents.js';
import { eventually, same, test } from './harness.js';

test('a circuit is compared with another file, once however often it is asked for', async () => {
  await serverReady();
  await openCircuit('two-pickups.lug');
  const ask = () => commands.executeCommand('lugwork.compareWithFile', placeOf('two-pickups.lug'), placeOf('moved-wire.lug'));
  await ask();
  await eventually('the comparison is open', () => comparisons()[0]?.label === 'Changes of two-pickups.lug');
  await ask();
  same(comparisons().length, 1, 'panels');
  await window.tabGroups.close(comparisons());
  await eventually('it is closed', () => comparisons().length === 0);
});

test('a comparison with the last commit opens from a row of the source control view, and without Git too', async () => {
  await serverReady();
  await commands.executeCommand('lugwork.compareWithCommit', { resourceUri: placeOf('two-pickups.lug') });
  await eventually('the comparison is open', () => comparisons()[0]?.label === 'Changes of two-pickups.lug');
  await window.tabGroups.close(comparisons());
  await eventually('it is closed', () => comparisons().length === 0);
});

function comparisons(): Tab[] {
  const tabs = window.tabGroups.all.flatMap((group) => group.tabs);
  return tabs.filter(({ input }) => input instanceof TabInputWebview && input.viewType.endsWith('lugworkCompare'));
}
