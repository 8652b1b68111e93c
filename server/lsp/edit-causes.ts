/** What an edit of one statement brought, under its cause: known without a search, because the text before the edit had none of it. */
import { followsFromEdit, type Follows } from '../../language/causes.js';
import { lugById, type Circuit } from '../../language/circuit/index.js';
import { canBeRewired, findingKey } from '../../language/intent/index.js';
import type { Finding } from '../../language/source.js';
import { changedLines, moveFindings } from './texts/move-findings.js';
import type { Snapshot } from './workspace.js';

/** A text that was checked. */
interface Checked {
  readonly text: string;
  readonly found: readonly Finding[];
  /** Labels of the lugs that are joined on each line. */
  readonly lugs: ReadonlyMap<number, readonly string[]>;
  /** The cause of each finding that follows from another, by key; absent until that is known. */
  causes?: ReadonlyMap<string, string>;
}

/** A text with the circuit that it gives. */
type Read = Pick<Snapshot, 'uri' | 'text' | 'circuit'>;

export interface EditCauses {
  /**
   * Takes what was found in a text, and gives what follows from what where the text differs from one that was checked by a single line. Undefined where it is not known
   * so: the edit is larger, or something that was found before is gone, so that what is found now may have been there unseen.
   */
  take(snapshot: Read, found: readonly Finding[]): Follows | undefined;
  /** Takes what follows from what in a text that was taken, once that is known otherwise. */
  noteCauses(snapshot: Read, follows: Follows): void;
  forget(uri: string): void;
}

/** The text before the edits of the statement that is being edited, and the last one. */
interface Kept {
  before: Checked;
  last: Checked;
}

export function createEditCauses(): EditCauses {
  const kept = new Map<string, Kept>();
  return {
    take(snapshot, found) {
      const { uri, text, circuit } = snapshot;
      const own = kept.get(uri);
      if (own !== undefined && !isOneLine(own.before.text, text)) own.before = own.last;
      const follows = own === undefined || !canBeRewired(circuit) ? undefined : causesSince(own.before, snapshot, found);
      const last: Checked = {
        text,
        found,
        lugs: lugsByLine(circuit),
        ...(follows === undefined ? {} : { causes: keysOf(follows) }),
      };
      kept.set(uri, { before: own?.before ?? last, last });
      return follows;
    },
    noteCauses({ uri, text }, follows) {
      const own = kept.get(uri);
      const causes = keysOf(follows);
      for (const checked of own === undefined ? [] : [own.before, own.last]) if (checked.text === text) checked.causes = causes;
    },
    forget: (uri) => void kept.delete(uri),
  };
}

/** The keys of findings that follow from others, each with that of its cause. */
export function keysOf(follows: Follows): ReadonlyMap<string, string> {
  return new Map([...follows].map(([finding, cause]) => [findingKey(finding), findingKey(cause)]));
}

/** The findings of which these are the keys, as far as they are there. */
export function followsOf(found: readonly Finding[], causes: ReadonlyMap<string, string>): Follows {
  const byKey = new Map(found.map((finding) => [findingKey(finding), finding]));
  return new Map(
    found.flatMap((finding) => {
      const cause = byKey.get(causes.get(findingKey(finding)) ?? '');
      return cause === undefined ? [] : [[finding, cause] as const];
    }),
  );
}

function causesSince(before: Checked, { text, circuit }: Read, found: readonly Finding[]): Follows | undefined {
  if (!isOneLine(before.text, text)) return undefined;
  const { above } = changedLines(before.text, text);
  const lugs = new Set([...(before.lugs.get(above) ?? []), ...(lugsByLine(circuit).get(above) ?? [])]);
  const moved = moveFindings(before.found, before.text, text);
  const now = new Set(found.map(findingKey));
  const isThere = (finding: Finding | undefined): boolean => finding !== undefined && now.has(findingKey(finding));
  const faults = before.found.filter(isFault);
  if (!faults.every((fault) => isThere(moved.get(fault)))) return undefined;
  if (faults.length > 1 && before.causes === undefined) return undefined;
  const known = new Set([...moved.values()].map(findingKey));
  const keyThere = new Map([...moved].map(([finding, there]) => [findingKey(finding), findingKey(there)]));
  const carried = [...(before.causes ?? [])].flatMap(([finding, cause]) => {
    const [from, to] = [keyThere.get(finding), keyThere.get(cause)];
    return from === undefined || to === undefined ? [] : [[from, to] as const];
  });
  const fresh = found.filter((finding) => isFault(finding) && !known.has(findingKey(finding)));
  // What an edit of anything but the wiring brings may have several causes.
  if (fresh.length > 1 && lugs.size === 0) return undefined;
  return new Map([...followsOf(found, new Map(carried)), ...followsFromEdit(fresh, lugs)]);
}

function isFault({ severity }: Finding): boolean {
  return severity === 'error' || severity === 'warning';
}

/** True where at most one line was written anew, put in or taken out. */
function isOneLine(before: string, now: string): boolean {
  const { above, below, old, lines } = changedLines(before, now);
  const most = Math.max(old.length, lines.length) - above - below;
  return most <= 1;
}

function lugsByLine(circuit: Circuit): ReadonlyMap<number, readonly string[]> {
  const lines = new Map<number, string[]>();
  for (const { statementRange, a, b } of circuit.joints) {
    if (statementRange.uri !== circuit.uri) continue;
    const { line } = statementRange.start;
    const lugs = [a, b].map((lug) => lugById(circuit, lug).label);
    lines.set(line, [...(lines.get(line) ?? []), ...lugs]);
  }
  return lines;
}
