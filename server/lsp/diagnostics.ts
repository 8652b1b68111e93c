/** Findings as one types: faults of the text at once, what takes longer behind them, and only for the text as it is now. */
import { DiagnosticSeverity, type CancellationToken, type Connection } from 'vscode-languageserver';
import type { Circuit } from '../../language/circuit/index.js';
import { capFindings, omittedFinding } from '../../language/cap-findings.js';
import { followersOf, type Follows } from '../../language/causes.js';
import type { Finding } from '../../language/source.js';
import type { ServerStatus } from '../protocol.js';
import { isBuiltIn } from './texts/built-ins.js';
import { moveFindings } from './texts/move-findings.js';
import type { Guard } from './messages/guard.js';
import { inSlices, pause } from './messages/pause.js';
import { createEditCauses, keysOf, type EditCauses } from './edit-causes.js';
import { explain, noteEdited, type Explained } from './repairs.js';
import { toDiagnostics } from './to-protocol.js';
import type { Snapshot, Workspace } from './workspace.js';

export interface Diagnostics {
  /** Checks these documents, the last one named last; whatever is being checked of an older text is given up. */
  check(uris: readonly string[]): void;
  /** A document that is no longer open has no findings. */
  forget(uri: string): void;
  /** How many findings of this text an editor lists as more than a hint; `undefined` where they have not all been sent yet. */
  readonly listed: (snapshot: Snapshot) => number | undefined;
  /** Calls back whenever that number may have changed. */
  readonly onListed: (listener: () => void) => void;
  /** The findings of a document as it is now; none where they are no longer wanted before they are all there. */
  current(snapshot: Snapshot, token: CancellationToken): Promise<readonly Finding[]>;
}

/** Milliseconds after which the client is informed that the server is busy. */
const noticeable = 300;
/** Milliseconds for which findings may wait for their causes, so that the list does not grow and shrink again with each edit. */
const patience = 400;

interface Published extends Explained {
  readonly text: string;
  readonly circuit: Circuit;
  /** How many are listed as more than a hint; absent as long as more may come. */
  readonly listed?: number;
}

const nothing: Explained = { findings: [], follows: new Map() };

/** What was found in a document; `isWaiting` where it is not shown yet. */
interface Unexplained {
  readonly snapshot: Snapshot;
  readonly found: readonly Finding[];
  readonly isWaiting: boolean;
}

/** Sends findings to the client and remembers the last ones of each document. */
interface Publisher {
  publish(snapshot: Snapshot, found: Explained): void;
  /** Sends faults of the present text, and earlier findings whose lines, and those of their causes, are unchanged. */
  publishInterim(snapshot: Snapshot): void;
  /** True where these findings are shown already, under the same causes. */
  isShown(snapshot: Snapshot, found: Explained): boolean;
  /** True where some of what was found last follows from another finding. */
  isFolded(uri: string): boolean;
  /** How many were sent last as more than a hint, if that was for this text. */
  readonly listed: (snapshot: Snapshot) => number | undefined;
  /** Calls back where another number is listed than before, or of another text. */
  readonly onListed: (listener: () => void) => void;
  /** Withdraws the findings of a document. */
  withdraw(uri: string): void;
}

function createPublisher(connection: Connection): Publisher {
  const listeners: (() => void)[] = [];
  const published = new Map<string, Published>();
  const folded = new Set<string>();
  const send = ({ uri, text, circuit, document }: Snapshot, { findings, follows }: Explained, isWhole: boolean): void => {
    const causes = { follows, followers: followersOf(findings, follows) };
    const diagnostics = toDiagnostics(circuit, capped(uri, findings, follows), causes);
    const listed = diagnostics.filter(({ severity }) => severity !== DiagnosticSeverity.Hint).length;
    const before = published.get(uri);
    published.set(uri, { text, circuit, findings, follows, ...(isWhole ? { listed } : {}) });
    void connection.sendDiagnostics({ uri, version: document.version, diagnostics });
    if (isWhole && (before?.listed !== listed || before.text !== text)) listeners.forEach((listener) => listener());
  };
  return {
    publish(snapshot, found) {
      if (found.follows.size > 0) folded.add(snapshot.uri);
      else folded.delete(snapshot.uri);
      send(snapshot, found, true);
    },
    publishInterim(snapshot) {
      const before = published.get(snapshot.uri);
      send(
        snapshot,
        before === undefined ? { ...nothing, findings: snapshot.circuit.problems } : movedTo(snapshot, before),
        false,
      );
    },
    isShown({ uri, text }, { follows }) {
      const last = published.get(uri);
      if (last?.text !== text || last.listed === undefined) return false;
      const [now, before] = [keysOf(follows), keysOf(last.follows)];
      return now.size === before.size && [...now].every(([finding, cause]) => before.get(finding) === cause);
    },
    isFolded: (uri) => folded.has(uri),
    listed({ uri, text }) {
      const last = published.get(uri);
      return last?.text === text ? last.listed : undefined;
    },
    onListed: (listener) => void listeners.push(listener),
    withdraw(uri) {
      published.delete(uri);
      folded.delete(uri);
      void connection.sendDiagnostics({ uri, diagnostics: [] });
    },
  };
}

/** Earlier findings at their places in the present text. One whose cause may be gone is left out until that is known. */
function movedTo({ circuit, text }: Snapshot, before: Published): Explained {
  const behind = before.findings.filter((finding) => !before.circuit.problems.includes(finding));
  const moved = moveFindings(behind, before.text, text);
  const findings = [...circuit.problems];
  const follows = new Map<Finding, Finding>();
  for (const [finding, there] of moved) {
    const cause = before.follows.get(finding);
    const causeThere = cause && moved.get(cause);
    if (cause !== undefined && causeThere === undefined) continue;
    findings.push(there);
    if (causeThere !== undefined) follows.set(there, causeThere);
  }
  return { findings, follows };
}

/** Explains what was found in documents, one after the other. */
interface Explainer {
  /** Takes what was found in a document; `isWaiting` where it is not shown yet. */
  add(uri: string, unexplained: Unexplained): void;
  forget(uri: string): void;
  readonly size: number;
  /** Sends the findings of the next document once more, under their causes. */
  next(): Promise<void>;
}

/** `isChecking` is asked whether documents wait to be checked: explaining is then given up, and taken up again behind them. */
function createExplainer(
  connection: Connection,
  workspace: Workspace,
  { publisher, editCauses }: { readonly publisher: Publisher; readonly editCauses: EditCauses },
  isChecking: () => boolean,
): Explainer {
  const waiting = new Map<string, Unexplained>();
  return {
    add: (uri, unexplained) => void waiting.set(uri, unexplained),
    forget: (uri) => void waiting.delete(uri),
    get size() {
      return waiting.size;
    },
    async next() {
      const [first] = waiting;
      if (first === undefined) return;
      const [uri, { snapshot, found, isWaiting }] = first;
      waiting.delete(uri);
      const isOld = (): boolean => workspace.documents.get(uri)?.version !== snapshot.document.version;
      const began = performance.now();
      let isShown = !isWaiting;
      const token = {
        get isCancellationRequested() {
          if (!isShown && !isOld() && performance.now() - began > patience) {
            publisher.publish(snapshot, { ...nothing, findings: found });
            isShown = true;
          }
          return isOld() || isChecking();
        },
      };
      const report = (text: string): void => connection.console.info(`${uri}: ${text}`);
      const explained = await explain(snapshot, found, workspace.texts.project, token, report);
      if (isOld()) return;
      if (explained === undefined) return void waiting.set(uri, { snapshot, found, isWaiting: !isShown });
      editCauses.noteCauses(snapshot, explained.follows);
      if (!publisher.isShown(snapshot, explained)) publisher.publish(snapshot, explained);
      if (workspace.client.hearsChecked === true)
        void connection.sendNotification('lugwork/checked', { uri, version: snapshot.document.version });
    },
  };
}

/**
 * Sends what was found, under the causes that an edit of one statement tells. True where findings wait for causes that only a search finds: one alone follows from
 * nothing; what comes in numbers mostly has one cause.
 */
function show(snapshot: Snapshot, found: readonly Finding[], publisher: Publisher, editCauses: EditCauses): boolean {
  const edited = editCauses.take(snapshot, found);
  if (edited !== undefined) noteEdited(snapshot.circuit, edited);
  const isWaiting = edited === undefined && (found.length > 1 || publisher.isFolded(snapshot.uri));
  if (isWaiting) publisher.publishInterim(snapshot);
  else publisher.publish(snapshot, { findings: found, follows: edited ?? nothing.follows });
  return isWaiting;
}

/** Informs the client where the state is another than before. */
function createStatus(connection: Connection): (next: ServerStatus) => void {
  let state: ServerStatus['state'] = 'ready';
  return (next) => {
    if (next.state === state) return;
    state = next.state;
    void connection.sendNotification('lugwork/status', next);
  };
}

export function createDiagnostics(connection: Connection, guard: Guard, workspace: Workspace): Diagnostics {
  const waiting = new Set<string>();
  const publisher = createPublisher(connection);
  const editCauses = createEditCauses();
  const explainer = createExplainer(connection, workspace, { publisher, editCauses }, () => waiting.size > 0);
  const become = createStatus(connection);
  let running = false;

  const checkOne = async (uri: string): Promise<void> => {
    waiting.delete(uri);
    explainer.forget(uri);
    const snapshot = await workspace.snapshot(uri);
    if (snapshot === undefined || workspace.documents.get(uri) === undefined) return;
    const { rules: severities } = await workspace.settings.of(uri);
    const isOld = (): boolean => waiting.has(uri) || workspace.documents.get(uri)?.version !== snapshot.document.version;
    if (isOld()) return;
    const began = performance.now();
    let isPublished = false;
    const found = await inSlices(workspace.analysis.findingSteps(snapshot.circuit, { severities }), () => {
      if (!isPublished) publisher.publishInterim(snapshot);
      isPublished = true;
      if (performance.now() - began > noticeable) become({ state: 'checking' });
      return isOld();
    });
    if (found === undefined) return;
    const isWaiting = show(snapshot, found, publisher, editCauses);
    explainer.add(uri, { snapshot, found, isWaiting });
  };

  const run = async (): Promise<void> => {
    running = true;
    // One message may bring many changes; the last of them counts.
    await pause('background');
    while (waiting.size + explainer.size > 0) {
      const uri = latestOf(waiting);
      const isDone = await guard.attempt('check', () => (uri === undefined ? explainer.next() : checkOne(uri)));
      become(isDone ? { state: 'ready' } : { state: 'failed', message: 'A check failed. See the output for the reason.' });
    }
    running = false;
  };

  const { listed, onListed } = publisher;
  return {
    listed,
    onListed,
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
      explainer.forget(uri);
      editCauses.forget(uri);
      publisher.withdraw(uri);
    },
    current: (snapshot, token) => currentOf(workspace, snapshot, token),
  };
}

async function currentOf(
  { settings, analysis }: Workspace,
  { uri, circuit }: Snapshot,
  token: CancellationToken,
): Promise<readonly Finding[]> {
  const { rules: severities } = await settings.of(uri);
  return (await inSlices(analysis.findingSteps(circuit, { severities }), () => token.isCancellationRequested)) ?? [];
}

/** What an editor lists, with a last finding where some are left out. */
function capped(uri: string, found: readonly Finding[], follows: Follows): readonly Finding[] {
  const { shown, omitted } = capFindings(found, { follows });
  return omitted.length === 0 ? shown : [...shown, omittedFinding(uri, omitted, '`lugwork check --all` lists them')];
}

function latestOf(uris: ReadonlySet<string>): string | undefined {
  let found: string | undefined;
  for (const uri of uris) found = uri;
  return found;
}
