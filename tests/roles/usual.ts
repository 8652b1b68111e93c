/** Reads circuits of the usual patterns, written by hand with other names, types and orders than those of `language/practice`.
 * A block is `=== PATTERN: PART`, a circuit, after `--- wrong` the line taken out (`-`) and put in (`+`) that make one wrong wire, and after
 * `--- departs` the lugs that then depart. `with NAMES` puts in the lines of blocks `=== shared NAME`.
 */
import { readFileSync } from 'node:fs';

export interface UsualCase {
  /** The file of `language/practice` that shows how the part is wired. */
  readonly pattern: string;
  readonly part: string;
  readonly right: string;
  readonly wrong: string;
  readonly departs: readonly string[];
}

export function readUsual(): readonly UsualCase[] {
  const blocks = readFileSync(new URL('usual.txt', import.meta.url), 'utf8')
    .split(/^=== /m)
    .slice(1)
    .map((block) => [block.slice(0, block.indexOf('\n')), block.slice(block.indexOf('\n') + 1)] as const);
  const shared = new Map(blocks.map(([title, text]) => [title.replace('shared ', ''), text]));
  return blocks
    .filter(([title]) => !title.startsWith('shared '))
    .map(([title, text]) => {
      const [pattern, part] = title.split(': ') as [string, string];
      const [body, change, departs] = text.split(/^--- (?:wrong|departs)\n/m) as [string, string, string];
      const right = body.replace(/^with (.*)\n/, (_, names: string) =>
        names
          .split(', ')
          .map((name) => shared.get(name)!)
          .join(''),
      );
      return { pattern, part, right, wrong: changed(right, change), departs: departs.trim().split(', ') };
    });
}

function changed(text: string, change: string): string {
  const lines = text.split('\n');
  for (const line of change.trim().split('\n')) {
    const [sign, what] = [line.slice(0, 2), line.slice(2)];
    if (sign === '+ ') lines.push(what);
    else if (!lines.includes(what)) throw new Error(`There is no line \`${what}\``);
    else lines.splice(lines.indexOf(what), 1);
  }
  return lines.join('\n');
}
