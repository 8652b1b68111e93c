/** More in a drilled channel than passes. Judged by the bench, which knows the ways. */
import { ruleInfo } from '../rule.js';

export const fullChannel = ruleInfo('full-channel', 'warning', 'a drilled channel that is too full for its wires');
