/** What the server knows: open documents, files, settings, and what was made of them. */
import type { ClientCapabilities, Connection } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { createAnalysis, type Analysis } from '../../language/analysis.js';
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import type { Tree } from '../../language/grammar/index.js';
import type { Steps } from '../../language/steps.js';
import type { DrawInThread } from '../drawing-thread.js';
import type { ClientOptions } from '../protocol.js';
import { createDocuments, type Documents } from './texts/documents.js';
import type { Guard } from './messages/guard.js';
import { inSlices, type Urgency } from './messages/pause.js';
import { createSettings, type SettingsStore } from './settings.js';
import { createTexts, type Texts } from './texts/texts.js';
import { isWithinFolders, outsideRefusal } from './texts/within.js';

/** What a host can do that the service cannot. */
export interface ServiceHost {
  /** Reads a file where the client does not answer for files; absent where there is no disk. Resolves to undefined where there is none. */
  readonly readFile?: (uri: string) => Promise<string | undefined>;
  /** The addresses of all `.lug` files below a folder. */
  readonly findFiles?: (folder: string) => Promise<readonly string[]>;
  /** The address that links lead to; absent where there is no disk. Never throws. */
  readonly leadsTo?: (uri: string) => string;
  /** Draws beside the server; where there is nothing for it, drawings are made in the server and laid out plainly. */
  readonly draw?: (client: Partial<ClientOptions>) => DrawInThread | undefined;
}

/** A file at one moment: its text and all that was made of it belong together. */
export interface Snapshot {
  readonly uri: string;
  readonly document: TextDocument;
  readonly text: string;
  readonly tree: Tree;
  readonly circuit: AnalysedCircuit;
}

export interface Workspace {
  readonly documents: Documents;
  readonly settings: SettingsStore;
  readonly analysis: Analysis;
  readonly texts: Texts;
  /** The current state of a file, after all that it uses has been read; in the background unless `urgency` says otherwise. */
  snapshot(uri: string, urgency?: Urgency): Promise<Snapshot | undefined>;
  /** Every `.lug` file of the open folders and every open document, as they are now. */
  snapshots(): Promise<readonly Snapshot[]>;
  /** Their addresses. */
  files(): Promise<readonly string[]>;
  /** Calls back whenever what a document shows may have changed without an edit of its own: settings, or a file that it uses. */
  onShared(listener: () => void): void;
  /** What the client said when it began: options of our own, and what it can do. */
  client: Partial<ClientOptions>;
  capabilities: ClientCapabilities;
  /** The folders that are open, by address. */
  folders: readonly string[];
}

export interface WorkspaceEvents {
  /** Something about these documents may have changed: their text, the text of a file that they use, or settings. */
  changed(uris: readonly string[]): void;
  closed(uri: string): void;
}

/** Makes the workspace; it listens on the connection from now on. */
export function createWorkspace(connection: Connection, host: ServiceHost, guard: Guard, events: WorkspaceEvents): Workspace {
  let isOutsideAllowed = false;
  const leadsTo = host.leadsTo ?? ((uri: string) => uri);
  const refuses = (uri: string, from: string): string | undefined =>
    isOutsideAllowed || isWithinFolders(leadsTo(uri), leadsTo(from), workspace.folders.map(leadsTo)) ? undefined : outsideRefusal;
  const files = createFileAccess(connection, host, () => workspace);
  const texts = createTexts(files.read, refuses);
  const analysis = createAnalysis(texts.project);

  const listeners: (() => void)[] = [];
  const changed = (uris: readonly string[], isShared = uris.length > 1): void => {
    events.changed(uris);
    if (isShared) listeners.forEach((listener) => listener());
  };

  const documents = watchTexts(connection, guard, texts, { changed, closed: (uri) => events.closed(uri) });
  const settings = createSettings(connection, guard, () =>
    changed(
      documents.all().map(({ uri }) => uri),
      true,
    ),
  );

  const read = createReader(analysis);
  const make = (uri: string): Snapshot | undefined => {
    const text = texts.project.text(uri);
    const circuit = analysis.circuit(uri);
    const tree = texts.project.tree(uri);
    if (text === undefined || circuit === undefined || tree === undefined) return undefined;
    return { uri, text, circuit, tree, document: documents.get(uri) ?? TextDocument.create(uri, 'lugwork', 0, text) };
  };

  const workspace: Workspace = {
    documents,
    settings,
    analysis,
    texts,
    onShared: (listener) => void listeners.push(listener),
    client: {},
    capabilities: {},
    folders: [],
    async snapshot(uri, urgency = 'background') {
      isOutsideAllowed = (await settings.of(uri)).use.outside;
      await read(uri, urgency);
      let made = make(uri);
      while (texts.waits) {
        await texts.settle();
        await read(uri, urgency);
        made = make(uri);
      }
      return made;
    },
    async snapshots() {
      const made = await Promise.all((await workspace.files()).map((uri) => workspace.snapshot(uri)));
      return made.filter((snapshot) => snapshot !== undefined);
    },
    files: async () => [...new Set([...documents.all().map(({ uri }) => uri), ...(await files.find())])],
  };
  return workspace;
}

/** Opens the documents of the client, and keeps the texts up to date with them and with the files that it watches. */
function watchTexts(connection: Connection, guard: Guard, texts: Texts, { changed, closed }: WorkspaceEvents): Documents {
  const changedWithDependents = (uri: string): void => changed([...new Set([uri, ...texts.project.dependents(uri)])]);
  const documents = createDocuments(connection, guard, {
    changed: (document) => {
      texts.edit(document.uri, document.getText());
      changedWithDependents(document.uri);
    },
    closed: (uri) => {
      texts.close(uri);
      closed(uri);
      changedWithDependents(uri);
    },
  });
  connection.onDidChangeWatchedFiles(
    guard.notification('workspace/didChangeWatchedFiles', ({ changes }) => {
      for (const { uri } of changes) {
        if (documents.get(uri) !== undefined) continue;
        texts.forget(uri);
        changedWithDependents(uri);
      }
    }),
  );
  return documents;
}

/** Files on the disk or in the client's folders, whichever answers. */
interface FileAccess {
  /** The text of a file; `undefined` where there is none or it can't be read, which is reported where it is used. */
  read(uri: string): Promise<string | undefined>;
  /** All `.lug` files of the open folders; none where the client can't list them, so that only open documents are left. */
  find(): Promise<readonly string[]>;
}

function createFileAccess(
  connection: Connection,
  host: ServiceHost,
  workspace: () => Pick<Workspace, 'client' | 'folders'>,
): FileAccess {
  return {
    async read(uri) {
      try {
        if (workspace().client.answersFiles === true)
          return (await connection.sendRequest<string | null>('lugwork/readFile', { uri })) ?? undefined;
        return await host.readFile?.(uri);
      } catch {
        return undefined;
      }
    },
    async find() {
      const { client, folders } = workspace();
      try {
        if (client.answersFiles === true) return await connection.sendRequest<readonly string[]>('lugwork/findFiles', null);
      } catch {
        return [];
      }
      return (await Promise.all(folders.map(async (folder) => (await host.findFiles?.(folder)) ?? []))).flat();
    },
  };
}

/**
 * Reads files in slices; changes made meanwhile are left to the next reading. A file that is being read is not read a second time, but an
 * interactive request makes the reading urgent.
 */
function createReader(analysis: Analysis): (uri: string, urgency: Urgency) => Promise<void> {
  const readings = new Map<string, Reading>();
  return async (uri, urgency) => {
    const reading = readings.get(uri) ?? startReading(analysis.circuitSteps(uri));
    if (urgency === 'interactive') reading.urgency = urgency;
    readings.set(uri, reading);
    await reading.done.finally(() => readings.get(uri) === reading && readings.delete(uri));
  };
}

interface Reading {
  urgency: Urgency;
  done: Promise<unknown>;
}

function startReading(steps: Steps<unknown>): Reading {
  const on: Reading = { urgency: 'background', done: Promise.resolve() };
  on.done = inSlices(
    steps,
    () => false,
    () => on.urgency,
  );
  return on;
}
