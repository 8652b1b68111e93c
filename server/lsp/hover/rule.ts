/** Hover on the name of a rule: its summary, severity, and what its page says first. */
import { rules } from '../../../language/checks/index.js';
import { builtInText, rulePage } from '../texts/built-ins.js';
import { code, paragraphs, table } from './markdown.js';

export function ruleHover(name: string): string | undefined {
  const rule = rules.find(({ id }) => id === name);
  if (rule === undefined) return undefined;
  return paragraphs(
    table([
      [code(name), rule.severity],
      ['finds', rule.summary],
    ]),
    rulePageStart(name),
  );
}

/** The section of a rule's page that says what it finds. The pages are the project's own Markdown. */
export function rulePageStart(name: string): string | undefined {
  const page = rulePage(name);
  const text = page === undefined ? undefined : builtInText(page);
  return text === undefined ? undefined : /## What it finds\n+([^]*?)(?=\n+## |$)/.exec(text)?.[1];
}
