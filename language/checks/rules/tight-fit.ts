/** A body without room. Judged by the bench, which knows where things lie. */
import { ruleInfo } from '../rule.js';

export const tightFit = ruleInfo('tight-fit', 'warning', 'a body that has no room where it stands');
