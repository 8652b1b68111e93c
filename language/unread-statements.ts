/** What follows from a statement that could not be read and for which no other word is offered: what it declares is unknown, and what it wires is missing. */
import { append } from './collections.js';
import { takesAway } from './checks/index.js';
import type { Circuit } from './circuit/index.js';
import { linesOf } from './grammar/index.js';
import type { Finding, SourceRange } from './source.js';

/** Rules that say that something is not soldered: it may be soldered in the statement that was not read. */
const lacking: ReadonlySet<string> = new Set(['loose-lead', 'no-output', 'open-pole', 'unwired-part']);

/** `known` and what follows beside it. `text` gives the text of a file. */
export function followsFromUnread(
  circuit: Circuit,
  found: readonly Finding[],
  text: (uri: string) => string | undefined,
  known: ReadonlyMap<Finding, Finding>,
): Map<Finding, Finding> {
  const follows = new Map(known);
  const takesFrom = takesAway(circuit);
  const unread = found.filter((finding) => finding.fixes.length === 0 && takesFrom(finding) && !known.has(finding));
  if (unread.length === 0) return follows;
  const lines = new Map<string, readonly string[]>();
  const lineOf = ({ uri, start }: SourceRange): string => {
    const all = lines.get(uri) ?? linesOf(text(uri) ?? '');
    lines.set(uri, all);
    return all[start.line] ?? '';
  };
  const causes = new Set(known.values());
  const open = found.filter((finding) => !follows.has(finding) && !causes.has(finding));
  const put = (cause: Finding, followers: readonly Finding[]): void => {
    for (const finding of followers) if (finding !== cause && !follows.has(finding)) follows.set(finding, cause);
  };
  const unknown = new Map<string, Finding[]>();
  for (const finding of open) {
    if (finding.rule === 'unknown-name') append(unknown, lineOf(finding.range).slice(...columnsOf(finding.range)), finding);
  }
  for (const cause of unread) for (const name of declaredIn(lineOf(cause.range))) put(cause, unknown.get(name) ?? []);
  const missing = new Map<string, Finding[]>();
  for (const finding of open) {
    if (lacking.has(finding.rule)) for (const subject of finding.subjects) append(missing, subject, finding);
  }
  const parts = new Set(circuit.parts.map(({ name }) => name));
  for (const finding of unread) {
    const cause = follows.get(finding) ?? finding;
    for (const [label, part = '', lug = ''] of lineOf(finding.range).matchAll(lugNames)) {
      if (parts.has(part)) put(cause, missing.get(label) ?? []);
      else {
        // A lug of a part that does not exist may be the only one of its name that lacks a wire.
        const alike = [...missing].filter(([subject]) => subject.endsWith(`.${lug}`));
        if (alike.length === 1)
          put(
            cause,
            alike.flatMap(([, lack]) => lack),
          );
      }
    }
  }
  return follows;
}

const lugNames = /([\p{L}][\p{L}\d_-]*)\.([\p{L}\d_-]+)/gu;

/** The names before the colon of a declaration, after its first word, whatever that is. */
function declaredIn(line: string): readonly string[] {
  const names = /^\s*\S+\s+([^:"]+?)\s*:/u.exec(line)?.[1] ?? '';
  return names.split(/\s*,\s*/u);
}

function columnsOf({ start, end }: SourceRange): [number, number] {
  return [start.character, end.character];
}
