/** An expectation that hangs on a value that is not known. Judged by the stage of intent. */
import { ruleInfo } from '../rule.js';
import { describeUnknown, type ExpectationClaim } from './expectation.js';

export type OpenQuestionClaim = ExpectationClaim;

export const openQuestion = ruleInfo<OpenQuestionClaim>(
  'open-question',
  'info',
  'an expectation that cannot be judged, because a value is not known yet',
  describeUnknown,
);
