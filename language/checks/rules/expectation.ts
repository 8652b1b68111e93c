/** An `expect` claim that is not met. Judged by the stage of intent, after all other rules. */
import type { Figure } from '../../claim.js';
import type { Statement } from '../../source.js';
import { decibelText, hertzText, limitText, ohmText } from '../facts/amounts.js';
import { describeSettings } from '../facts/words.js';
import { abridged, capitalised } from '../../words.js';
import { ruleInfo } from '../rule.js';

/** What a line of the text claims. */
export interface Expected extends Statement {
  readonly kind: 'sounds' | 'silent' | 'hum' | 'hums' | 'reads' | 'reads-open' | 'reads-short' | 'peak' | 'cutoff' | 'level';
  readonly subjects: {
    /** An arrangement of pickups as the language writes it: `parallel(bridge, neck)`. */
    readonly sounds?: string;
    readonly hum?: string;
    /** The frequency of a level, as written. A line for each frequency is a separate claim. */
    readonly at?: string;
  };
  /** `within`: a share in percent, or decibels. */
  readonly figures?: { readonly value: Figure; readonly within?: Figure };
}

/** What the circuit does instead. */
export interface Found extends Statement {
  readonly kind:
    | 'silent'
    | 'shorted'
    | 'heard'
    | 'heard-alone'
    | 'hum'
    | 'no-hum'
    | 'open'
    | 'short'
    | 'reading'
    | 'unsolved'
    | 'no-peak'
    | 'cancels'
    | 'peak'
    | 'no-cutoff'
    | 'cutoff'
    | 'level'
    | 'unknown-value'
    | 'not-metered';
  readonly subjects?: {
    readonly sounds?: string;
    readonly missing?: readonly string[];
    readonly extra?: readonly string[];
    readonly hum?: string;
    readonly at?: string;
    /** Parts with a value that is not known. */
    readonly parts?: readonly string[];
    /** A remark of the meter or the solver. */
    readonly note?: string;
  };
  readonly figures?: { readonly value: Figure; readonly low?: Figure; readonly high?: Figure };
}

export interface ExpectationClaim extends Expected {
  /** One for each different answer, with its settings. */
  readonly observed: readonly Found[];
}

/** At most this many different answers are listed. */
const most = 3;

export const expectation = ruleInfo<ExpectationClaim>('expectation', 'error', 'an expectation that is not met', (claim) => {
  const { observed } = claim;
  const expected = `Expected ${describeExpected(claim)}`;
  const [only, ...others] = observed;
  if (only !== undefined && others.length === 0)
    return `${expected}${spaced(describeSettings(claim))}, but ${describeAnswer(only)}`;
  const answers = observed.slice(0, most).map((found) => {
    const where = describeSettings(found);
    return where === '' ? describeAnswer(found) : `${where}, ${describeAnswer(found)}`;
  });
  return `${expected}, but ${answers.join('; ')}${observed.length > most ? `; and ${observed.length - most} more` : ''}`;
});

/** `6.62k within 5%`, `silence`, `parallel(bridge, neck)`. */
export function describeExpected({ kind, subjects: { sounds = '', hum = '', at }, figures }: Expected): string {
  const value = figures?.value.value ?? 0;
  const within = figures?.within?.value;
  const share = within === undefined ? '' : ` within ${within}%`;
  switch (kind) {
    case 'sounds':
      return sounds;
    case 'silent':
      return 'silence';
    case 'hum':
      return `hum ${hum}`;
    case 'hums':
      return 'hum';
    case 'reads':
      return `${ohmText(value)}${share}`;
    case 'reads-open':
      return 'an open reading';
    case 'reads-short':
      return 'a short';
    case 'peak':
      return `a peak at ${hertzText(value)}${share}`;
    case 'cutoff':
      return `3 dB down at ${hertzText(value)}${share}`;
    case 'level':
      return `a level of ${decibelText(value, 2)}${describeFrequency(at)}${within === undefined ? '' : ` within ${decibelText(within, 2)}`}`;
  }
}

/** The same with what it comes from, where that is known: `only bridge is heard: neck does not reach the output`. */
function describeAnswer(found: Found): string {
  const { missing = [], extra = [], note } = found.subjects ?? {};
  const causes = [
    ...(missing.length > 0 ? [`${abridged(missing)} ${missing.length > 1 ? 'do' : 'does'} not reach the output`] : []),
    ...(extra.length > 0 ? [`${abridged(extra)} ${extra.length > 1 ? 'are' : 'is'} heard too`] : []),
    ...(note === undefined || found.kind === 'unsolved' || found.kind === 'not-metered' ? [] : [note]),
  ];
  return `${describeFound(found)}${causes.length > 0 ? `: ${causes.join(', and ')}` : ''}`;
}

/** What was found, as the second half of a sentence: `only bridge is heard`, `the meter reads 6.32k`. */
export function describeFound({ kind, subjects = {}, figures }: Found): string {
  return sentences[kind](subjects, figures?.value.value ?? 0, figures);
}

type Sentence = (subjects: NonNullable<Found['subjects']>, size: number, figures: Found['figures']) => string;

const sentences: Readonly<Record<Found['kind'], Sentence>> = {
  silent: () => 'nothing is heard',
  shorted: () => 'nothing is heard: tip and sleeve are one net',
  heard: ({ sounds = '' }) => `${sounds} is heard`,
  'heard-alone': ({ sounds = '' }) => `only ${sounds} is heard`,
  hum: ({ hum = '' }) => `hum is ${hum}`,
  'no-hum': () => 'there is no hum',
  open: () => 'the meter reads open',
  short: (_, size) => `the meter reads ${ohmText(size)}, a short`,
  reading: (_, size, figures) => `the meter reads ${ohmText(size)}${describeSpread(figures)}`,
  unsolved: ({ note = '' }) => note,
  'no-peak': () => 'the response has no peak',
  cancels: () => 'the coils cancel each other, so there is no figure to compare',
  peak: (_, size) => `the peak is at ${hertzText(size)}`,
  'no-cutoff': () => 'the level is nowhere 3 dB down below 20kHz',
  cutoff: (_, size) => `it is 3 dB down at ${hertzText(size)}`,
  level: ({ at }, size) => `the level${describeFrequency(at)} is ${decibelText(size)}`,
  'unknown-value': ({ parts = [] }) => describeUnknownValues(parts),
  'not-metered': ({ note = '' }) => note,
};

function describeSpread(figures: Found['figures']): string {
  const { low, high } = figures ?? {};
  return low && high ? ` (${limitText(low.value)} to ${limitText(high.value)})` : '';
}

function describeFrequency(at: string | undefined): string {
  return at === undefined ? '' : ` at ${at}`;
}

function describeUnknownValues(parts: readonly string[]): string {
  if (parts.length === 0) return 'a value in its path is not known yet';
  const [values, are] = parts.length > 1 ? ['values', 'are'] : ['value', 'is'];
  return `the ${values} of ${abridged(parts)} ${are} not known yet`;
}

/** `Silence cannot be judged at selector 2: the value of neck is not known yet`. */
export function describeUnknown(claim: ExpectationClaim): string {
  const [first] = claim.observed;
  return `${capitalisedWord(describeExpected(claim))} can’t be judged${spaced(describeSettings(claim))}${first === undefined ? '' : `: ${describeAnswer(first)}`}`;
}

/** A sentence doesn't begin with a capital where its first word is a name or a figure. */
function capitalisedWord(text: string): string {
  return /^(silence|an? |hum)/.test(text) ? capitalised(text) : text;
}

function spaced(words: string): string {
  return words && ` ${words}`;
}
