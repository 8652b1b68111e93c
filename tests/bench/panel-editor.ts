/** The drawing panel in the real editor: from the command to the drawing that is seen, and from a turned pot to its frame. */
import { join } from 'node:path';
import { frameOf } from '../editor/drive/drawing-use.js';
import { panelOf } from '../editor/drive/drawing.js';
import { openScreen, type Screen } from '../editor/drive/screen.js';
import { root } from '../editor/hosts/place.js';
import { choosePosition, framesOf, turnPot } from './panel-acts.js';
import { middle } from './panel.js';
import { milliseconds } from './timing.js';

const turns = 20;
/** Milliseconds that a user looks at a circuit before asking for its drawing. */
const looking = 4000;

export async function panelEditorRows(file: string): Promise<string[][]> {
  const screen = await openScreen({ host: 'node', workspace: join(root, 'examples'), size: { width: 1600, height: 1000 } });
  try {
    // The editor's own part of opening any first panel is paid with a small circuit.
    const first = await opened(screen, 'one-pickup-volume-tone.lug', looking);
    const second = await opened(screen, file, looking);
    await panelOf(screen).locator('.positions tbody tr').first().waitFor();
    const frame = await frameOf(screen);
    const own = await frame.evaluate<number>(
      'performance.getEntriesByName("drawn")[0].startTime - performance.getEntriesByType("navigation")[0].responseEnd',
    );
    const frames = (act: (turn: number) => string): Promise<number[]> =>
      framesOf((script) => frame.evaluate<number>(script), act, turns);
    return [
      ['activation of the extension, as the editor counts it: loading its code and calling it', await activation(screen), ''],
      ['the first panel of the session, small circuit: from the command to the drawing', milliseconds(first), ''],
      ['a later panel, largest example: from the command to the drawing', milliseconds(second), ''],
      ['of that ours: from the moment in which the editor has made room for the panel', milliseconds(own), ''],
      ['a pot turned, to the frame with its curve', ...middle(await frames(turnPot))],
      ['a position chosen in the table, to the frame with its path', ...middle(await frames(choosePosition))],
    ];
  } finally {
    await screen.close();
  }
}

/** Milliseconds from the editor's own page on running extensions. */
async function activation(screen: Screen): Promise<string> {
  await screen.command('Developer: Show Running Extensions');
  const row = screen.page.locator('.runtime-extensions-editor .extension', { hasText: 'Lugwork' });
  const written = (await row.locator('.activation-time').first().textContent()) ?? '';
  const figure = /(\d+)\s*ms/.exec(written)?.[1];
  if (figure === undefined) throw new Error(`The editor does not say how long the activation took: “${written}”`);
  return figure;
}

async function opened(screen: Screen, file: string, wait: number): Promise<number> {
  await screen.command('View: Close All Editors');
  await screen.page.locator('iframe.webview').first().waitFor({ state: 'detached' });
  const editor = await screen.openFile(file);
  await editor.locator('.codelens-decoration').first().waitFor();
  await screen.page.waitForTimeout(wait);
  const button = screen.page.getByRole('button', { name: 'Open the Drawing Beside the Text' });
  await button.waitFor();
  const began = performance.now();
  await button.click();
  await panelOf(screen).locator('.frame svg').waitFor();
  return performance.now() - began;
}
