/** An `expect` claim that is not met. Judged by the stage of intent, after all other rules. */
import { ruleInfo } from '../rule.js';

export const expectation = ruleInfo('expectation', 'error', 'an expectation that is not met');
