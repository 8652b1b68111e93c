/** What a rule may say of every position: where the switches make more combinations than are tried, only of those that were. */
import type { Statement } from '../../source.js';
import type { Facts } from './facts.js';

/** How many settings a statement about all of them rests on, where that is not all there are. */
export function triedIn(facts: Pick<Facts, 'settings' | 'triedAll'>): Pick<Statement, 'tried'> {
  return facts.triedAll() ? {} : { tried: facts.settings().length };
}

/** `in every position`, or `in each of the 300 positions that were tried`; `any` and `no` alike. */
export function everywhere(word: 'any' | 'every' | 'no', { tried }: Pick<Statement, 'tried'>): string {
  if (tried === undefined) return `in ${word} position`;
  const each = { any: 'any', every: 'each', no: 'none' }[word];
  return `in ${each} of the ${tried.toLocaleString('en')} positions that were tried`;
}
