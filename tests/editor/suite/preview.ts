/** The drawing panel opens beside the text, once for each circuit, and goes with it; what is drawn in it is driven from outside. */
import { commands, TabInputWebview, ViewColumn, window, type Tab } from 'vscode';
import { serverReady } from './activation.js';
import { openCircuit } from './documents.js';
import { eventually, same, test } from './harness.js';

test('the drawing opens beside the text and leaves the cursor there', async () => {
  await serverReady();
  const { uri } = await openCircuit('two-pickups.lug');
  await commands.executeCommand('lugwork.openDrawing');
  const tab = await eventually('the panel is open', () => drawings()[0]);
  await eventually('it names the circuit', () => drawings()[0]?.label === 'Drawing of two-pickups.lug');
  same(tab.group.viewColumn === ViewColumn.One, false, 'it stands over the text');
  same(window.activeTextEditor?.document.uri.toString(), uri.toString(), 'the active editor');
});

test('a drawing asked for again is not opened twice', async () => {
  await openCircuit('two-pickups.lug');
  await commands.executeCommand('lugwork.openDrawing');
  same(drawings().length, 1, 'panels');
  await window.tabGroups.close(drawings());
  await eventually('it is closed', () => drawings().length === 0);
  await openCircuit('two-pickups.lug');
});

function drawings(): Tab[] {
  const tabs = window.tabGroups.all.flatMap((group) => group.tabs);
  return tabs.filter(({ input }) => input instanceof TabInputWebview && input.viewType.endsWith('lugworkDrawing'));
}
