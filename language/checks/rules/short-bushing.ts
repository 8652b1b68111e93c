/** A bushing or a shaft that is too short for its plate. Judged by the bench, which knows where things lie. */
import { ruleInfo } from '../rule.js';

export const shortBushing = ruleInfo('short-bushing', 'warning', 'a bushing or a shaft that is too short for its plate');
