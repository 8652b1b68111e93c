/** The rules: a new one is its file, its page and one line here. */
import type { Rule } from './rule.js';
export declare const registry: readonly Rule[];
