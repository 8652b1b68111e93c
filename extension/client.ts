/** The language client, the same on the desktop and in the browser: what it offers the server, and what happens when the server dies. */
import { CodeActionTriggerKind, EventEmitter, l10n, window, workspace, type CompletionItem, type CompletionList } from 'vscode';
import {
  CloseAction,
  ErrorAction,
  State,
  type BaseLanguageClient,
  type ErrorHandler,
  type LanguageClientOptions,
} from 'vscode-languageclient';
import type { ClientOptions, ServerNotifications, ServerRequests } from '../server/protocol.js';
import { answerFiles } from './files.js';
import { createCrashGuard } from './crash-guard.js';
import { isLampInTheWay } from './lamp.js';
import type { LinkState, ServerLink } from './server-link.js';

/** Makes the client of one host. It must be able to start the server again after `closed`. */
export type CreateClient = (options: LanguageClientOptions) => BaseLanguageClient;

/** The client and its link; nothing runs before `restart` is called for the first time. */
export function createServerLink(createClient: CreateClient): ServerLink {
  const output = window.createOutputChannel('Lugwork', { log: true });
  const changed = new EventEmitter<LinkState>();
  let state: LinkState = 'starting';
  let message: string | undefined;
  const become = (next: LinkState, sentence?: string): void => {
    if (state === next && message === sentence) return;
    state = next;
    message = sentence;
    changed.fire(next);
  };

  const guard = createCrashGuard();
  /** The next start of a server that keeps dying. */
  let due: ReturnType<typeof setTimeout> | undefined;
  const errorHandler: ErrorHandler = {
    // A message that cannot be sent is reported in the output; a dead server ends in `closed`.
    error: () => ({ action: ErrorAction.Continue, handled: true }),
    closed: () => {
      const seconds = guard.crashed(Date.now());
      become(
        'restarting',
        seconds === 0 ? l10n.t('It stopped unexpectedly.') : l10n.t('It keeps stopping. Next start in {0} s.', seconds),
      );
      reportCrash(seconds, output.show.bind(output), restart);
      if (seconds === 0) return { action: CloseAction.Restart, handled: true };
      clearTimeout(due);
      due = setTimeout(() => void begin(), seconds * 1000);
      return { action: CloseAction.DoNotRestart, handled: true };
    },
  };

  const markedLines = new Map<string, ReadonlySet<number>>();
  const client = createClient({
    documentSelector: [{ language: 'lugwork' }],
    initializationOptions: {
      answersFiles: true,
      showsDrawings: true,
      locatesFaults: true,
      writesUsual: true,
      copiesLugs: true,
      hearsChecked: true,
    } satisfies ClientOptions,
    synchronize: { fileEvents: workspace.createFileSystemWatcher('**/*.lug') },
    outputChannel: output,
    traceOutputChannel: output,
    errorHandler,
    middleware: {
      provideCompletionItem: async (document, position, context, token, next) =>
        goingOn(await next(document, position, context, token)),
      provideCodeActions: (document, range, context, token, next) =>
        context.triggerKind === CodeActionTriggerKind.Automatic && isLampInTheWay(document, range.start.line, markedLines)
          ? []
          : next(document, range, context, token),
      // The older side of a comparison is not what is being worked on: its findings would stand twice among the problems.
      handleDiagnostics: (uri, diagnostics, next) => next(uri, uri.scheme === 'git' ? [] : diagnostics),
    },
  });
  client.onDidChangeState(({ newState }) => {
    if (newState === State.Starting && state !== 'restarting') become('starting');
    if (newState === State.Running) become('ready');
    if (newState === State.Stopped && state !== 'failed' && state !== 'restarting') become('stopped');
  });
  client.onNotification('lugwork/status', (status: ServerNotifications['lugwork/status']) =>
    become(status.state, status.message),
  );
  const checked = new EventEmitter<string>();
  client.onNotification('lugwork/checked', ({ uri }: ServerNotifications['lugwork/checked']) => checked.fire(uri));
  answerFiles(client);

  async function begin(): Promise<void> {
    due = undefined;
    try {
      await client.start();
    } catch (error) {
      output.error(String(error));
      // One that died while it was starting is started again by `closed`.
      if (state === 'restarting') return;
      become('failed', l10n.t('It could not be started.'));
      void window.showErrorMessage(l10n.t('The Lugwork server could not be started. See the output for the reason.'));
    }
  }

  async function restart(): Promise<void> {
    guard.forget();
    clearTimeout(due);
    try {
      if (client.isRunning()) await client.stop();
    } catch (error) {
      // One that does not answer is left behind; a new one is wanted all the same.
      output.warn(String(error));
    }
    become('starting');
    await begin();
  }

  return {
    get state() {
      return state;
    },
    get message() {
      return message;
    },
    onDidChangeState: changed.event,
    onChecked: checked.event,
    markedLines,
    output,
    request: <M extends keyof ServerRequests>(method: M, params: ServerRequests[M]['params']) =>
      client.sendRequest<ServerRequests[M]['result']>(method, params),
    restart,
    dispose: async () => {
      clearTimeout(due);
      await client.dispose();
      changed.dispose();
      checked.dispose();
      output.dispose();
    },
  };
}

/** What ends with a space wants something behind it: the next list opens by itself. */
function goingOn(
  found: CompletionItem[] | CompletionList | null | undefined,
): CompletionItem[] | CompletionList | null | undefined {
  for (const item of Array.isArray(found) ? found : (found?.items ?? [])) {
    const text = typeof item.insertText === 'string' ? item.insertText : item.insertText?.value;
    if (text?.endsWith(' ') === true) item.command = { command: 'editor.action.triggerSuggest', title: '' };
  }
  return found;
}

function reportCrash(seconds: number, showOutput: () => void, restart: () => Promise<void>): void {
  const show = l10n.t('Show Output');
  const again = l10n.t('Restart Server');
  const shown =
    seconds > 0
      ? window.showErrorMessage(
          l10n.t('The Lugwork server keeps stopping. Your text is not affected. The next start is in {0} s.', seconds),
          again,
          show,
        )
      : window.showWarningMessage(l10n.t('The Lugwork server stopped unexpectedly and is starting again.'), show);
  void shown.then((choice) => {
    if (choice === show) showOutput();
    if (choice === again) return restart();
  });
}
