/** Holds tokens against what a rule of the grammar takes: how far they fit, and what may come next. */
import { patterns } from './generated/table.js';
import { isWordPattern, wordOf, type Pattern } from './pattern.js';

/** As much of a token as decides where it fits. */
export interface Fitting {
  readonly kind: string;
  readonly image: string;
}

/** Something that a person fills in: the name of its place in the rule, and the rule or kind of token that reads it. */
export interface Slot {
  readonly slot: string;
  readonly of: string;
}

/** What may come behind some tokens. */
export interface Next {
  /** Words and signs of the language. */
  readonly words: readonly string[];
  /** What is filled in. */
  readonly slots: readonly Slot[];
  /** Whether nothing need follow. */
  readonly isWhole: boolean;
}

/** Words that end a row of free words, so that what they open is seen. */
export const closingWords: ReadonlySet<string> = new Set(['to', 'and', 'from', 'across', 'screen', 'no']);

/** What may come behind tokens that a pattern has begun with; nothing where they don't fit. */
export function nextIn(pattern: Pattern, tokens: readonly Fitting[]): Next {
  const walk = new Walk(tokens);
  const isWhole = walk.through(pattern, new Set([0])).has(tokens.length);
  return { words: [...walk.words], slots: [...walk.slots.values()], isWhole };
}

/** Whether tokens begin with the whole of a pattern. */
export function beginWith(pattern: Pattern, tokens: readonly Fitting[]): boolean {
  return new Walk(tokens).through(pattern, new Set([0])).size > 0;
}

/** Follows all ways through a pattern at once; a place is how many tokens have been taken. */
class Walk {
  /** Words of the language that a way was waiting for when the tokens ended. */
  readonly words = new Set<string>();
  /** What else they were waiting for, by name and rule. */
  readonly slots = new Map<string, Slot>();

  constructor(private readonly tokens: readonly Fitting[]) {}

  /** The places behind a pattern that begins at any of these; `within` is the slot that is still empty around it. */
  through(pattern: Pattern, from: ReadonlySet<number>, within?: Slot): Set<number> {
    if (from.size === 0) return new Set();
    if (isWordPattern(pattern)) return this.word(wordOf(pattern), from);
    if ('all' in pattern) return pattern.all.reduce((at, part) => this.through(part, at, within), new Set(from));
    if ('any' in pattern) return new Set(pattern.any.flatMap((alternative) => [...this.through(alternative, from, within)]));
    if ('of' in pattern) return this.slot(pattern, from, within);
    const behind = new Set(pattern.least === 0 ? from : []);
    for (let at = this.through(pattern.repeat, from, within); at.size > 0;) {
      const fresh = new Set([...at].filter((place) => !behind.has(place)));
      for (const place of fresh) behind.add(place);
      at = pattern.many ? this.through(pattern.repeat, fresh, within) : new Set();
    }
    return behind;
  }

  private word(word: string, from: ReadonlySet<number>): Set<number> {
    if (from.has(this.tokens.length)) this.words.add(word);
    return this.take(from, (token) => isWordAt(token, word));
  }

  private slot(slot: Slot, from: ReadonlySet<number>, within: Slot | undefined): Set<number> {
    const rule = Object.hasOwn(patterns, slot.of) ? patterns[slot.of] : undefined;
    // The outermost name says most: of `ends+=Dotted` it is that an end is missing, not that a name is.
    const named = within ?? (slot.slot === '' ? undefined : slot);
    if (rule !== undefined) {
      const end = new Set([...from].filter((place) => place === this.tokens.length));
      const others = new Set([...from].filter((place) => place !== this.tokens.length));
      return new Set([...this.through(rule, others), ...this.through(rule, end, named)]);
    }
    if (from.has(this.tokens.length) && named !== undefined) this.slots.set(`${named.slot} ${named.of}`, named);
    return this.take(from, (token) => isOfKind(token, slot.of));
  }

  private take(from: ReadonlySet<number>, fits: (token: Fitting) => boolean): Set<number> {
    const behind = [...from].filter((place) => {
      const token = this.tokens[place];
      return token !== undefined && fits(token);
    });
    return new Set(behind.map((place) => place + 1));
  }
}

/** Whether a token is this word or sign of the language. */
export function isWordAt({ kind, image }: Fitting, word: string): boolean {
  return (kind === 'word' || kind === 'sign') && image === word;
}

/** Whether a token is of a kind that the grammar has; `PLAIN` is any word here, one of the language too. */
export function isOfKind({ kind, image }: Fitting, terminal: string): boolean {
  switch (terminal) {
    case 'NAME':
    case 'PLAIN':
      return kind === 'word';
    case 'FREE':
      return kind === 'word' && !closingWords.has(image);
    case 'VALUE':
      return kind === 'value';
    case 'TEXT':
      return kind === 'text';
    default:
      return terminal === 'BLANK' && kind === 'blank';
  }
}
