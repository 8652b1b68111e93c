/** New `expect` lines merged into a text: what is stated already is not written again, and nothing that somebody wrote by hand is lost. */
import { counted } from './circuit/index.js';
import type { AnalysedCircuit, Claim, Expectation } from './circuit/model.js';
import { sameArrangement } from './electrics/index.js';
import { insertionOf, lineEndOf, linesOf } from './grammar/index.js';
import { usualDecibels, usualWithin } from './intent/index.js';
import { circuitWith, type Project } from './project.js';
import type { Edit, SourceRange } from './source.js';

/** What the lines were made from: the current behaviour, or a pattern of the trade. */
export type Means = 'now' | 'pattern';

/** A line of the text that was kept, although a new one says something different about the same setting. */
export interface Kept {
  readonly range: SourceRange;
  /** The new line that was left out. */
  readonly instead: string;
}

export interface Merged {
  /** All in the text itself, none overlapping. */
  readonly edits: readonly Edit[];
  readonly added: number;
  readonly replaced: number;
  /** How many of the new lines say nothing that is not stated already. */
  readonly stated: number;
  readonly kept: readonly Kept[];
}

/**
 * Merges lines into a text of a project. A line that says nothing new is left out. One that says something else of a setting than the text does takes the place of
 * what it says there, if that line was written by the same means and bears no comment; else the line of the text is kept and the new one left out. All
 * others go behind the last `expect`. Undefined where there is no such text.
 */
export function mergeExpectations(
  project: Pick<Project, 'text' | 'tree' | 'used'>,
  uri: string,
  lines: readonly string[],
  means: Means,
): Merged | undefined {
  const text = project.text(uri);
  const tree = project.tree(uri);
  if (text === undefined || tree === undefined) return undefined;
  const together = circuitWith(project, uri, new Map([[uri, [text, ...lines, ''].join(lineEndOf(text))]]));
  return together && merged({ text, tree }, together, lines, means);
}

/** `3 lines added, 1 replaced, 2 stated already, 1 of yours kept`. */
export function mergedText({ added, replaced, stated, kept }: Merged): string {
  return [
    `${counted(added, 'line')} added`,
    ...(replaced > 0 ? [`${replaced} replaced`] : []),
    ...(stated > 0 ? [`${stated} stated already`] : []),
    ...(kept.length > 0 ? [`${kept.length} of yours kept`] : []),
  ].join(', ');
}

/** `together` is the circuit of the text with the lines at its end. */
function merged(
  own: Parameters<typeof insertionOf>[0],
  together: AnalysedCircuit,
  lines: readonly string[],
  means: Means,
): Merged {
  const texts = linesOf(own.text);
  const { uri } = together;
  const isNew = ({ range }: Expectation): boolean => range.uri === uri && range.start.line >= texts.length;
  const old = together.expectations.filter((line) => !isNew(line));
  const read = new Map(together.expectations.filter(isNew).map((line) => [line.range.start.line - texts.length, line] as const));
  const edits: Edit[] = [];
  const added: string[] = [];
  const kept: Kept[] = [];
  let stated = 0;
  for (const [index, written] of lines.entries()) {
    const line = read.get(index);
    const like = line === undefined ? [] : old.filter((other) => isSameSetting(together, other, line));
    const [only, ...others] = like;
    if (line !== undefined && isStated(together, old, line)) stated++;
    else if (line === undefined || only === undefined) added.push(written);
    else if (others.length === 0 && only.range.uri === uri && isReplaceable(together, texts, only, line, means))
      edits.push({ range: claimsRange(only), text: written.slice(claimsRange(line).start.character) });
    else kept.push({ range: only.range, instead: written });
  }
  const replaced = edits.length;
  if (added.length > 0) {
    const { range, text } = insertionOf(own, added, ['expect']);
    edits.push({ range: { uri, ...range }, text });
  }
  return { edits, added: added.length, replaced, stated, kept };
}

/** Whether lines of the same output that hold in these settings claim all that this one does. */
function isStated(circuit: AnalysedCircuit, old: readonly Expectation[], line: Expectation): boolean {
  const claims = old.filter((other) => holdsFor(circuit, other, line)).flatMap((other) => other.claims);
  return line.claims.every((claim) => claims.some((known) => covers(circuit, known, claim)));
}

function isReplaceable(
  circuit: AnalysedCircuit,
  texts: readonly string[],
  old: Expectation,
  line: Expectation,
  means: Means,
): boolean {
  if (old.doc !== undefined || /\/[/*]/.test(textAt(texts, claimsRange(old)))) return false;
  if (means === 'pattern') return old.claims.length === 1 && old.claims[0]?.kind === 'sounds';
  if (!old.claims.every(isInForm)) return false;
  // Nothing is lost where the new line says all that the old one said, and more.
  return old.claims.some(isMarked) || old.claims.every((claim) => line.claims.some((other) => covers(circuit, other, claim)));
}

/** A claim in the form in which the current behaviour is written. */
function isInForm(claim: Claim): boolean {
  if (claim.kind === 'level') return claim.hz === undefined && claim.within === undefined;
  return !isFigure(claim) || claim.within === usualWithin;
}

/** A claim that hardly anybody writes by hand in just this form. */
function isMarked(claim: Claim): boolean {
  return claim.kind === 'reads-open' || claim.kind === 'reads-short' || (isFigure(claim) && claim.within === usualWithin);
}

function isFigure(claim: Claim): claim is Extract<Claim, { readonly kind: 'reads' | 'peak' | 'cutoff' }> {
  return claim.kind === 'reads' || claim.kind === 'peak' || claim.kind === 'cutoff';
}

/** True where what `known` allows contains what `claim` says: the same, or a figure within its limits. */
function covers(circuit: AnalysedCircuit, known: Claim, claim: Claim): boolean {
  switch (known.kind) {
    case 'sounds':
      return claim.kind === 'sounds' && sameArrangement(circuit, known.arrangement, claim.arrangement);
    case 'hum':
      return claim.kind === 'hum' && (claim.hum === known.hum || (known.hum === 'present' && claim.hum === 'partly'));
    case 'reads':
      return claim.kind === 'reads' && isNear(claim.ohm, known.ohm, known.within);
    case 'peak':
    case 'cutoff':
      return claim.kind === known.kind && isNear(claim.hz, known.hz, known.within);
    case 'level':
      return claim.kind === 'level' && claim.hz === known.hz && Math.abs(claim.db - known.db) <= (known.within ?? usualDecibels);
    default:
      return claim.kind === known.kind;
  }
}

function isNear(figure: number, known: number, share = usualWithin): boolean {
  return Math.abs(figure - known) <= share * known;
}

/** True for lines of the same output whose settings are the same; a switch or pot at its rest need not be named. */
function isSameSetting(circuit: AnalysedCircuit, a: Expectation, b: Expectation): boolean {
  return holdsFor(circuit, a, b) && holdsFor(circuit, b, a);
}

/** True where what a line claims is claimed in every setting of which `line` speaks: it names no switch more, and turns the same pots. */
function holdsFor(circuit: AnalysedCircuit, other: Expectation, line: Expectation): boolean {
  if (outputOf(circuit, other) !== outputOf(circuit, line)) return false;
  const [known, asked] = [controlsOf(circuit, other), controlsOf(circuit, line)];
  return known.free.every((control) => asked.free.includes(control)) && known.moved.join() === asked.moved.join();
}

function outputOf(circuit: AnalysedCircuit, { at }: Expectation): number | undefined {
  return at ?? circuit.output?.tip;
}

/** The switches that a line names, and what it moves off its rest: pots, buttons. A switch with one position says nothing. */
function controlsOf(
  { switches, shafts }: AnalysedCircuit,
  { settings }: Expectation,
): { readonly free: readonly string[]; readonly moved: readonly string[] } {
  const free: string[] = [];
  const moved: string[] = [];
  for (const control of settings) {
    if (control.kind === 'shaft') {
      if (shafts[control.shaft]?.rest !== control.rotation) moved.push(`shaft ${control.shaft} ${control.rotation}`);
      continue;
    }
    const device = switches[control.switch];
    const name = `switch ${control.switch} ${control.position}`;
    if (device?.rest !== undefined) {
      if (device.rest !== control.position) moved.push(name);
    } else if (device !== undefined && device.positions.length > 1) free.push(name);
  }
  return { free, moved: moved.sort() };
}

/** From the first claim to the end of the statement; settings and their columns stay. */
function claimsRange({ range, claims: [first] }: Expectation): SourceRange {
  return first === undefined ? range : { ...range, start: first.range.start };
}

function textAt(texts: readonly string[], { start, end }: SourceRange): string {
  if (start.line === end.line) return texts[start.line]?.slice(start.character, end.character) ?? '';
  return texts.slice(start.line, end.line + 1).join('\n');
}
