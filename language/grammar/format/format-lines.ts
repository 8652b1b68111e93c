/** A scanned text as the lines of its one layout, before columns: what stands on which line, and how deep. */
import { lastOf, type Chunk, type Scan } from '../statements.js';
import { isComment, isSign, type Token } from '../tokens.js';

/** One line to be written. */
export interface Line {
  readonly indent: number;
  readonly tokens: Token[];
  readonly blankBefore: boolean;
  /** The statement that begins on this line. */
  readonly opens?: Chunk;
  /** True where the line goes on with a statement that began above. */
  readonly goesOn?: boolean;
  /** Lines of a statement that cannot be read, as they stand. */
  readonly verbatim?: readonly string[];
}

/** First and last line, both included, that stay as they stand. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

const step = 2;

/** Lays the tokens of a text out on lines. `kept` are the stretches that stay as they are, in order. */
export function layOut(scan: Scan, sourceLines: readonly string[], kept: readonly Stretch[]): Line[] {
  return new Layout(scan, sourceLines, kept).run();
}

/** A part on one line that is wider than this and names leads gets a line for each of its properties. */
const widestLeads = 130;

/** Tokens of a statement that begin a line though they were written on the one before: the properties of a part with a long list of leads. */
function breaksOf(tokens: readonly Token[], chunk: Chunk, last: number): ReadonlySet<number> {
  const [begin, end] = [tokens[chunk.first], tokens[last]];
  const none: ReadonlySet<number> = new Set();
  if (begin === undefined || end === undefined || chunk.head.word !== 'part' || chunk.body !== undefined) return none;
  if (begin.line !== end.endLine || end.end - begin.start <= widestLeads) return none;
  const own = tokens.slice(chunk.first, last + 1);
  if (own.some(isComment) || own.filter(({ image }) => image === 'lead').length < 2) return none;
  const at = (sign: string): number[] => own.flatMap((token, i) => (isSign(token, sign) ? [chunk.first + i] : []));
  const [open, close] = [at('{'), at('}')];
  if (open.length !== 1 || close.length !== 1) return none;
  const properties = at(',').filter((comma) => comma > (open[0] ?? 0));
  return new Set([...open, ...properties].map((index) => index + 1).concat(close));
}

class Layout {
  private readonly lines: Line[] = [];
  /** The token written last, and the source line on which it ends. */
  private previous: Token | undefined;
  private lastLine = -1;
  /** Whether a bracket was opened last. */
  private opened = false;
  private keptAt = 0;

  constructor(
    private readonly scan: Scan,
    private readonly sourceLines: readonly string[],
    private readonly kept: readonly Stretch[],
  ) {}

  run(): Line[] {
    this.range(0, this.scan.tokens.length, this.scan.chunks, 0);
    return this.lines;
  }

  /** Statements and the comments between them. */
  private range(from: number, to: number, chunks: readonly Chunk[], indent: number): void {
    let next = 0;
    for (let i = from; i < to;) {
      const chunk = chunks[next];
      const token = this.scan.tokens[i];
      if (chunk?.first === i && token !== undefined) {
        i = this.chunk(chunk, token, indent);
        next++;
      } else {
        if (token !== undefined) this.comment(token, indent);
        i++;
      }
    }
  }

  /** Writes a statement and says which token follows it. */
  private chunk(chunk: Chunk, first: Token, indent: number): number {
    const { tokens } = this.scan;
    const body = chunk.body;
    const end = lastOf(chunk) + 1;
    if (this.skips(first)) return end;
    this.statement(chunk, indent, body?.open ?? chunk.last);
    if (body?.open === undefined || body.close === undefined) return end;
    const close = tokens[body.close];
    if (close === undefined) return end;
    if (body.close > body.open + 1) {
      this.range(body.open + 1, body.close, body.chunks, indent + step);
      this.lines.push({ indent, tokens: [close], blankBefore: false });
    } else {
      this.above?.tokens.push(close);
    }
    this.wrote(close);
    return end;
  }

  /** A statement's own tokens, on the lines on which they were written. */
  private statement(chunk: Chunk, indent: number, last: number): void {
    const { tokens } = this.scan;
    // How deep the lines stand on which the brackets that are open now were opened.
    const opened: number[] = [];
    const breaks = breaksOf(tokens, chunk, last);
    for (let i = chunk.first; i <= last; i++) {
      const token = tokens[i];
      if (token === undefined) continue;
      const closes = isSign(token, '}') || isSign(token, ')');
      const opener = closes ? opened.pop() : opened[opened.length - 1];
      const onSameLine = (token.line <= this.lastLine && !breaks.has(i)) || this.opensBody(chunk, i);
      if (i === chunk.first) {
        this.open(token, chunk, indent);
      } else if (onSameLine) {
        this.above?.tokens.push(token);
      } else {
        const deep = closes ? (opener ?? indent) : (opener ?? indent) + step;
        const blankBefore = !closes && this.blankBefore(token);
        this.lines.push({ indent: deep, tokens: [token], blankBefore, goesOn: true });
      }
      if (isSign(token, '{') || isSign(token, '(')) opened.push(this.above?.indent ?? indent);
      this.wrote(token);
    }
  }

  /** A type's brace stays on the line of its head, unless a comment ends that line. */
  private opensBody(chunk: Chunk, index: number): boolean {
    return index === chunk.body?.open && this.previous !== undefined && !isComment(this.previous);
  }

  /** The first token of a statement: on a line of its own, or behind a comment that stands before it on its line. */
  private open(token: Token, chunk: Chunk, indent: number): void {
    const above = this.above;
    if (above && this.lastLine === token.line && above.verbatim === undefined && above.tokens.every(isComment)) {
      this.lines[this.lines.length - 1] = { ...above, tokens: [...above.tokens, token], opens: chunk };
    } else {
      this.lines.push({ indent, tokens: [token], blankBefore: this.blankBefore(token), opens: chunk });
    }
  }

  private comment(token: Token, indent: number): void {
    if (this.skips(token)) return;
    if (this.above && this.lastLine === token.line) this.above.tokens.push(token);
    else this.lines.push({ indent, tokens: [token], blankBefore: this.blankBefore(token) });
    this.wrote(token);
  }

  private get above(): Line | undefined {
    return this.lines[this.lines.length - 1];
  }

  private wrote(token: Token): void {
    // A comment behind an opening bracket on its line does not end the opening.
    const behindOpening = isComment(token) && this.opened && token.line === this.lastLine;
    this.opened = behindOpening || isSign(token, '{') || isSign(token, '(');
    this.previous = token;
    this.lastLine = token.endLine;
  }

  private blankBefore(token: Token): boolean {
    return this.previous !== undefined && !this.opened && token.line > this.lastLine + 1;
  }

  /** Whether a token stands in a stretch that stays as it is; writes the stretch when it is first met. */
  private skips(token: Token): boolean {
    const stretch = this.kept[this.keptAt];
    if (stretch && token.line > stretch.to) {
      this.keptAt++;
      return this.skips(token);
    }
    if (!stretch || token.line < stretch.from) return false;
    if (this.lastLine < stretch.from) {
      const verbatim = this.sourceLines.slice(stretch.from, stretch.to + 1);
      this.lines.push({ indent: 0, tokens: [], blankBefore: this.blankBefore(token), verbatim });
      this.previous = token;
      this.opened = false;
      this.lastLine = stretch.to;
    }
    return true;
  }
}
