/** A declared length that cannot reach. Judged by the workshop, which knows the routes. */
import type { Figure } from '../../claim.js';
import type { Statement } from '../../source.js';
import { millimetres } from '../facts/amounts.js';
import { ruleInfo } from '../rule.js';

export interface ShortWireClaim extends Statement {
  readonly kind: 'wire' | 'lead';
  readonly subjects: { readonly ends: readonly [string, string] };
  readonly figures: {
    readonly length: Figure;
    /** The route with the stripped ends, without slack. */
    readonly least: Figure;
    /** What of it is assumed, where the measured stretches alone would not show that it is too short. */
    readonly assumed?: Figure;
  };
}

export const shortWire = ruleInfo<ShortWireClaim>(
  'short-wire',
  'warning',
  'a wire or lead that is too short for its route',
  ({ kind, subjects: { ends }, figures: { length, least, assumed } }) => {
    const begin = `The ${kind} from ${ends[0]} to ${ends[1]} is ${millimetres(length.value)} long`;
    return assumed === undefined
      ? `${begin}; its measured route alone needs ${millimetres(least.value)} with the stripped ends`
      : `${begin}; its route needs ${millimetres(least.value)} with the stripped ends, of which ${millimetres(assumed.value)} is assumed`;
  },
);
