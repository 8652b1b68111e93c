/** An `expect` claim that cannot be judged yet. Judged by the stage of intent, after all other rules. */
import { ruleInfo } from '../rule.js';

export const openQuestion = ruleInfo(
  'open-question',
  'info',
  'an expectation that cannot be judged, because a value is not known yet',
);
