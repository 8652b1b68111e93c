/** Entry in the browser: the server is a web worker. */
import { Uri, type ExtensionContext } from 'vscode';
import {
  BaseLanguageClient,
  BrowserMessageReader,
  BrowserMessageWriter,
  type LanguageClientOptions,
  type MessageTransports,
} from 'vscode-languageclient/browser.js';
import { activateShared, type LugworkApi } from './activate.js';
import type { ClientOptions } from '../server/protocol.js';
import type { ServerLink } from './server-link.js';

let link: ServerLink | undefined;

/** Called by the editor. */
export async function activate(context: ExtensionContext): Promise<LugworkApi> {
  const script = Uri.joinPath(context.extensionUri, 'dist', 'server-web.js').toString(true);
  const drawingScript = Uri.joinPath(context.extensionUri, 'dist', 'drawing.js').toString(true);
  const active = await activateShared(
    context,
    (options) =>
      new WorkerClient(script, {
        ...options,
        initializationOptions: { ...(options.initializationOptions as ClientOptions), drawingScript } satisfies ClientOptions,
      }),
  );
  link = active.link;
  return active.api;
}

/** Called by the editor before it ends. */
export async function deactivate(): Promise<void> {
  await link?.dispose();
}

/** The stock browser client keeps one worker for good; this one begins each start with a new worker, so that a restart is one. */
class WorkerClient extends BaseLanguageClient {
  private worker: Worker | undefined;

  constructor(
    private readonly script: string,
    options: LanguageClientOptions,
  ) {
    super('lugwork', 'Lugwork', options);
  }

  protected override createMessageTransports(): Promise<MessageTransports> {
    this.worker?.terminate();
    this.worker = new Worker(this.script);
    return Promise.resolve({ reader: new BrowserMessageReader(this.worker), writer: new BrowserMessageWriter(this.worker) });
  }

  override async dispose(timeout?: number): Promise<void> {
    await super.dispose(timeout);
    this.worker?.terminate();
  }
}
