/** How coils are joined between two points, as found by reduction: before names, order and shares. */
import type { ElementId } from '../../circuit/model.js';

/** `sign` is +1 where the expression drives its far end positive (an EMF from start to finish counts as +1). */
export type Expression = { readonly sign: 1 | -1 } & (
  | { readonly kind: 'coil'; readonly coil: ElementId }
  | { readonly kind: 'series' | 'parallel'; readonly members: readonly Expression[] }
  | { readonly kind: 'stage'; readonly gain: number; readonly ohm: number; readonly input: Expression }
);

/** The same, seen from its other end. */
export function turned(expression: Expression): Expression {
  return { ...expression, sign: expression.sign === 1 ? -1 : 1 };
}

/** The coils in an expression. */
export function coilsIn(expression: Expression): readonly ElementId[] {
  if (expression.kind === 'coil') return [expression.coil];
  return expression.kind === 'stage' ? coilsIn(expression.input) : expression.members.flatMap(coilsIn);
}
