/** The bench sheet beside the text: its commands, its panels, and their return after a reload. */
import { commands, l10n, Uri, window, type Disposable, type ExtensionContext } from 'vscode';
import { activeCircuit } from '../active-circuit.js';
import { createPanelHost } from '../panel-host.js';
import type { ServerLink } from '../server-link.js';
import { createSheetPanel, type SheetPanel } from './panel.js';
import type { SheetState } from './protocol.js';
import { createTicks } from './ticks.js';

/** Registers everything about the sheet. */
export function registerSheet(link: ServerLink, context: ExtensionContext): Disposable {
  const storage = Uri.joinPath(context.globalStorageUri, 'sheets');
  const ticks = createTicks(context.workspaceState);
  const host = createPanelHost<SheetState, SheetPanel>(link, context.extensionUri, {
    viewType: 'lugworkSheet',
    title: l10n.t('Bench Sheet'),
    pageTitle: l10n.t('Bench sheet'),
    page: 'sheet-panel',
    restMs: 250,
    keyOf: ({ uri }) => uri,
    readState,
    create: (panel, state) => createSheetPanel(panel, link, ticks, storage, state),
  });
  const openSheet = (asked?: unknown): SheetPanel | undefined => {
    const uri = asked instanceof Uri ? asked : activeCircuit();
    if (uri !== undefined) return host.reveal({ uri: uri.toString(), number: 1 });
    void window.showInformationMessage(l10n.t('Open a circuit first. Its bench sheet opens beside it.'));
    return undefined;
  };
  /** The sheet that has the keyboard, else that of the text, opened where there is none. */
  const active = (): SheetPanel | undefined => host.active() ?? openSheet();
  const disposables = [
    commands.registerCommand('lugwork.openSheet', (asked?: unknown) => void openSheet(asked)),
    commands.registerCommand('lugwork.nextSheetStep', () => active()?.goToNext()),
    commands.registerCommand('lugwork.printSheet', () => active()?.print()),
    commands.registerCommand('lugwork.saveSheet', () => active()?.save()),
    host,
  ];
  return { dispose: () => disposables.forEach((one) => void one.dispose()) };
}

/** The state in a value that was kept, or undefined where it is none. */
function readState(value: unknown): SheetState | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { uri, number } = value as Partial<SheetState>;
  if (typeof uri !== 'string') return undefined;
  return { uri, number: typeof number === 'number' && number >= 1 ? Math.floor(number) : 1 };
}
