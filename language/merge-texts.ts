/** Three-way merge of circuits, statement by statement: layout and comments stay, and no line of either side is lost. */
import { commonEnds, commonLines } from './common-lines.js';
import { lastOf, lineEndOf, scanStatements } from './grammar/index.js';

export interface Merged {
  readonly text: string;
  /** The number of conflicts, each between Git's markers. */
  readonly conflicts: number;
}

/** Whole lines of a text: a statement with its doc comment, or one line between statements. */
interface Unit {
  readonly text: string;
  /** The same while only spaces differ. */
  readonly key: string;
  /** Its first words, by which a changed statement is recognised; empty for a line that is no statement. */
  readonly name: string;
}

/** Base units `from` to `to` (without it), replaced by others. */
interface Hunk {
  readonly from: number;
  readonly to: number;
  readonly units: readonly Unit[];
}

/**
 * A statement that one side changed is taken from it; where only its spaces differ, so are they. What both sides changed differently goes in the
 * result between Git's marks. New `measured` lines of both sides are both kept, in an order that does not depend on which side is which.
 */
export function mergeTexts(base: string, ours: string, theirs: string): Merged {
  const [old, mine, other] = [unitsOf(base), unitsOf(ours), unitsOf(theirs)];
  const [us, them] = [differ(old, mine), differ(old, other)];
  const end = lineEndOf(ours === '' ? theirs : ours);
  const merged: string[] = [];
  let conflicts = 0;
  const put = (units: readonly Unit[]): void => void merged.push(...units.map(({ text }) => text));
  for (let at = 0, [i, j] = [0, 0]; ;) {
    const next = Math.min(us.hunks[i]?.from ?? Infinity, them.hunks[j]?.from ?? Infinity);
    for (; at < Math.min(next, old.length); at++) {
      const [unit, own, their] = [old[at], us.kept.get(at), them.kept.get(at)];
      const taken = own !== undefined && own.text !== unit?.text ? own : their;
      if (taken !== undefined) put([taken]);
    }
    if (next === Infinity) break;
    const { mine: ownHunks, other: theirHunks, to } = stretchAt(next, us.hunks, i, them.hunks, j);
    i += ownHunks.length;
    j += theirHunks.length;
    const [own, their] = [replaced(us, ownHunks, next, to), replaced(them, theirHunks, next, to)];
    at = to;
    if (theirHunks.length === 0 || sameUnits(own, their)) put(own);
    else if (ownHunks.length === 0) put(their);
    else conflicts += settle(own, their, next === to, { put, merged, end });
  }
  return { text: joined(merged, end), conflicts };
}

/** The hunks of both sides, from those at `i` and `j` on, that overlap in the stretch which begins at `from`, and where it ends. */
function stretchAt(
  from: number,
  ours: readonly Hunk[],
  i: number,
  theirs: readonly Hunk[],
  j: number,
): { readonly mine: readonly Hunk[]; readonly other: readonly Hunk[]; readonly to: number } {
  const [mine, other]: [Hunk[], Hunk[]] = [[], []];
  let to = from;
  const take = (hunk: Hunk, list: Hunk[]): void => {
    list.push(hunk);
    to = Math.max(to, hunk.to);
  };
  const [own, their] = [ours[i], theirs[j]];
  // What is inserted before a statement has nothing to do with what becomes of that statement.
  const isInsertion = [own, their].some((hunk) => hunk?.from === from && hunk.to === from);
  const begins = (hunk: Hunk | undefined): hunk is Hunk => hunk?.from === from && (!isInsertion || hunk.to === from);
  if (begins(own)) take(own, mine);
  if (begins(their)) take(their, other);
  for (;;) {
    const [nextOwn, nextTheir] = [ours[i + mine.length], theirs[j + other.length]];
    if (nextOwn !== undefined && nextOwn.from < to) take(nextOwn, mine);
    else if (nextTheir !== undefined && nextTheir.from < to) take(nextTheir, other);
    else return { mine, other, to };
  }
}

interface Output {
  readonly put: (units: readonly Unit[]) => void;
  readonly merged: string[];
  readonly end: string;
}

/** Puts two different versions of a stretch, both where that is right, and returns the number of conflicts. */
function settle(own: readonly Unit[], their: readonly Unit[], isNew: boolean, { put, merged, end }: Output): number {
  const { before, after } = commonEnds(separateKeys(own), separateKeys(their));
  const [left, right] = [own.slice(before, own.length - after), their.slice(before, their.length - after)];
  put(own.slice(0, before));
  const areReadings = isNew && [...left, ...right].every(({ name }) => name === '' || /^measured\b/.test(name));
  if (areReadings) {
    const [first, second] = [left, right].sort((a, b) => (keysOf(a) < keysOf(b) ? -1 : 1));
    put(first ?? []);
    put(second ?? []);
  } else {
    merged.push(`<<<<<<< ours${end}`);
    put(left);
    merged.push(`=======${end}`);
    put(right);
    merged.push(`>>>>>>> theirs${end}`);
  }
  put(own.slice(own.length - after));
  return areReadings ? 0 : 1;
}

/** A side's version of a stretch of the base. */
function replaced({ kept }: Difference, hunks: readonly Hunk[], from: number, to: number): readonly Unit[] {
  const units: Unit[] = [];
  let at = from;
  const keep = (end: number): void => {
    for (; at < end; at++) units.push(...(kept.has(at) ? [kept.get(at) as Unit] : []));
  };
  for (const hunk of hunks) {
    keep(hunk.from);
    units.push(...hunk.units);
    at = hunk.to;
  }
  keep(to);
  return units;
}

function unitsOf(text: string): readonly Unit[] {
  const { tokens, chunks } = scanStatements(text);
  const lines = text.match(/[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+$/g) ?? [];
  const units: Unit[] = [];
  let line = 0;
  const take = (to: number, key?: string, name = ''): void => {
    const own = lines.slice(line, to).join('');
    units.push({ text: own, key: key ?? own.trim(), name });
    line = to;
  };
  chunks.forEach((chunk, index) => {
    const [first, last] = [chunk.doc ?? chunk.first, lastOf(chunk)];
    const start = tokens[first]?.line ?? 0;
    const end = (tokens[last]?.endLine ?? start) + 1;
    // A line that two statements share stays whole.
    if (end <= line) return;
    while (line < start) take(line + 1);
    const following = chunks[index + 1];
    const isShared = following !== undefined && (tokens[following.doc ?? following.first]?.line ?? end) < end;
    const key =
      start < line || isShared
        ? undefined
        : tokens
            .slice(first, last + 1)
            .map(({ image }) => image)
            .join(' ');
    const words = tokens
      .slice(chunk.first, chunk.first + 2)
      .map(({ image }) => image)
      .join(' ');
    const comment = tokens[last + 1]?.line === end - 1 ? ` ${tokens[last + 1]?.image ?? ''}` : '';
    take(end, key === undefined ? undefined : key + comment, words);
  });
  while (line < lines.length) take(line + 1);
  return units;
}

interface Difference {
  readonly hunks: readonly Hunk[];
  /** The side's own unit for each one of the base that it still has. */
  readonly kept: ReadonlyMap<number, Unit>;
}

function differ(base: readonly Unit[], side: readonly Unit[]): Difference {
  const kept = new Map<number, Unit>();
  const hunks: Hunk[] = [];
  let [from, start] = [0, 0];
  const close = (to: number, end: number): void => {
    hunks.push(...refined(base, from, to, side.slice(start, end)));
  };
  for (const [at, index] of commonLines(separateKeys(base), separateKeys(side))) {
    close(at, index);
    kept.set(at, side[index] as Unit);
    [from, start] = [at + 1, index + 1];
  }
  close(base.length, side.length);
  return { hunks, kept };
}

/** Statements that have kept their first words are replaced one by one, and those that are gone go one by one. */
function refined(base: readonly Unit[], from: number, to: number, units: readonly Unit[]): readonly Hunk[] {
  const isSame = (at: number, index: number): boolean =>
    at < to && index < units.length && base[at]?.name !== '' && base[at]?.name === units[index]?.name;
  const hunks: Hunk[] = [];
  let [at, index] = [from, 0];
  for (; isSame(at, index); at++, index++) hunks.push({ from: at, to: at + 1, units: units.slice(index, index + 1) });
  const rest = units.slice(index);
  if (rest.length > 0) hunks.push({ from: at, to, units: rest });
  else for (; at < to; at++) hunks.push({ from: at, to: at + 1, units: [] });
  return hunks;
}

function sameUnits(a: readonly Unit[], b: readonly Unit[]): boolean {
  return a.length === b.length && a.every(({ key }, index) => key === b[index]?.key);
}

function separateKeys(units: readonly Unit[]): readonly string[] {
  return units.map(({ key }) => key);
}

function keysOf(units: readonly Unit[]): string {
  return units.map(({ key }) => key).join('\n');
}

/** A last line without an end gets one where something follows. */
function joined(texts: readonly string[], end: string): string {
  return texts.map((text, index) => (index < texts.length - 1 && !/[\r\n]$/.test(text) ? text + end : text)).join('');
}
