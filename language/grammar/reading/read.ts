/** One statement from its tokens to its node: by the table where it is right, else by the parser, which says where it stopped. */
import type { AstNode } from 'langium';
import type { Settings, Statement } from '../generated/ast.js';
import type { KnownHead } from '../heads.js';
import { readWhole } from './read-whole.js';
import { parseByLangium, type ReadAs, type Readings } from './services.js';
import type { SignProblem, SoundTokens } from '../signs.js';
import { entryOf, isStatementWord } from '../syntax/syntax.js';
import type { Token } from '../tokens.js';

/** A statement, or a part of one, as it was read. */
export interface Raw<T extends AstNode> {
  /** Absent where there is nothing, or what is there is too long or nested too deep to be read. */
  readonly result?: RawResult<T>;
  /** The tokens that counted, in order. */
  readonly tokens: readonly Token[];
  /** What is wrong with its signs. */
  readonly problem?: SignProblem;
}

export interface RawResult<T extends AstNode> {
  readonly value: T;
  readonly parserErrors: ReturnType<typeof parseByLangium>['parserErrors'];
}

export type RawStatement = Raw<Statement>;

/** How deep brackets may nest. No guitar needs more, and the parser's own stack holds many times that. */
export const deepestNesting = 50;

/** How many words one statement may have. */
export const longestStatement = 20_000;

/** Reads one statement from its tokens; `head` says what its first word is read as. */
export function parseStatement(sound: SoundTokens, head: KnownHead, readings?: Readings): RawStatement {
  const value = head.form === 'written' && readings === undefined ? whole<Statement>(sound, entryOf(head.word).rule) : undefined;
  if (value !== undefined) return { result: { value, parserErrors: [] }, tokens: sound.tokens };
  return parse(sound, isStatementWord(head.word) ? 'FileStatement' : 'BodyStatement', { head, ...(readings && { readings }) });
}

/** Reads settings that stand by themselves. */
export function parseSettingList(sound: SoundTokens): Raw<Settings> {
  const value = whole<Settings>(sound, 'Settings');
  return value === undefined ? parse(sound, 'Settings') : { result: { value, parserErrors: [] }, tokens: sound.tokens };
}

/** The node where nothing is wrong. */
function whole<T extends AstNode>({ tokens, missing, deepest, problem }: SoundTokens, rule: string): T | undefined {
  const isSound = problem === undefined && missing.length === 0 && deepest <= deepestNesting;
  return isSound ? (readWhole(rule, tokens) as T | undefined) : undefined;
}

function parse<T extends AstNode>(sound: SoundTokens, rule: string, as?: ReadAs): Raw<T> {
  const { tokens, deepest, problem } = sound;
  const [start] = tokens;
  if (start !== undefined && (tokens.length > longestStatement || deepest > deepestNesting)) {
    const reason =
      deepest > deepestNesting
        ? `brackets are nested more than ${deepestNesting} levels deep`
        : `there are more than ${longestStatement} words`;
    return { tokens, problem: problem ?? { token: start, message: `${reason} in this statement` } };
  }
  const read = problem === undefined ? { tokens } : { tokens, problem };
  return start === undefined ? read : { result: parseByLangium<T>(sound, rule, as), ...read };
}
