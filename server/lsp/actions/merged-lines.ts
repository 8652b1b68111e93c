/** New `expect` lines as edits of a document, merged with those that it has. */
import type { TextEdit } from 'vscode-languageserver';
import { mergeExpectations, type Means } from '../../../language/merge-expectations.js';
import type { Project } from '../../../language/project.js';
import { listed } from '../../../language/words.js';
import { mostLines } from '../panels/expectation-choices.js';
import { toRange } from '../to-protocol.js';

/** The edits, or a sentence that says why there are none. */
export function mergedLines(project: Project, uri: string, lines: readonly string[], means: Means): readonly TextEdit[] | string {
  if (lines.length > mostLines)
    return `This would write more than ${mostLines} lines. Write expectations for the positions that matter instead.`;
  const merged = mergeExpectations(project, uri, lines, means);
  if (merged === undefined) throw new Error(`${uri} was not read`);
  const { edits, kept } = merged;
  if (edits.length > 0) return edits.map(({ range, text }) => ({ range: toRange(range), newText: text }));
  const places = kept.map(({ range }) => String(range.start.line + 1));
  return kept.length === 0
    ? 'There is nothing to add: every position already has an expectation.'
    : `There is nothing to add: your own lines say something else and were kept (${kept.length === 1 ? 'line' : 'lines'} ${listed(places)}).`;
}
