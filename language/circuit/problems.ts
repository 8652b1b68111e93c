/** What can be wrong with a text besides its circuit: the rules of problems, and the list in which they are collected. */
import { nearest, oneEditAway, type Spelling } from '../nearest.js';
import type { Confidence, Finding, FindingClaim, Fix, Related, Severity, SourceRange } from '../source.js';

/** The rules that lowering reports, with what each is about. They are faults of the text, so `allow` doesn't set them aside. */
export const PROBLEM_RULES = {
  syntax: 'The text is not a statement of the language, or the statement is incomplete.',
  'unknown-name': 'A part, lug, type, coil, cavity or position is used but not declared.',
  'duplicate-name': 'Two things have the same name.',
  value: 'A value has no unit, the wrong unit, or is out of range.',
  property: 'A property or word does not belong to the type or wire.',
  setting: 'An expectation or reading sets something that can’t be set, or sets it to a position that does not exist.',
  use: 'A file can’t be used: it is missing, uses itself in a circle, or isn’t given as a relative path to a .lug file.',
  type: 'A type can’t be built: it contains itself, is nested too deep, or has a statement that does not fit.',
  form: 'A statement doesn’t fit what it names, such as `from … to …` on a part that does not have two leads.',
} as const;

/** The name of a rule of problems. */
export type ProblemRule = keyof typeof PROBLEM_RULES;

/** What a problem says besides its sentence and its place. */
export interface ProblemDetails {
  readonly severity?: Severity;
  readonly why?: string;
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
  readonly subjects?: readonly string[];
}

/** The words that may have been meant: a short list, or one in which many words are looked up. */
export type Candidates = Iterable<string> | Pick<Spelling, 'nearest' | 'oneEditAway'>;

/** A fault of the text before its claim is made. */
export type Problem = Omit<Finding, 'claim'>;

/** A claim that goes by the rule and the words in question, since each fault of the text is worded where it is found. Layout leaves no trace in it. */
export function textClaim(rule: string, words: string): FindingClaim {
  const text = words.replace(/\s+/gu, ' ').trim().slice(0, mostWords);
  return { rule, subjects: { text } };
}

/** So many characters tell one statement from another. */
const mostWords = 200;

/** Collects problems in the order in which they are met, each once. */
export class Problems {
  readonly findings: Problem[] = [];
  readonly #reported = new Set<string>();

  add(rule: ProblemRule, range: SourceRange, message: string, details: ProblemDetails = {}): void {
    // A fault inside a type would be reported once for each part of it.
    const { start, end } = range;
    const key = `${range.uri}:${start.line}:${start.character}:${end.line}:${end.character}:${message}`;
    if (this.#reported.has(key)) return;
    this.#reported.add(key);
    this.findings.push({
      rule,
      severity: details.severity ?? 'error',
      message,
      ...(details.why === undefined ? {} : { why: details.why }),
      range,
      related: details.related ?? [],
      fixes: details.fixes ?? [],
      subjects: details.subjects ?? [],
    });
  }

  /** The same for a word that might be one of several: the nearest is offered, in the sentence and as a fix. */
  addMeant(rule: ProblemRule, range: SourceRange, message: string, word: string, candidates: Candidates): void {
    const meant = 'nearest' in candidates ? candidates.nearest(word) : nearest(word, candidates);
    const only = 'nearest' in candidates ? candidates.oneEditAway(word) : oneEditAway(word, candidates);
    this.addOffer(rule, range, message, meant, only === meant);
  }

  /** The same for a word in whose place another is offered, if any; `isSure` where no other could be meant. */
  addOffer(rule: ProblemRule, range: SourceRange, message: string, meant: string | undefined, isSure = false): void {
    if (meant === undefined) this.add(rule, range, message);
    else {
      const fixes = [replaceWith(range, meant, { confidence: isSure ? 'sure' : 'likely' })];
      this.add(rule, range, `${message}; did you mean ${meant}?`, { fixes });
    }
  }
}

/** The fix that writes one word in place of another. */
export function replaceWith(
  range: SourceRange,
  text: string,
  { title = `write ${text}`, confidence = 'possible' }: { readonly title?: string; readonly confidence?: Confidence } = {},
): Fix {
  return { title, edits: [{ range, text }], confidence };
}
