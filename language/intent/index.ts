/** Intent: whether what the `expect` lines ask for is so, what is so instead, and what would make it so. */
export { judgeExpectations, judgeExpectationSteps } from './judge/judge-expectations.js';
export { usualDecibels, usualWithin } from './judge/judgement.js';
export { evaluate, evaluateSteps, type ClaimResult, type Outcome } from './judge/evaluate.js';
export { judge, type Judgement, type Verdict } from './judge/judge.js';
export { decibelText, hertzText, limitText, ohmText } from '../checks/index.js';
export {
  canBeRewired,
  createRepairLookup,
  findingKey,
  repairs,
  repairSteps,
  usualWork,
  withRepairs,
  type Repair,
  type RepairStep,
  type SearchOptions,
} from './repair/index.js';
export { faultsOf } from './repair/weigh.js';
export {
  fitsPattern,
  isDead,
  linesOfNow,
  linesOfNowSteps,
  linesOfPattern,
  linesOfPatternSteps,
  patterns,
  usualOf,
  usualSteps,
  usualText,
  type NowOptions,
  type Pattern,
  type PatternLines,
  type Usual,
  type UsualLine,
} from './state/index.js';
export {
  locate,
  locatedJson,
  locatedText,
  locateSteps,
  usualLocatingWork,
  type Estimate,
  type Fault,
  type FaultKind,
  type Located,
  type NextReading,
  type Proof,
  type Reading,
  type Suspect,
} from './locate/index.js';
