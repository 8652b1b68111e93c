/** Many circuits compared, as workflow commands that a hosted build shows beside the lines: at the circuit, and at the shared file that changed. */
import { fileURLToPath } from 'node:url';
import { annotationMessage, annotationProperty } from '../../../language/escape.js';
import { verdictOf } from '../../../language/compare/index.js';
import type { SourceRange } from '../../../language/source.js';
import type { CircuitChange, FolderChange } from './folder-change.js';
import { relativeTo } from '../reading/within.js';
import { effectsOf, fileLine, groupsOf, headline } from './summary.js';

/** Lines of one message; the comment and the log have all. */
const mostLines = 12;

export function pageGithub(page: FolderChange): string {
  const pathOf = (uri: string): string => relativeTo(page.root, fileURLToPath(uri));
  const circuits = groupsOf(page).flatMap((group) => {
    const [first, ...others] = group;
    const text = [
      [first.path, ...others.map(({ path }) => path)].join(', '),
      ...saidOf(first).slice(0, mostLines),
      ...(saidOf(first).length > mostLines ? [`and ${saidOf(first).length - mostLines} more`] : []),
    ].join('\n');
    return [...new Set([first.path, ...first.because])].map((path) =>
      annotation(levelOf(first), path, lineIn(first, path, pathOf), text, first),
    );
  });
  const files = page.files
    .filter(({ kind }) => kind !== 'renamed')
    .map((file) => `::notice title=wiring::${annotationMessage(fileLine(file))}\n`);
  return [`::notice title=wiring::${annotationMessage(headline(page))}\n`, ...circuits, ...files].join('');
}

function annotation(level: string, path: string, line: number, text: string, circuit: CircuitChange): string {
  const title = annotationProperty(circuit.change.unread.length > 0 ? circuit.change.summary : effectsOf([circuit]));
  return `::${level} file=${annotationProperty(path)},line=${line},title=${title}::${annotationMessage(text)}\n`;
}

function levelOf({ counts }: CircuitChange): 'error' | 'warning' | 'notice' {
  const { unread, silent, lost, broken, weakened, allow, found } = counts;
  if (unread + silent + lost + broken > 0) return 'error';
  return weakened + allow + found > 0 ? 'warning' : 'notice';
}

function saidOf({ change, counts }: CircuitChange): readonly string[] {
  const lines = [
    ...change.unread.map(({ says }) => says),
    ...change.expectations.filter(({ weakens, kind }) => weakens === true || kind === 'broken').map(({ says }) => says),
    ...change.allows.map(({ says }) => says),
    ...change.lost.map((name) => `${name} is not heard in any position now`),
    ...change.positions.map(({ says }) => says),
    ...change.controls.map(({ says }) => says),
  ];
  return lines.length === 0 ? [verdictOf(counts) || change.summary] : lines;
}

/** The first line of what changed in that file, counted from 1. */
function lineIn({ change, lines: shared }: CircuitChange, path: string, pathOf: (uri: string) => string): number {
  if (shared[path] !== undefined) return shared[path];
  const items: readonly { readonly after?: SourceRange }[] = [
    ...change.unread.map(({ range }) => ({ after: range })),
    ...change.wires,
    ...change.parts,
    ...change.allows,
    ...change.expectations,
    ...change.instrument,
  ];
  const lines = items.flatMap(({ after }) => (after !== undefined && pathOf(after.uri) === path ? [after.start.line + 1] : []));
  return lines.length === 0 ? 1 : Math.min(...lines);
}
