/** What a code action is made from: a document, the selection in it, and what was found on its lines. */
import type { CodeAction, Range } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.js';
import type { Finding } from '../../../language/source.js';
import type { Located } from '../../../language/intent/index.js';
import type { Snapshot } from '../workspace.js';

export interface ActionContext {
  readonly at: Snapshot;
  readonly range: Range;
  /** Those that touch the lines of the selection. */
  readonly findings: readonly Finding[];
  readonly analysis: Analysis;
  /** What the readings tell, where the selection is at one. */
  readonly located?: Located;
}

export type MakeActions = (context: ActionContext) => CodeAction[];
