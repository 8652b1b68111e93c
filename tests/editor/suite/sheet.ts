/** The bench sheet opens beside the text, once for each circuit, and goes with it; what is ticked in it is driven from outside. */
import { commands, TabInputWebview, ViewColumn, window, type Tab } from 'vscode';
import { serverReady } from './activation.js';
import { openCircuit } from './documents.js';
import { eventually, same, test } from './harness.js';

test('the bench sheet opens beside the text and leaves the cursor there', async () => {
  await serverReady();
  const { uri } = await openCircuit('two-pickups.lug');
  await commands.executeCommand('lugwork.openSheet');
  const tab = await eventually('the sheet is open', () => sheets()[0]);
  await eventually('it names the circuit', () => sheets()[0]?.label === 'Sheet of two-pickups.lug');
  same(tab.group.viewColumn === ViewColumn.One, false, 'it stands over the text');
  same(window.activeTextEditor?.document.uri.toString(), uri.toString(), 'the active editor');
});

test('a bench sheet asked for again is not opened twice', async () => {
  await openCircuit('two-pickups.lug');
  await commands.executeCommand('lugwork.openSheet');
  same(sheets().length, 1, 'panels');
  await window.tabGroups.close(sheets());
  await eventually('it is closed', () => sheets().length === 0);
  await openCircuit('two-pickups.lug');
});

function sheets(): Tab[] {
  const tabs = window.tabGroups.all.flatMap((group) => group.tabs);
  return tabs.filter(({ input }) => input instanceof TabInputWebview && input.viewType.endsWith('lugworkSheet'));
}
