/** Findings as one types: faults of the text at once, what takes longer behind them, and only for the text as it is now. */
import type { CancellationToken, Connection } from 'vscode-languageserver';
import type { Circuit } from '../../language/circuit/index.js';
import { capFindings, omittedFinding } from '../../language/cap-findings.js';
import type { Finding } from '../../language/source.js';
import type { ServerStatus } from '../protocol.js';
import { isBuiltIn } from './texts/built-ins.js';
import { moveFindings } from './texts/move-findings.js';
import type { Guard } from './messages/guard.js';
import { inSlices, pause } from './messages/pause.js';
import { toDiagnostics } from './to-protocol.js';
import type { Snapshot, Workspace } from './workspace.js';

export interface Diagnostics {
  /** Checks these documents, the last one named last; whatever is being checked of an older text is given up. */
  check(uris: readonly string[]): void;
  /** A document that is no longer open has no findings. */
  forget(uri: string): void;
  /** The findings of a document as it is now; none where they are no longer wanted before they are all there. */
  current(snapshot: Snapshot, token: CancellationToken): Promise<readonly Finding[]>;
}

/** Milliseconds after which the client is informed that the server is busy. */
const noticeable = 300;

interface Published {
  readonly text: string;
  readonly circuit: Circuit;
  readonly findings: readonly Finding[];
}

/** Sends findings to the client and remembers the last ones of each document. */
interface Publisher {
  publish(snapshot: Snapshot, found: readonly Finding[]): void;
  /** Faults of the text as it is now, and earlier findings whose lines are unchanged. */
  interim(snapshot: Snapshot): readonly Finding[];
  /** Withdraws the findings of a document. */
  withdraw(uri: string): void;
}

function createPublisher(connection: Connection): Publisher {
  const published = new Map<string, Published>();
  return {
    publish({ uri, text, circuit, document }, findings) {
      published.set(uri, { text, circuit, findings });
      void connection.sendDiagnostics({
        uri,
        version: document.version,
        diagnostics: toDiagnostics(circuit, capped(uri, findings)),
      });
    },
    interim({ uri, circuit, text }) {
      const before = published.get(uri);
      if (before === undefined) return circuit.problems;
      const behind = before.findings.filter((finding) => !before.circuit.problems.includes(finding));
      return [...circuit.problems, ...moveFindings(behind, before.text, text)];
    },
    withdraw(uri) {
      published.delete(uri);
      void connection.sendDiagnostics({ uri, diagnostics: [] });
    },
  };
}

export function createDiagnostics(connection: Connection, guard: Guard, workspace: Workspace): Diagnostics {
  const waiting = new Set<string>();
  const publisher = createPublisher(connection);
  let running = false;
  let state: ServerStatus['state'] = 'ready';

  const become = (next: ServerStatus): void => {
    if (next.state === state) return;
    state = next.state;
    void connection.sendNotification('lugwork/status', next);
  };

  const checkOne = async (uri: string): Promise<void> => {
    const snapshot = await workspace.snapshot(uri);
    if (snapshot === undefined || workspace.documents.get(uri) === undefined) return;
    const { rules: severities } = await workspace.settings.of(uri);
    const isOld = (): boolean => waiting.has(uri) || workspace.documents.get(uri)?.version !== snapshot.document.version;
    if (isOld()) return;
    const began = performance.now();
    let isPublished = false;
    const found = await inSlices(workspace.analysis.findingSteps(snapshot.circuit, { severities }), () => {
      if (!isPublished) publisher.publish(snapshot, publisher.interim(snapshot));
      isPublished = true;
      if (performance.now() - began > noticeable) become({ state: 'checking' });
      return isOld();
    });
    if (found === undefined) return;
    publisher.publish(snapshot, found);
    if (workspace.client.hearsChecked === true)
      void connection.sendNotification('lugwork/checked', { uri, version: snapshot.document.version });
  };

  const run = async (): Promise<void> => {
    running = true;
    // One message may bring many changes; the last of them counts.
    await pause('background');
    for (let uri = latestOf(waiting); uri !== undefined; uri = latestOf(waiting)) {
      waiting.delete(uri);
      const one = uri;
      const isDone = await guard.attempt('check', () => checkOne(one));
      become(isDone ? { state: 'ready' } : { state: 'failed', message: 'A check failed. See the output for the reason.' });
    }
    running = false;
  };

  return {
    check(uris) {
      // The document that has changed is checked before those that use it.
      for (const uri of [...uris].reverse()) {
        if (workspace.documents.get(uri) === undefined || isBuiltIn(uri)) continue;
        waiting.delete(uri);
        waiting.add(uri);
      }
      if (!running && waiting.size > 0) void run();
    },
    forget(uri) {
      waiting.delete(uri);
      publisher.withdraw(uri);
    },
    async current(snapshot, token) {
      const { rules: severities } = await workspace.settings.of(snapshot.uri);
      const steps = workspace.analysis.findingSteps(snapshot.circuit, { severities });
      return (await inSlices(steps, () => token.isCancellationRequested)) ?? [];
    },
  };
}

/** What an editor lists, with a last finding where some are left out. */
function capped(uri: string, found: readonly Finding[]): readonly Finding[] {
  const { shown, omitted } = capFindings(found);
  return omitted.length === 0 ? shown : [...shown, omittedFinding(uri, omitted, '`lugwork check --all` lists them')];
}

function latestOf(uris: ReadonlySet<string>): string | undefined {
  let found: string | undefined;
  for (const uri of uris) found = uri;
  return found;
}
