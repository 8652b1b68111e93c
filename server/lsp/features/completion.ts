/** Completion that knows what is being written; docs come when an entry is looked at. */
import { typesOf } from '../../../language/circuit/index.js';
import { type CompletionItem, CompletionItemKind, type CompletionList, CompletionTriggerKind } from 'vscode-languageserver';
import { type Asked, completionsAt, isDemanded } from '../completion/index.js';
import { type About, markdown } from '../completion/item.js';
import { type Feature, onDocument } from '../feature.js';
import { ruleHover } from '../hover/rule.js';
import { typeHover } from '../hover/type.js';
import { typingAt } from '../typing.js';

export const completion: Feature = {
  capabilities: { completionProvider: { triggerCharacters: ['.', ':', '"', '{', '(', ',', ' '], resolveProvider: true } },
  register(service) {
    const { connection, guard, workspace } = service;
    connection.onCompletion(
      onDocument(service, 'completion', null, async (at, { position, context }): Promise<CompletionList | null> => {
        const typing = typingAt(at, position);
        if (typing === undefined) return null;
        const files = typing.head === 'use' ? await workspace.files() : [];
        const paths = files.filter((file) => file !== at.uri).flatMap((file) => relativePath(at.uri, file) ?? []);
        const asked: Asked = { ...typing, at, paths, analysis: workspace.analysis };
        const isBySpace = context?.triggerKind === CompletionTriggerKind.TriggerCharacter && context.triggerCharacter === ' ';
        if (isBySpace && !isDemanded(asked)) return null;
        const items = completionsAt(asked);
        // Behind each digit other values fit.
        return { items, isIncomplete: items.some(({ kind }) => kind === CompletionItemKind.Value) };
      }),
    );
    connection.onCompletionResolve(
      guard.request(
        'resolve',
        (item: CompletionItem) => item,
        async (item) => {
          const docs = await docsOf(item.data as About | undefined);
          return docs === undefined ? item : { ...item, documentation: markdown(docs) };
        },
      ),
    );

    const docsOf = async (about: About | undefined): Promise<string | undefined> => {
      if (about?.kind === 'rule') return ruleHover(about.name);
      if (about?.kind !== 'type') return undefined;
      const snapshot = await workspace.snapshot(about.uri, 'interactive');
      const type = snapshot && typesOf(snapshot.circuit).find(({ name }) => name === about.name);
      return type === undefined ? undefined : typeHover(type);
    };
  },
};

/** `undefined` where the two lie in different places altogether. */
export function relativePath(from: string, to: string): string | undefined {
  const [there, here] = [rootAndSteps(to), rootAndSteps(from)];
  if (there === undefined || here === undefined || there.root !== here.root) return undefined;
  const [target, source] = [there.steps, here.steps];
  let common = 0;
  while (common < target.length - 1 && common < source.length - 1 && target[common] === source[common]) common++;
  return [...source.slice(common, -1).map(() => '..'), ...target.slice(common)].join('/');
}

function rootAndSteps(uri: string): { readonly root: string; readonly steps: readonly string[] } | undefined {
  const [, root, path] = /^([^:]+:(?:\/\/[^/]*)?)(\/.*)$/.exec(uri) ?? [];
  return root === undefined || path === undefined ? undefined : { root, steps: path.split('/').map(decode) };
}

function decode(step: string): string {
  try {
    return decodeURIComponent(step);
  } catch {
    // A lone percent sign is part of the name.
    return step;
  }
}
