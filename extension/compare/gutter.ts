/** Marks in the gutter of a circuit that differs from the last commit: the letter of the change, and on hover what a changed wire does. */
import {
  l10n,
  MarkdownString,
  Range,
  Uri,
  window,
  workspace,
  type DecorationOptions,
  type Disposable,
  type TextEditor,
} from 'vscode';
import type { ChangedLine } from '../../server/protocol.js';
import { createLatest } from '../preview/latest.js';
import type { ServerLink } from '../server-link.js';
import { gitApi, lastCommitted } from './git.js';

/** Milliseconds without a keystroke after which the gutter follows. */
const restMs = 600;
const kinds = ['new', 'gone', 'moved', 'changed'] as const;
/** Lines of effects in one hover. */
const most = 8;

export function registerGutter(link: ServerLink, extension: Uri): Disposable {
  const icon = (kind: string, theme: string): Uri => Uri.joinPath(extension, 'extension', 'icons', `change-${kind}-${theme}.svg`);
  const types = kinds.map((kind) => ({
    kind,
    type: window.createTextEditorDecorationType({
      light: { gutterIconPath: icon(kind, 'light') },
      dark: { gutterIconPath: icon(kind, 'dark') },
      gutterIconSize: 'contain',
    }),
  }));
  const show = (editor: TextEditor, lines: readonly ChangedLine[]): void => {
    link.markedLines.set(editor.document.uri.toString(), new Set(lines.map(({ range }) => range.start.line)));
    for (const { kind, type } of types) editor.setDecorations(type, optionsOf(lines.filter((line) => line.kind === kind)));
  };
  const isWanted = (uri: Uri): boolean => workspace.getConfiguration('lugwork', uri).get('changes.gutter', true);

  const reading = createLatest<undefined>(
    async (_, isOld) => {
      const editor = window.activeTextEditor;
      if (editor?.document.languageId !== 'lugwork' || link.state === 'stopped' || link.state === 'failed') return;
      const { uri } = editor.document;
      if (!isWanted(uri)) return show(editor, []);
      const before = await lastCommitted(uri);
      const isSame = 'problem' in before || before.text === editor.document.getText();
      const lines = isSame
        ? []
        : await link.request('lugwork/changedLines', { uri: uri.toString(), before: { text: before.text } });
      if (!isOld()) show(editor, lines);
    },
    (error) => link.output.warn(`changed lines: ${String(error)}`),
  );

  let timer: ReturnType<typeof setTimeout> | undefined;
  const soon = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void reading.ask(undefined), restMs);
  };
  const disposables: Disposable[] = [
    ...types.map(({ type }) => type),
    window.onDidChangeActiveTextEditor(soon),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document === window.activeTextEditor?.document) soon();
    }),
    workspace.onDidCloseTextDocument(({ uri }) => void link.markedLines.delete(uri.toString())),
    workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration('lugwork.changes.gutter')) soon();
    }),
    link.onDidChangeState((state) => {
      if (state === 'ready') soon();
    }),
  ];
  void followCommits(disposables, soon);
  return {
    dispose: () => {
      clearTimeout(timer);
      disposables.forEach((one) => void one.dispose());
    },
  };
}

/** Calls `changed` at once and at each commit, which changes what the text is compared with; what listens goes to `disposables`. */
async function followCommits(disposables: Disposable[], changed: () => void): Promise<void> {
  const git = await gitApi();
  const follow = (repository: NonNullable<typeof git>['repositories'][number]): void =>
    void disposables.push(repository.state.onDidChange(changed));
  git?.repositories.forEach(follow);
  if (git !== undefined) disposables.push(git.onDidOpenRepository((repository) => (follow(repository), changed())));
  changed();
}

function optionsOf(lines: readonly ChangedLine[]): DecorationOptions[] {
  return lines.map(({ range, says, effects }) => {
    const hover = new MarkdownString();
    hover.appendText(l10n.t('Since the last commit: {0}', says));
    for (const effect of effects.slice(0, most)) hover.appendMarkdown('\n\n- ').appendText(effect);
    if (effects.length > most) hover.appendMarkdown('\n\n').appendText(l10n.t('and {0} more positions', effects.length - most));
    return {
      range: new Range(range.start.line, range.start.character, range.end.line, range.end.character),
      hoverMessage: hover,
    };
  });
}
