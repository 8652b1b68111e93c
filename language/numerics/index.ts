/** Numerics: union-find, elimination, error bounds and resistance networks. Knows numbers only, no circuit. */
export { createBackwardError, tolerance, type BackwardError, type BackwardErrors } from './backward-error.js';
export { solveDense, type DenseResult, type DenseRow } from './dense.js';
export { createPlan, type Plan } from './elimination-plan.js';
export { createEntries, type Admittance, type Entries, type Equations, type Probe } from './equations.js';
export { createFactors, type Changed, type Factors, type Scaled } from './factors.js';
export type { Changeable } from './front-nodes.js';
export { createFronts, type Front, type Fronts } from './fronts.js';
export { magnitude } from './magnitude.js';
export { resistanceBetween, type Conductors, type Reading } from './resistance.js';
export {
  addProducts,
  addScaled,
  addSquares,
  addValues,
  copyRows,
  createRows,
  fillRows,
  multiply,
  reciprocal,
  type Rows,
  squareAt,
} from './rows.js';
export { signalBlock } from './signal-block.js';
export { createSmallSystem, type SmallSystem } from './small-system.js';
export { currentThrough, rowOf, type Solution } from './solution.js';
export { createSparseSolver, type SparseSolver } from './sparse-solver.js';
export { createForest, createSets, filled, join, number, rootOf, type Forest } from './union-find.js';
export { withoutEach, type Link } from './without-each.js';
