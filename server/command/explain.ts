/** `check --explain RULE`: what a rule finds, why it matters at the bench, an example and its repair. */
import { rules } from '../../language/checks/index.js';
import { PROBLEM_RULES } from '../../language/circuit/index.js';
import { nearest } from '../../language/nearest.js';
import { CannotRun, type Host } from './command.js';

/** The page of a rule, as Markdown; one of faults of the text has a sentence for a page. Throws `CannotRun` for what is no rule. */
export function explained(rule: string, host: Pick<Host, 'readPage'>): string {
  if (Object.hasOwn(PROBLEM_RULES, rule)) {
    return `# ${rule}\n\n${PROBLEM_RULES[rule as keyof typeof PROBLEM_RULES]}\n`;
  }
  const found = rules.find(({ id }) => id === rule);
  if (found !== undefined) return host.readPage(found.page);
  const near = nearest(rule, [...rules.map(({ id }) => id), ...Object.keys(PROBLEM_RULES)]);
  throw new CannotRun(`there is no rule ${rule}${near === undefined ? '' : `; did you mean ${near}?`}`);
}
