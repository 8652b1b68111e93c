/** An `allow` that sets nothing aside. Its check runs last, in `../allows.ts`, since it needs what all others found. */
import type { RuleInfo } from '../rule.js';

export const idleAllow: RuleInfo = {
  id: 'idle-allow',
  severity: 'warning',
  summary: 'an `allow` that meets no finding',
  page: 'language/checks/rules/idle-allow.md',
};
