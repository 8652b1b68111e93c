/** The Langium parser, fed by this language's own lexer: words by categories, brackets balanced, errors as data. */
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  DefaultLexer,
  DefaultTokenBuilder,
  EmptyFileSystem,
  inject,
  LangiumParserErrorMessageProvider,
  type AstNode,
  type GrammarAST,
  type LangiumCoreServices,
  type LangiumSharedCoreServices,
  type LexerResult,
  type ParseResult,
  type TokenBuilderOptions,
} from 'langium';
import { LugworkGeneratedModule, LugworkGeneratedSharedModule } from '../generated/module.js';
import type { KnownHead } from '../heads.js';
import type { SoundTokens } from '../signs.js';
import { closingWords } from '../syntax/match.js';
import type { Token } from '../tokens.js';

/** Parses tokens by a rule, with what recovery makes of those that don't fit. */
export function parseByLangium<T extends AstNode>(sound: SoundTokens, rule: string, as: ReadAs = {}): ParseResult<T> {
  const { parser, lexer } = (services ??= createServices());
  lexer.prepare(sound.tokens, sound.missing, as);
  return parser.parse<T>('', { rule });
}

/** What some words are read as, by their offset: a misspelt `form` as `from`. */
export type Readings = ReadonlyMap<number, string>;

/** What the words of a statement are read as. */
export interface ReadAs {
  readonly head?: KnownHead;
  readonly readings?: Readings;
}

let services: { parser: LangiumCoreServices['parser']['LangiumParser']; lexer: StatementLexer } | undefined;

function createServices() {
  const shared: LangiumSharedCoreServices = inject(createDefaultSharedCoreModule(EmptyFileSystem), LugworkGeneratedSharedModule);
  const core: LangiumCoreServices = inject(createDefaultCoreModule({ shared }), LugworkGeneratedModule, {
    parser: {
      TokenBuilder: () => new WordTokenBuilder(),
      Lexer: (own: LangiumCoreServices) => new StatementLexer(own),
      ParserErrorMessageProvider: () => new ExpectedWords(),
    },
  });
  shared.ServiceRegistry.register(core);
  return { parser: core.parser.LangiumParser, lexer: core.parser.Lexer as StatementLexer };
}

type LangiumToken = LexerResult['tokens'][number];
type TokenType = LangiumToken['tokenType'];

/** Puts every word of the language under NAME, so that it may name a part as well. */
class WordTokenBuilder extends DefaultTokenBuilder {
  override buildTokens(grammar: GrammarAST.Grammar, options?: TokenBuilderOptions): TokenType[] {
    const tokens = super.buildTokens(grammar, options) as TokenType[];
    const named = (name: string) => tokens.filter((token) => token.name === name);
    for (const token of tokens) {
      if (token.name !== 'PLAIN' && !/^[a-z]/.test(token.name)) continue;
      token.CATEGORIES = closingWords.has(token.name) ? named('NAME') : [...named('NAME'), ...named('FREE')];
    }
    return tokens;
  }
}

/** Hands our own tokens to Langium's parser. */
class StatementLexer extends DefaultLexer {
  private prepared: LangiumToken[] = [];

  /** Holds a statement's tokens for the parse that follows at once, with what is missing before and behind them. */
  prepare(tokens: readonly Token[], missing: readonly string[], { head, readings }: ReadAs): void {
    const [start, end] = [tokens[0], tokens[tokens.length - 1]];
    this.prepared = tokens.map((token) => this.convert(token, readings?.get(token.start)));
    if (start === undefined || end === undefined) return;
    if (head?.form === 'misspelt') this.prepared[0] = this.convert(start, head.word);
    if (head?.form === 'missing') this.prepared.unshift(this.convert(emptyBefore(start, head.word)));
    for (const image of missing) this.prepared.push(this.convert(emptyBehind(end, image)));
  }

  override tokenize(): LexerResult {
    return { tokens: this.prepared, hidden: [], errors: [] };
  }

  private convert(token: Token, readAs = token.image): LangiumToken {
    const tokenType = this.typeOf(token.kind, readAs);
    return {
      image: readAs,
      startOffset: token.start,
      endOffset: token.end - 1,
      startLine: token.line + 1,
      endLine: token.endLine + 1,
      startColumn: token.character + 1,
      endColumn: token.endCharacter,
      tokenType,
      tokenTypeIdx: tokenType.tokenTypeIdx ?? 0,
    };
  }

  private typeOf(kind: Token['kind'], image: string): TokenType {
    if (kind === 'value') return this.named('VALUE');
    if (kind === 'text') return this.named('TEXT');
    if (kind === 'blank') return this.named('BLANK');
    const types = this.definition;
    const own = Object.hasOwn(types, image) && !/^[A-Z]+(_[A-Z]+)*$/.test(image) ? types[image] : undefined;
    return own ?? this.named('PLAIN');
  }

  /** A kind of token that the grammar has. */
  private named(name: string): TokenType {
    const type = this.definition[name];
    if (type === undefined) throw new Error(`The grammar has no token ${name}.`);
    return type;
  }
}

function emptyBefore(token: Token, image: string): Token {
  return { ...token, kind: 'word', image, end: token.start, endLine: token.line, endCharacter: token.character };
}

function emptyBehind(token: Token, image: string): Token {
  return { ...token, kind: 'sign', image, start: token.end, line: token.endLine, character: token.endCharacter };
}

/** The parser's messages are lists of the token names that would have fitted; `messages.ts` makes the sentences. */
class ExpectedWords extends LangiumParserErrorMessageProvider {
  override buildMismatchTokenMessage({ expected }: { expected: TokenType }): string {
    return expected.name;
  }

  override buildNotAllInputParsedMessage(): string {
    return '';
  }

  override buildNoViableAltMessage({ expectedPathsPerAlt }: { expectedPathsPerAlt: TokenType[][][] }): string {
    return firstNames(expectedPathsPerAlt.flat());
  }

  override buildEarlyExitMessage({ expectedIterationPaths }: { expectedIterationPaths: TokenType[][] }): string {
    return firstNames(expectedIterationPaths);
  }
}

function firstNames(paths: readonly TokenType[][]): string {
  return [...new Set(paths.flatMap((path) => (path[0] ? [path[0].name] : [])))].join(' ');
}
