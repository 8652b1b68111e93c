/** A change laid over a drawing: which lines and parts are new, gone, moved or otherwise, by ids of the diagram. */
import { type Circuit, partById, type PartId } from '../../circuit/model.js';
import type { Diagram } from '../../drawing/index.js';
import type { Change, Kind } from '../change.js';
import { listed } from '../../words.js';
import { soundTable, type SoundTable } from './sound-rows.js';

/** Something that is drawn and marked, or a line that is no more, from lug to lug. */
export interface OverlayMark {
  readonly kind: Kind;
  /** Ids of wires or parts in the scene; none for what is gone. */
  readonly ids: readonly string[];
  /** Where the line lay before, ids of lugs; for what is gone and what is moved. */
  readonly was?: readonly [string, string];
  readonly says: string;
}

export interface Overlay {
  readonly marks: readonly OverlayMark[];
  /** The summary, in one line. */
  readonly says: string;
  /** What is said before all else: versions that were not read in full, then pickups that are lost. */
  readonly first: readonly string[];
  /** The positions that differ. */
  readonly sounds: SoundTable;
}

/** The marks of a change over the drawing of one of its two circuits: `after` shows what is new and, dashed, what is gone; `before` what goes. */
export function overlayOf(circuit: Circuit, diagram: Diagram, change: Change, side: 'before' | 'after' = 'after'): Overlay {
  const known = new Set(diagram.parts.map(({ id }) => id));
  const runsOf = (joint: number | undefined): readonly string[] =>
    joint === undefined ? [] : diagram.runs.filter((run) => run.joints.includes(joint)).map(({ id }) => id);
  const partIds = (part: PartId | undefined): readonly string[] =>
    part === undefined ? [] : [`part:${partById(circuit, part).name}`].filter((id) => known.has(id));
  const wires = change.wires.map(({ kind, ends, ids, says }): OverlayMark => {
    const was = side === 'after' && (kind === 'gone' || kind === 'moved') ? ends.before : undefined;
    return {
      kind,
      ids: runsOf(ids[side]),
      says,
      ...(was === undefined ? {} : { was: [`lug:${was[0]}`, `lug:${was[1]}`] as const }),
    };
  });
  const parts = change.parts.map(({ kind, part, says }): OverlayMark => ({ kind, ids: partIds(part?.[side]), says }));
  const lost = change.lost.length === 0 ? [] : [`not heard in any position now: ${listed(change.lost)}`];
  const first = [...change.unread.map((unread) => unread.says), ...lost];
  return { marks: [...parts, ...wires], says: change.summary, first, sounds: soundTable(change.positions) };
}
