/** A body without room. Judged by the workshop, which knows where things lie. */
import type { Figure } from '../../claim.js';
import type { Statement } from '../../source.js';
import { millimetres } from '../facts/amounts.js';
import { ruleInfo } from '../rule.js';

export interface TightFitClaim extends Statement {
  readonly kind: 'too-long' | 'too-short' | 'too-deep' | 'wires-under';
  readonly subjects: { readonly part: string; readonly between?: readonly [string, string]; readonly cavity?: string };
  readonly figures: { readonly needed: Figure; readonly available: Figure; readonly wires?: Figure };
}

export const tightFit = ruleInfo<TightFitClaim>(
  'tight-fit',
  'warning',
  'a body that has no room where it is',
  ({ kind, subjects: { part, between = ['', ''], cavity = '' }, figures: { needed, available, wires } }) => {
    const [size, room] = [millimetres(needed.value), millimetres(available.value)];
    const apart = `${between[0]} and ${between[1]} are ${room} apart`;
    switch (kind) {
      case 'too-long':
        return `${part} is ${size} long, but ${apart}`;
      case 'too-short':
        return `${part} reaches ${size} with its leads, but ${apart}`;
      case 'too-deep':
        return `${part} is ${size} deep, but ${cavity} is only ${room} deep`;
      case 'wires-under': {
        const count = wires?.value ?? 0;
        return `${count === 1 ? '1 wire has' : `${count} wires have`} to pass under ${part}, up to ${size} thick; only ${room} is left`;
      }
    }
  },
);
