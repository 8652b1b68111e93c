/** An `allow` that sets nothing aside. Its check runs last, in `../allows.ts`, since it needs what all others found. */
import { ruleInfo } from '../rule.js';

export const idleAllow = ruleInfo('idle-allow', 'warning', 'an `allow` that meets no finding');
