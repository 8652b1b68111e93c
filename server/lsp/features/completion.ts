/** Completion that knows what is being written; docs come when an entry is looked at. */
import { CompletionItemKind, CompletionTriggerKind, type CompletionItem, type CompletionList } from 'vscode-languageserver';
import { completionsAt, isDemanded, type Asked } from '../completion/index.js';
import { markdown, type About } from '../completion/item.js';
import { ruleHover } from '../hover/rule.js';
import { typeHover } from '../hover/type.js';
import { relativePath } from '../relative-path.js';
import { typingAt } from '../typing.js';
import { onDocument, type Feature } from './feature.js';

export const completion: Feature = {
  capabilities: { completionProvider: { triggerCharacters: ['.', ':', '"', '{', '(', ',', ' '], resolveProvider: true } },
  register(service) {
    const { connection, guard, workspace } = service;
    connection.onCompletion(
      onDocument(service, 'completion', null, async (at, { position, context }): Promise<CompletionList | null> => {
        const typing = typingAt(at.document, position);
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
      const type = (await workspace.snapshot(about.uri, 'interactive'))?.circuit.types?.find(({ name }) => name === about.name);
      return type === undefined ? undefined : typeHover(type);
    };
  },
};
