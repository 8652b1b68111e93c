/** Answers the server's questions about files, so that it works the same on a disk, on a remote machine and in a virtual folder. */
import { FileType, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { ClientRequests } from '../server/protocol.js';
import { findCircuits } from './find-circuits.js';

type Answers = { [M in keyof ClientRequests]: (params: ClientRequests[M]['params']) => Promise<ClientRequests[M]['result']> };

const answers: Answers = {
  'lugwork/readFile': async ({ uri }) => {
    const place = Uri.parse(uri, true);
    // The server has no business with any other file.
    if (!place.path.endsWith('.lug')) return null;
    try {
      const { type, size } = await workspace.fs.stat(place);
      // A pipe or a device, which may never end, is of unknown type.
      if ((type & FileType.File) === 0 || size > largest) return null;
      return new TextDecoder('utf-8', { fatal: true }).decode(await workspace.fs.readFile(place));
    } catch {
      // Missing or not UTF-8: the server reports it at the `use` line that names it.
      return null;
    }
  },
  'lugwork/findFiles': async () => (await findCircuits()).map(String),
};

/** Bytes; more than the longest text can have. */
const largest = 4_000_000;

/** Registers the answers on a client that has not started yet. */
export function answerFiles(client: BaseLanguageClient): void {
  client.onRequest('lugwork/readFile', answers['lugwork/readFile']);
  client.onRequest('lugwork/findFiles', answers['lugwork/findFiles']);
}
