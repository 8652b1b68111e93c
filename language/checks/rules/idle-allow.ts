/** An `allow` that sets nothing aside. Its check runs last, in `../allows.ts`, since it needs what all others found. */
import type { Statement } from '../../source.js';
import { ruleInfo } from '../rule.js';

export interface IdleAllowClaim extends Statement {
  readonly kind: 'unknown-rule' | 'elsewhere' | 'nowhere';
  readonly subjects: {
    readonly allowed: string;
    readonly on?: string;
    /** The rule that may be meant. */
    readonly meant?: string;
    /** The first thing on which the rule is found. */
    readonly found?: string;
  };
}

export const idleAllow = ruleInfo<IdleAllowClaim>(
  'idle-allow',
  'warning',
  'an `allow` that sets no finding aside',
  ({ kind, subjects: { allowed, on, meant, found = '' } }) => {
    if (kind === 'unknown-rule')
      return `There is no finding called ${allowed}${meant === undefined ? '' : `; did you mean ${meant}?`}`;
    const nothing = 'This `allow` sets nothing aside';
    if (kind === 'elsewhere') return `${nothing}: ${allowed} is found on ${found}, not on ${on ?? 'this instrument'}`;
    return `${nothing}: ${allowed} is not found${on === undefined ? '' : ` on ${on}`}`;
  },
);
