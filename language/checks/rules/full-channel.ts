/** More in a drilled channel than fits through it. Judged by the workshop, which knows the routes. */
import type { Figure } from '../../claim.js';
import type { Statement } from '../../source.js';
import { millimetres } from '../facts/amounts.js';
import { ruleInfo } from '../rule.js';

export interface FullChannelClaim extends Statement {
  readonly kind: 'plug' | 'thickest' | 'filled';
  readonly subjects: { readonly from: string; readonly to: string };
  readonly figures: {
    readonly bore: Figure;
    readonly wires: Figure;
    /** The plug on a cable, or the two thickest wires side by side. */
    readonly width?: Figure;
    readonly filled?: Figure;
    readonly limit?: Figure;
  };
}

export const fullChannel = ruleInfo<FullChannelClaim>(
  'full-channel',
  'warning',
  'a drilled channel that is too full for its wires',
  ({ kind, subjects: { from, to }, figures: { bore, wires, width, filled, limit } }) => {
    const across = `a bore of ${millimetres(bore.value)}`;
    const fault =
      kind === 'plug'
        ? `the plug on the cable needs ${millimetres(width?.value ?? 0)} of ${across}`
        : kind === 'thickest'
          ? `the two thickest of its ${wires.value} wires are ${millimetres(width?.value ?? 0)} side by side in ${across}`
          : `${wires.value} wires fill ${filled?.value ?? 0} % of ${across}; the limit is ${limit?.value ?? 0} %`;
    return `Channel ${from} to ${to} is too full: ${fault}`;
  },
);
