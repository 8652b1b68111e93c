/** `lugwork format`: the one layout of a text. */
import { lineEndOf, linesOf } from '../lines.js';
import { writeLines } from './format-columns.js';
import { layOut, type Stretch } from './format-lines.js';
import { parseTextSteps } from '../parse.js';
import { lastOf, type Chunk, type Scan } from '../statements.js';
import { isComment } from '../tokens.js';
import { finished, type Steps } from '../../steps.js';
import type { SyntaxProblem, Tree } from '../tree.js';

/**
 * The text in its one layout: a statement a line as written, neighbours in columns, bodies and continued lines two deeper, at most
 * one blank line, no space at line ends, one line end at the end. Comments and texts keep every sign; statements that cannot be
 * read stay as they are. Formatting twice is formatting once, and the meaning never changes. Line ends follow the text's first one.
 */
export function formatText(text: string): string {
  return finished(formatTextSteps(text));
}

/** The same in steps of one statement that is read; `known` is the text's tree where it has been read before. */
export function* formatTextSteps(text: string, known?: Tree): Steps<string> {
  const mark = text.startsWith('\uFEFF') ? '\uFEFF' : '';
  const source = text.slice(mark.length);
  const tree = known?.scan?.text === source ? known : yield* parseTextSteps('', source);
  yield;
  if (tree.scan === undefined) return text;
  const formatted = layout(tree.scan, tree);
  // The last guard of the promise: where the new text would mean something else, the old one stands.
  const again = yield* parseTextSteps('', formatted);
  yield;
  if (meaning(again) !== meaning(tree)) return text;
  return mark + (lineEndOf(source) === '\n' ? formatted : formatted.replace(/\n/g, '\r\n'));
}

/** What a tree says, without where it says it. */
export function meaning(tree: Tree): string {
  const said = JSON.stringify(tree.statements, (key, value: unknown) => (key === 'range' || key === 'line' ? undefined : value));
  return `${said}\n${tree.problems.map((problem) => problem.message).join('\n')}`;
}

function layout(scan: Scan, tree: Tree): string {
  const lines = linesOf(scan.text);
  const kept = keptStretches(scan, tree.problems);
  const written = writeLines(layOut(scan, lines, kept)).join('\n');
  return written === '' ? '' : written + '\n';
}

/** The lines of statements that cannot be read, with whatever shares a line with them. */
function keptStretches(scan: Scan, problems: readonly SyntaxProblem[]): Stretch[] {
  const stretches: Stretch[] = [];
  const broken = new Set(problems.map((problem) => problem.range.start.line));
  const line = (index: number) => scan.tokens[index]?.line ?? 0;
  const endLine = (index: number) => scan.tokens[index]?.endLine ?? 0;
  const isBroken = (from: number, to: number) => {
    for (let at = from; at <= to; at++) if (broken.has(at)) return true;
    return false;
  };
  const visit = (chunk: Chunk) => {
    const { body, first } = chunk;
    if (!body) {
      if (isBroken(line(first), endLine(chunk.last))) stretches.push({ from: line(first), to: endLine(chunk.last) });
      return;
    }
    const inner = stretches.length;
    for (const statement of body.chunks) visit(statement);
    const header = body.open ?? chunk.last;
    const touchesOwnLines = stretches
      .slice(inner)
      .some(({ from, to }) => from <= endLine(header) || (body.close !== undefined && to >= line(body.close)));
    const whole =
      body.open === undefined || body.close === undefined || touchesOwnLines || isBroken(line(first), endLine(header));
    if (whole) stretches.splice(inner, stretches.length, { from: line(first), to: endLine(lastOf(chunk)) });
  };
  for (const chunk of scan.chunks) visit(chunk);
  return joined(stretches, scan);
}

/** Stretches widened over comments and statements that begin or end on their lines, those that meet made one. */
function joined(stretches: readonly Stretch[], scan: Scan): Stretch[] {
  const spans = [
    ...scan.tokens
      .filter((token) => isComment(token) && token.endLine > token.line)
      .map((token) => ({ from: token.line, to: token.endLine })),
    ...scan.chunks.map((chunk) => ({
      from: scan.tokens[chunk.first]?.line ?? 0,
      to: scan.tokens[lastOf(chunk)]?.endLine ?? 0,
      type: chunk.body,
    })),
  ].sort((a, b) => a.from - b.from);
  const result: Stretch[] = [];
  let done = 0;
  for (const stretch of stretches) {
    let { from, to } = stretch;
    // Both lists go down the text, so what ends above this stretch is done with.
    while ((spans[done]?.to ?? from) < from) done++;
    for (let i = done; i < spans.length; i++) {
      const span = spans[i];
      if (span === undefined || span.from > to) break;
      const inside = 'type' in span && span.type !== undefined && span.from < from && span.to > to;
      if (inside || span.to < from) continue;
      from = Math.min(from, span.from);
      to = Math.max(to, span.to);
    }
    const last = result[result.length - 1];
    if (last && from <= last.to) result[result.length - 1] = { from: Math.min(last.from, from), to: Math.max(last.to, to) };
    else result.push({ from, to });
  }
  return result;
}
