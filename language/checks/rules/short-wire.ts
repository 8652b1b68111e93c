/** A declared length that cannot reach. Judged by the bench, which knows the ways. */
import { ruleInfo } from '../rule.js';

export const shortWire = ruleInfo('short-wire', 'warning', 'a wire or lead that is too short for its way');
