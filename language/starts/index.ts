/** starts/: small whole circuits to start from, each with its expectations. */
import { STARTS } from './generated/texts.js';

/** A circuit to start from. */
export interface StartingCircuit {
  /** `two-pickups-lever-3`. */
  readonly name: string;
  /** What it is, one sentence. */
  readonly summary: string;
  readonly text: string;
}

const first = 'one-pickup';

/** All of them; the first is the one that is meant where none is named. */
export const startingCircuits: readonly StartingCircuit[] = Object.entries(STARTS)
  .sort(([a], [b]) => Number(b === first) - Number(a === first))
  .map(([name, text]) => ({ name, text, summary: /^\/\*\* (.*?) \*\//.exec(text)?.[1] ?? name }));
