/** Colours by meaning: parts, lugs, types, positions, properties, distinguished where a grammar of lines cannot. */
import { SemanticTokensBuilder, type Range, type SemanticTokens, type SemanticTokensDelta } from 'vscode-languageserver';
import { innerWords, isSign, parseColour, type Chunk, type Token } from '../../../language/grammar/index.js';
import type { NameUse } from '../../../language/circuit/index.js';
import { definitionOf, placeKey } from '../places.js';
import { isBuiltIn } from '../texts/built-ins.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

const types = [
  'keyword',
  'variable',
  'property',
  'type',
  'enumMember',
  'parameter',
  'namespace',
  'decorator',
  'number',
  'string',
  'method',
] as const;
const modifiers = ['declaration', 'defaultLibrary'] as const;
type TokenType = (typeof types)[number];

export const semanticTokens: Feature = {
  capabilities: {
    semanticTokensProvider: {
      legend: { tokenTypes: [...types], tokenModifiers: [...modifiers] },
      full: { delta: true },
      range: true,
    },
  },
  register(service) {
    const { semanticTokens: tokens } = service.connection.languages;
    /** What was sent last, by document, so that only the difference need be sent. */
    const builders = new Map<string, SemanticTokensBuilder>();
    /** The one that made an answer; without what it made only a whole answer can follow. */
    const builderOf = (uri: string, answer?: string): SemanticTokensBuilder => {
      // Documents that are closed again need not be remembered.
      for (const known of builders.keys()) if (service.workspace.documents.get(known) === undefined) builders.delete(known);
      const before = builders.get(uri);
      const builder = before !== undefined && before.id === answer ? before : new SemanticTokensBuilder();
      builders.set(uri, builder);
      return builder;
    };
    const none: SemanticTokens = { data: [] };
    tokens.on(
      onDocument(service, 'tokens', none, (at) => {
        const builder = builderOf(at.uri);
        fill(builder, at);
        return builder.build();
      }),
    );
    tokens.onDelta(
      onDocument(service, 'tokensDelta', none as SemanticTokens | SemanticTokensDelta, (at, { previousResultId }) => {
        const builder = builderOf(at.uri, previousResultId);
        builder.previousResult(previousResultId);
        fill(builder, at);
        return builder.buildEdits();
      }),
    );
    tokens.onRange(
      onDocument(service, 'tokensRange', none, (at, { range }) => {
        const builder = new SemanticTokensBuilder();
        fill(builder, at, range);
        return builder.build();
      }),
    );
  },
};

function fill(builder: SemanticTokensBuilder, at: Snapshot, range?: Range): void {
  const uses = new Map(
    at.circuit.names.flatMap((use) => (use.range.uri === at.uri ? [[placeKey(use.range), use] as const] : [])),
  );
  const { tokens, chunks } = at.tree.scan ?? { tokens: [], chunks: [] };
  const walk = (chunk: Chunk): void => {
    const roles = rolesOf(tokens.slice(chunk.first, chunk.last + 1));
    roles.forEach(({ token, role }) => {
      if (range !== undefined && (token.line < range.start.line || token.line > range.end.line)) return;
      const use = uses.get(`${at.uri}#${token.line}:${token.character}`);
      const type = use === undefined ? role : (typeOf[use.kind] ?? role);
      if (type === undefined || token.line !== token.endLine) return;
      const { line, character, image } = token;
      builder.push(line, character, image.length, types.indexOf(type), use === undefined ? 0 : modifiersOf(at, use));
    });
    chunk.body?.chunks.forEach(walk);
  };
  chunks.forEach(walk);
}

const typeOf: Readonly<Record<NameUse['kind'], TokenType | undefined>> = {
  part: 'variable',
  lug: 'property',
  type: 'type',
  coil: 'method',
  cavity: 'namespace',
  plate: 'namespace',
  position: 'enumMember',
  property: 'parameter',
  rule: 'decorator',
  file: 'string',
};

function modifiersOf({ circuit }: Snapshot, use: NameUse): number {
  const isStandard = use.kind === 'type' && isBuiltIn(definitionOf(circuit, use)?.uri ?? '');
  return (use.isDefinition ? 1 : 0) + (isStandard ? 2 : 0);
}

interface Roled {
  readonly token: Token;
  readonly role?: TokenType;
}

/** How a wire looks is said in free words, which no rule of the grammar spells. */
const wordsOfTheLanguage: ReadonlySet<string> = new Set([...innerWords, 'bare', 'twisted', 'shielded']);

/** What each token is where no name says it: the statement's word, words of the language, properties in braces, values. */
function rolesOf(tokens: readonly Token[]): Roled[] {
  let depth = 0;
  let isName = false;
  return tokens.flatMap((token, i): Roled[] => {
    if (token.kind === 'comment' || token.kind === 'doc') return [];
    if (isSign(token, '{')) depth++;
    if (isSign(token, '}')) depth = Math.max(0, depth - 1);
    const begins = depth > 0 && (isSign(token, '{') || isSign(token, ','));
    const wasName = isName || (depth > 0 && token.first);
    isName = begins;
    switch (token.kind) {
      case 'value':
        return [{ token, role: 'number' }];
      case 'text':
        return [{ token, role: 'string' }];
      case 'word':
        return [wordRole(tokens, i, token, depth > 0 ? (wasName ? 'parameter' : 'enumMember') : undefined)];
      default:
        return [];
    }
  });
}

/** A word's role; `inBraces` is the one that it has by its place in braces. */
function wordRole(tokens: readonly Token[], i: number, token: Token, inBraces: TokenType | undefined): Roled {
  const [head, previous] = [tokens[0], tokens[i - 1]];
  if (i === 0) return { token, role: 'keyword' };
  if (isSign(previous, '.')) return { token };
  if (head?.image === 'type' && isSign(previous, ':')) return { token, role: 'type' };
  if (inBraces !== undefined && token.image !== 'at') return { token, role: inBraces };
  if (wordsOfTheLanguage.has(token.image)) return { token, role: 'keyword' };
  return parseColour(token.image) === undefined ? { token } : { token, role: 'enumMember' };
}
