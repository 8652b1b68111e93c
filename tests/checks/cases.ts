/** Reads cases from blocks of text.
 * A block is a title after `===`, a circuit, and after `--- finds` the findings that it must bring, all of them:
 * `severity rule on subject: part of the message`. A circuit that begins with `from NAME` is that of `correct/NAME.lug`, with
 * lines taken out (`- line`) and added (`+ line`).
 */
import { textsIn } from './harness.js';

export interface Case {
  readonly title: string;
  readonly circuit: string;
  readonly expected: readonly {
    readonly severity: string;
    readonly rule: string;
    readonly subject: string | undefined;
    readonly message: string;
  }[];
}

const bases = new Map(textsIn('correct', '.lug'));

export function readCases(text: string): readonly Case[] {
  return text
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const [title, ...rest] = block.split('\n');
      const [body, finds] = rest.join('\n').split(/^--- finds\n?/m);
      if (finds === undefined) throw new Error(`the case “${title!}” says not what it finds`);
      return { title: title!, circuit: circuitIn(body!), expected: finds.split('\n').filter(Boolean).map(readExpected) };
    });
}

function readExpected(text: string): Case['expected'][number] {
  const [, severity, rule, subject, message] = /^(\w+) ([a-z-]+)(?: on (.*?))?(?:: (.*))?$/.exec(text)!;
  return { severity: severity!, rule: rule!, subject, message: message ?? '' };
}

function circuitIn(body: string): string {
  const from = /^from (\S+)\n/.exec(body);
  if (from === null) return body;
  const base = bases.get(from[1]!);
  if (base === undefined) throw new Error(`there is no correct/${from[1]!}.lug`);
  let lines = base.split('\n');
  for (const change of body.split('\n').slice(1)) {
    const line = change.slice(2);
    if (change.startsWith('- ')) {
      const left = lines.filter((other) => squeezed(other) !== squeezed(line));
      if (left.length === lines.length) throw new Error(`correct/${from[1]!}.lug has no line “${line}”`);
      lines = left;
    } else if (change.startsWith('+ ')) lines.push(line);
  }
  return lines.join('\n');
}

function squeezed(line: string): string {
  return line.trim().replace(/ +/g, ' ');
}
