/** Shows the documents that lie inside the server, read only: the standard parts, which go to definition opens, and the pages of the rules. */
import { workspace, type Disposable } from 'vscode';
import type { ServerLink } from './server-link.js';

/** Registers the `lugwork:` addresses. */
export function registerBuiltIns(link: ServerLink): Disposable {
  return workspace.registerTextDocumentContentProvider('lugwork', {
    provideTextDocumentContent: async (uri) => (await link.request('lugwork/builtInText', { uri: uri.toString() })) ?? undefined,
  });
}
