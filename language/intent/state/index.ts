/** `expect` lines written for the user: from what a circuit does now, or from a pattern of the trade. */
export { isDead, linesOfNow, linesOfNowSteps, type NowOptions } from './now.js';
export { fitsPattern, linesOfPattern, linesOfPatternSteps, type PatternLines } from './patterns.js';
export { patterns, type Pattern } from '../../roles/index.js';
export { usualOf, usualSteps, usualText, type Usual, type UsualLine } from './usual.js';
