/** A whole text to its tree, statement by statement; a statement that is read once is not read again while its text stays. */
import { linesOf } from './lines.js';
import { readStatement, type LocalProblem, type ReadStatement } from './parse-statement.js';
import { longestStatement } from './reading/read.js';
import { copyOf, countStatements, lastOf, scanStatements, tokensOf, type Body, type Chunk, type Scan } from './statements.js';
import { isComment, type Token } from './tokens.js';
import { visible } from '../escape.js';
import { finished, type Steps } from '../steps.js';
import type { BodyStatement, LocalRange, Statement, SyntaxProblem, Tree } from './tree.js';

/** Reads texts and keeps what it read by the text of each statement. */
export interface TextParser {
  /** The tree of a text. Never throws, whatever the text. */
  parse(uri: string, text: string): Tree;
  /** The same in steps of one statement that is read anew each. */
  parseSteps(uri: string, text: string): Steps<Tree>;
  /** How many statements were read anew so far; those found in the store do not count. */
  readonly statementsRead: number;
}

/** The longest text that is read, in characters. */
export const longestText = 1_000_000;
/** The most statements that are read of one text. */
export const mostStatements = 50_000;

/** Makes a parser with a store of its own: at most `capacity` statements, but always those of the text read last; the longest unused ones go first. */
export function createTextParser(capacity = 4_000): TextParser {
  const store = new Map<string, CachedStatement>();
  let statementsRead = 0;

  const read = (scan: Scan, chunk: Chunk, first: Token): CachedStatement => {
    const { context, head } = chunk;
    const text = scan.text.slice(first.start, scan.tokens[chunk.last]?.end);
    const key = `${context} ${head.form} ${head.word ?? ''} ${first.character} ${text}`;
    let kept = store.get(key);
    if (kept) {
      store.delete(key);
    } else {
      statementsRead++;
      kept = { ...readStatement(tokensOf(scan, chunk, longestStatement), head, context), key: copyOf(key) };
    }
    store.set(kept.key, kept);
    return kept;
  };

  function* parseSteps(uri: string, text: string): Steps<Tree> {
    if (text.length > longestText) return { uri, statements: [], problems: [tooLong(text.length)] };
    const scan = scanStatements(text);
    const written = countStatements(scan.chunks);
    if (written > mostStatements) return { uri, statements: [], problems: [tooMany(written)] };
    let touched = 0;
    const assembly = new Assembly(scan, (...of) => {
      touched++;
      return read(...of);
    });
    yield;
    const statements = yield* assembly.statements(() => statementsRead);
    // Oldest first, and none of this text, so that a text of more statements than the store holds is not read whole at every edit.
    for (const key of store.keys()) {
      if (store.size <= Math.max(capacity, touched)) break;
      store.delete(key);
    }
    return { uri, statements, problems: assembly.problems.sort(byPlace), scan };
  }

  return {
    get statementsRead() {
      return statementsRead;
    },
    parse: (uri, text) => finished(parseSteps(uri, text)),
    parseSteps,
  };
}

const common = createTextParser();

/**
 * The tree of a text: every statement that could be read, in order, and a problem for whatever could not.
 * Statements whose text is known from an earlier call, of any file, are not read again. Never throws, whatever the text.
 */
export function parseText(uri: string, text: string): Tree {
  return common.parse(uri, text);
}

/** The same in steps of one statement that is read anew each. */
export function parseTextSteps(uri: string, text: string): Steps<Tree> {
  return common.parseSteps(uri, text);
}

/** What is kept of a statement: how it was read, and the last node made of it, given out again while place and comment stay. */
interface CachedStatement extends ReadStatement {
  readonly key: string;
  made?: Statement | BodyStatement;
}

type Read = (scan: Scan, chunk: Chunk, first: Token) => CachedStatement;

/** Puts the statements of one text together. */
class Assembly {
  readonly problems: SyntaxProblem[] = [];

  constructor(
    private readonly scan: Scan,
    private readonly read: Read,
  ) {
    for (const token of scan.tokens) {
      if (isComment(token) && token.problem !== undefined) this.report(token.problem, placeOf(token, token), 0);
    }
  }

  /** The statements in order; it yields after each for which something was read anew, as `count` tells. */
  *statements(count: () => number): Steps<Statement[]> {
    const statements: Statement[] = [];
    for (const chunk of this.scan.chunks) {
      const before = count();
      const statement = this.statement(chunk);
      if (statement) statements.push(statement as Statement);
      if (count() !== before) yield;
    }
    return statements;
  }

  private statement(chunk: Chunk): Statement | BodyStatement | undefined {
    const { tokens } = this.scan;
    const first = tokens[chunk.first];
    if (first === undefined) return undefined;
    const kept = this.read(this.scan, chunk, first);
    for (const problem of kept.problems) this.reportLocal(problem, first.line, chunk.head.word);
    const body =
      chunk.head.word === 'type' && chunk.context === 'file' ? this.body(chunk, first, kept.problems.length > 0) : undefined;
    if (!kept.statement) return undefined;
    const comment = chunk.doc === undefined ? undefined : tokens[chunk.doc];
    const doc = comment === undefined ? undefined : docText(comment.image);
    if (body === undefined) {
      if (kept.made?.line !== first.line || kept.made.doc !== doc) {
        kept.made = { ...kept.statement, line: first.line, ...(doc === undefined ? {} : { doc }) } as Statement;
      }
      return kept.made;
    }
    const last = tokens[lastOf(chunk)] ?? first;
    const end = { line: last.endLine - first.line, character: last.endCharacter };
    if (!isSameType(kept.made, { line: first.line, doc, body, end })) {
      const range = { start: kept.statement.range.start, end };
      kept.made = { ...kept.statement, range, line: first.line, ...(doc === undefined ? {} : { doc }), body } as Statement;
    }
    return kept.made;
  }

  private body(chunk: Chunk, first: Token, isReported: boolean): BodyStatement[] {
    const { tokens } = this.scan;
    const body: Body = chunk.body ?? { chunks: [] };
    const open = body.open === undefined ? undefined : tokens[body.open];
    if (!isReported && open === undefined) {
      const header = placeOf(first, tokens[chunk.last] ?? first);
      this.report('a type has a body in braces: type NAME : BASE { lugs …, positions … }', header, 0);
    } else if (!isReported && open !== undefined && body.close === undefined) {
      this.report('this `{` has no closing `}`', placeOf(open, open), 0);
    }
    return body.chunks.flatMap((inner) => {
      const statement = this.statement(inner);
      return statement ? [statement as BodyStatement] : [];
    });
  }

  private report(message: string, range: LocalRange, line: number): void {
    this.reportLocal({ message, range }, line);
  }

  private reportLocal({ message, range, rewrites }: LocalProblem, line: number, head?: string): void {
    const moved = (place: LocalRange['start']) => ({ line: place.line + line, character: place.character });
    const inFile = ({ start, end }: LocalRange): LocalRange => ({ start: moved(start), end: moved(end) });
    this.problems.push({
      rule: 'syntax',
      severity: 'error',
      message: visible(message),
      range: inFile(range),
      ...(rewrites && { rewrites: rewrites.map((rewrite) => ({ ...rewrite, range: inFile(rewrite.range) })) }),
      ...(head === undefined ? {} : { head }),
    });
  }
}

interface TypeParts {
  readonly line: number;
  readonly doc: string | undefined;
  readonly body: readonly BodyStatement[];
  readonly end: LocalRange['end'];
}

/** Whether a type that was made earlier is this one still: its first line is known to be, so its place, comment, body and end decide. */
function isSameType(made: Statement | BodyStatement | undefined, { line, doc, body, end }: TypeParts): boolean {
  if (made?.kind !== 'type' || made.line !== line || made.doc !== doc || made.body.length !== body.length) return false;
  const { end: madeEnd } = made.range;
  if (madeEnd.line !== end.line || madeEnd.character !== end.character) return false;
  return made.body.every((statement, i) => statement === body[i]);
}

function byPlace(a: SyntaxProblem, b: SyntaxProblem): number {
  return a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character;
}

function placeOf(from: Token, to: Token): LocalRange {
  return { start: { line: from.line, character: from.character }, end: { line: to.endLine, character: to.endCharacter } };
}

/** The text of a doc comment without its stars. */
function docText(image: string): string {
  const inner = image.replace(/^\/\*\*/, '').replace(/\*\/$/, '');
  const lines = linesOf(inner).map((line, i) => (i === 0 ? line : line.replace(/^[ \t]*\*? ?/, '')).trimEnd());
  return copyOf(visible(lines.join('\n').trim()));
}

function tooLong(length: number): SyntaxProblem {
  return ofWholeText(`this text is ${length} characters long; the limit is ${longestText}`);
}

function tooMany(statements: number): SyntaxProblem {
  return ofWholeText(`this text has ${statements} statements; the limit is ${mostStatements}`);
}

function ofWholeText(problem: string): SyntaxProblem {
  const start = { line: 0, character: 0 };
  const message = `${problem}: split it over several files with \`use\``;
  return { rule: 'syntax', severity: 'error', message, range: { start, end: start } };
}
