/** Numerics: union-find, elimination, error bounds and resistance networks. Knows numbers only, no circuit. */
export { createRows, factor, substitute, type Rows } from './block.js';
export { solveDense, type DenseResult } from './dense.js';
export type { Plan } from './elimination-plan.js';
export { createFronts, type Fronts } from './fronts.js';
export { magnitude } from './magnitude.js';
export { boundError, isSolved, tolerance } from './residual.js';
export { resistanceBetween, type Conductors, type Reading } from './resistance.js';
export { signalBlock } from './signal-block.js';
export { createForest, createSets, filled, join, number, rootOf, type Forest } from './union-find.js';
export { withoutEach, type Link } from './without-each.js';
