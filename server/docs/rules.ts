/** The table of rules, from the registry. */
import { rules } from '../../language/checks/index.js';

export function ruleTable(): string {
  const rows = [...rules]
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map(
      ({ id, severity, summary, page }) =>
        `| [\`${id}\`](${page.replace('language/', '')}) | ${severity} | ${summary.replaceAll('|', '\\|')} |`,
    );
  return ['| rule | severity | finds |', '| --- | --- | --- |', ...rows].join('\n');
}
