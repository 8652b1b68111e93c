/** The client's settings, asked for once and again when they have changed. */
import { DidChangeConfigurationNotification, type ClientCapabilities, type Connection } from 'vscode-languageserver';
import type { Severity } from '../../language/source.js';
import type { Settings } from '../protocol.js';
import type { Guard } from './messages/guard.js';

export interface SettingsStore {
  of(uri: string): Promise<Settings>;
  /** Called with what the client can do, once it has said so. */
  start(client: ClientCapabilities): void;
}

/** `changed` is called whenever settings may be others than before. */
export function createSettings(connection: Connection, guard: Guard, changed: () => void): SettingsStore {
  const known = new Map<string, Promise<Settings>>();
  let answers = false;
  let pushed: unknown;
  connection.onDidChangeConfiguration(
    guard.notification('workspace/didChangeConfiguration', ({ settings }: { settings?: { lugwork?: unknown } | null }) => {
      pushed = settings?.lugwork;
      known.clear();
      changed();
    }),
  );
  const ask = async (uri: string): Promise<Settings> => {
    if (!answers) return readSettings(pushed);
    try {
      return readSettings(await connection.workspace.getConfiguration({ scopeUri: uri, section: 'lugwork' }));
    } catch {
      // A client that is about to end, or that promised too much, is served with the usual settings.
      return readSettings(undefined);
    }
  };
  return {
    of: (uri) => {
      const settings = known.get(uri) ?? ask(uri);
      known.set(uri, settings);
      return settings;
    },
    start: ({ workspace }) => {
      answers = workspace?.configuration === true;
      if (workspace?.didChangeConfiguration?.dynamicRegistration === true)
        void guard.attempt('register', async () => {
          await connection.client.register(DidChangeConfigurationNotification.type);
        });
    },
  };
}

const severities: ReadonlySet<unknown> = new Set<Severity | 'off'>(['error', 'warning', 'info', 'hint', 'off']);

/** What a client sends may be anything: what is not understood counts as not said. */
function readSettings(value: unknown): Settings {
  const all = recordOf(value);
  const { sounds, nets } = recordOf(all['inlayHints']);
  const rules = Object.entries(recordOf(all['rules'])).filter(([, severity]) => severities.has(severity));
  return {
    rules: Object.fromEntries(rules) as Settings['rules'],
    inlayHints: { sounds: sounds !== false, nets: nets === true },
    codeLens: { enabled: recordOf(all['codeLens'])['enabled'] !== false },
    use: { outside: recordOf(all['use'])['outside'] === true },
  };
}

function recordOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
}
