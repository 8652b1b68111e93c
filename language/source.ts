/** Places in a text, and what is said about them: the vocabulary every stage shares. */
import type { FindingClaim } from './claim.js';

export type { FindingClaim, Statement, Subjects } from './claim.js';

/** A place in a text, line and character from 0, as in the Language Server Protocol (UTF-16 code units). */
export interface Place {
  readonly line: number;
  readonly character: number;
}

/** A stretch of one file's text; `end` is just behind the last character. */
export interface SourceRange {
  readonly uri: string;
  readonly start: Place;
  readonly end: Place;
}

export type Severity = 'error' | 'warning' | 'info' | 'hint';

/** The gravest first. */
export const severityRanks: Readonly<Record<Severity, number>> = { error: 0, warning: 1, info: 2, hint: 3 };

/** One replacement in one file; an insertion has an empty range. */
export interface Edit {
  readonly range: SourceRange;
  readonly text: string;
}

/**
 * How much is known of a fix. `sure`: it writes the only known word that is one edit away, or as the language does what another notation writes otherwise, or is the only repair that a completed search found where every
 * position has an expectation of what sounds. `likely`: any other spelling, or the likeliest repair, if expectations confirm it and it leaves nothing open.
 * `possible`: all else.
 */
export type Confidence = 'sure' | 'likely' | 'possible';

/** A change that fixes a finding; its title is in the imperative ("move the white wire …"). */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly confidence: Confidence;
}

/** A second place that belongs to a finding, with what it has to do with it. */
export interface Related {
  readonly message: string;
  readonly range: SourceRange;
}

/** A problem that a check reports: what it claims, the same in a sentence, its place, and what would fix it (likeliest fix first). */
export interface Finding {
  /** The rule's name, also the word after `allow`. Problems of the text itself use `syntax`, `unknown-name`, `value` and the like. */
  readonly rule: string;
  readonly severity: Severity;
  /** What it says, as data: the finding is recognised by this (`identityOf`), never by its sentence. */
  readonly claim: FindingClaim;
  /** One sentence in trade words, made from the claim. A fault of the text is worded where it is found. */
  readonly message: string;
  /** Why it matters at the bench, and the remedy in words, where there is more to say than the message does. */
  readonly why?: string;
  readonly range: SourceRange;
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
  /** What `allow RULE on …` can name to set this finding aside: part names and lug labels (`volume`, `volume.3`). */
  readonly subjects: readonly string[];
}
