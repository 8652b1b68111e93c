/** What a code action is made from: a document, the selection in it, and what was found on its lines. */
import type { CodeAction, CodeActionKind, Range, TextEdit } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.js';
import type { Finding } from '../../../language/source.js';
import type { Located, Usual } from '../../../language/intent/index.js';
import type { Project } from '../../../language/project.js';
import type { Steps } from '../../../language/steps.js';
import type { Causes, Offer } from '../to-protocol.js';
import type { Snapshot } from '../workspace.js';

export interface ActionContext {
  readonly at: Snapshot;
  readonly range: Range;
  /** Those that touch the lines of the selection. */
  readonly findings: readonly Finding[];
  /** The fixes of these, and those of findings elsewhere that change the lines of the selection, without what follows from another. */
  readonly offers: readonly Offer[];
  readonly causes: Causes;
  /** What the readings tell, where the selection is at one. */
  readonly located?: Located;
  /** Whether the client has the command that copies lugs. */
  readonly copiesLugs: boolean;
  /** What is usual, where the selection is at the switch that chooses and nothing is expected yet. */
  readonly usual?: Usual;
}

export type MakeActions = (context: ActionContext) => CodeAction[];

/** An action whose edit has to be worked out: it is offered by what is cheap to know, and worked out when it is chosen. */
export interface Deferred {
  readonly title: string;
  readonly kind: CodeActionKind;
  /** What the edit is about, such as the switch whose positions are named. */
  readonly about: string;
}

/** What the edits of a deferred action are worked out with. */
export interface EditMeans {
  readonly analysis: Analysis;
  readonly project: Project;
}

/** A kind of deferred action. Offering one solves nothing. */
export interface DeferredAction {
  offer(context: ActionContext): readonly Deferred[];
  /** The edits of the document, none overlapping, or a sentence that says why there are none. */
  edit(at: Snapshot, about: string, by: EditMeans): Steps<readonly TextEdit[] | string>;
}
