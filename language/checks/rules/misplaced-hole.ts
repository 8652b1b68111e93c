/** A hole where none can be drilled. Judged by the workshop, which knows where things lie. */
import type { Figure } from '../../claim.js';
import type { Statement } from '../../source.js';
import { millimetres } from '../facts/amounts.js';
import { ruleInfo } from '../rule.js';

export type MisplacedHoleClaim = Statement &
  (
    | {
        readonly kind: 'outside' | 'over-edge';
        readonly subjects: { readonly part: string; readonly plate: string };
        readonly figures: {
          readonly x: Figure;
          readonly y: Figure;
          readonly width: Figure;
          readonly height: Figure;
          readonly hole?: Figure;
        };
      }
    | {
        readonly kind: 'overlap';
        readonly subjects: { readonly holes: readonly [string, string] };
        readonly figures: { readonly apart: Figure; readonly needed: Figure };
      }
  );

export const misplacedHole = ruleInfo<MisplacedHoleClaim>(
  'misplaced-hole',
  'warning',
  'a hole beyond the edge of its plate, or in another hole',
  (claim) => {
    if (claim.kind === 'overlap') {
      const { apart, needed } = claim.figures;
      const [a, b] = claim.subjects.holes;
      return `The holes of ${a} and ${b} overlap: their centres are ${millimetres(apart.value)} apart, and half the sum of their diameters is ${millimetres(needed.value)}`;
    }
    const { part, plate } = claim.subjects;
    const { x, y, width, height, hole } = claim.figures;
    const [at, size] = [
      `${millimetres(x.value)}, ${millimetres(y.value)}`,
      `${millimetres(width.value)} × ${millimetres(height.value)}`,
    ];
    return claim.kind === 'outside'
      ? `${part} at ${at} is not on ${plate}, which is ${size}`
      : `The hole of ${part}, ${millimetres(hole?.value ?? 0)} at ${at}, breaks the edge of ${plate}, which is ${size}`;
  },
);
