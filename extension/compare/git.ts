/** Earlier texts of a file, from the editor's own Git extension: no process is started here. */
import { extensions, l10n, type Event, type Uri } from 'vscode';

/** What is used of the Git extension's interface, version 1. */
interface Repository {
  readonly rootUri: Uri;
  readonly state: { readonly onDidChange: Event<void> };
  show(ref: string, path: string): Promise<string>;
}
interface GitApi {
  readonly repositories: readonly Repository[];
  readonly onDidOpenRepository: Event<Repository>;
  getRepository(uri: Uri): Repository | null;
}
interface GitExtension {
  readonly enabled: boolean;
  getAPI(version: 1): GitApi;
}

/** The Git extension where it is there and switched on. */
export async function gitApi(): Promise<GitApi | undefined> {
  const extension = extensions.getExtension<GitExtension>('vscode.git');
  if (extension === undefined) return undefined;
  const git = extension.isActive ? extension.exports : await extension.activate();
  return git.enabled ? git.getAPI(1) : undefined;
}

/** The file as the last commit has it, or why there is none. */
export async function lastCommitted(uri: Uri): Promise<{ readonly text: string } | { readonly problem: string }> {
  const repository = (await gitApi())?.getRepository(uri);
  if (repository === undefined || repository === null) return { problem: l10n.t('This file is not in an open Git repository.') };
  try {
    return { text: await repository.show('HEAD', uri.fsPath) };
  } catch {
    return { problem: l10n.t('The last commit does not contain this file.') };
  }
}
