/** A taper as measured points: `"0 0%, 5 16%, 10 100%"`, a rotation and a share of the resistance each. */
import type { Word } from '../../grammar/index.js';
import type { TaperPoint } from '../model.js';
import type { Problems } from '../problems.js';
import { rangeOn, type Origin } from '../ranges.js';

/** The words of a taper that is a law; a parameter that takes them takes points as well. */
const LAWS: readonly string[] = ['linear', 'audio', 'reverse-audio'];

/** So many points say all that a meter tells. */
const MOST_POINTS = 101;

const EXAMPLE = '"0 0%, 5 15%, 10 100%"';

/** A point of the text, and where in it the point begins. */
interface Written {
  readonly text: string;
  readonly from: number;
}

interface WrittenPoint extends Written {
  readonly rotation: number;
  readonly percent: number;
}

/** What is wrong with a text of points; without a place the whole text is meant. */
interface Fault {
  readonly says: string;
  readonly at?: Written;
}

export function takesPoints(words: readonly string[]): boolean {
  return words.length > 1 && words.every((word) => LAWS.includes(word));
}

/** The points of a text in the form in which circuits keep it, rotations from 0 to 10; undefined after a fault, which is reported at its point. */
export function readTaper(word: Word, origin: Origin, problems: Problems): string | undefined {
  const found = pointsIn(word.text);
  if (!('says' in found)) return found.map(({ travel, share }) => `${tidy(10 * travel)} ${tidy(100 * share)}%`).join(', ');
  const { start } = word.range;
  const character = start.character + 1 + (found.at?.from ?? 0);
  const range =
    found.at === undefined
      ? word.range
      : { start: { ...start, character }, end: { ...start, character: character + found.at.text.length } };
  problems.add('value', rangeOn(origin, range), found.says);
  return undefined;
}

/** The points of a text that `readTaper` has made; undefined for the word of a law. */
export function taperPoints(text: string | undefined): readonly TaperPoint[] | undefined {
  if (text === undefined || LAWS.includes(text)) return undefined;
  const found = pointsIn(text);
  return 'says' in found ? undefined : found;
}

/**
 * Reads the points: rotations rise from 0 to full rotation, which is 10, or 100 where they are percentages; shares begin at 0 % and end at 100 %, and never
 * fall, since a wiper that moves on has more of the track behind it.
 */
function pointsIn(text: string): readonly TaperPoint[] | Fault {
  const points: WrittenPoint[] = [];
  const pieces = piecesOf(text);
  if (pieces.every((piece) => piece.text === ''))
    return { says: `taper has no points; write a rotation and the share of the resistance up to the wiper each: ${EXAMPLE}` };
  if (pieces.length > MOST_POINTS) return { says: `taper takes ${MOST_POINTS} points at most, not ${pieces.length}` };
  for (const piece of pieces) {
    const [, rotation, percent] = pointForm.exec(piece.text) ?? [];
    if (rotation === undefined || percent === undefined)
      return { says: `\`${piece.text}\` is no point of a taper, which is a rotation and a share such as 5 15%`, at: piece };
    points.push({ ...piece, rotation: Number(rotation), percent: Number(percent) });
  }
  const fault = faultOf(points);
  if (fault !== undefined) return fault;
  const whole = points.at(-1)?.rotation ?? 10;
  return points.map(({ rotation, percent }) => ({ travel: rotation / whole, share: percent / 100 }));
}

const pointForm = /^(-?(?:\d+\.?\d*|\.\d+)) ?%?\s+(-?(?:\d+\.?\d*|\.\d+)) ?%$/;

function piecesOf(text: string): readonly Written[] {
  let from = 0;
  return text.split(',').map((piece) => {
    const written = { text: piece.trim(), from: from + piece.length - piece.trimStart().length };
    from += piece.length + 1;
    return written;
  });
}

function faultOf(points: readonly WrittenPoint[]): Fault | undefined {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || first === last)
    return { says: `a taper has two points at least, from 0 0% to 10 100%, such as ${EXAMPLE}` };
  if (first.rotation !== 0 || first.percent !== 0)
    return { says: `a taper begins at 0 0%, where the wiper is at lug 1, not at ${first.text}`, at: first };
  for (const [index, point] of points.entries()) {
    const before = points[index - 1];
    if (point.percent > 100) return { says: `${point.text} is more than the whole resistance, 100%`, at: point };
    if (before === undefined) continue;
    if (point.rotation <= before.rotation)
      return { says: `the rotations of a taper rise: ${point.text} can’t follow ${before.text}`, at: point };
    if (point.percent < before.percent)
      return { says: `the shares of a taper never fall: ${point.text} can’t follow ${before.text}`, at: point };
  }
  if ((last.rotation !== 10 && last.rotation !== 100) || last.percent !== 100)
    return { says: `a taper ends at full rotation with the whole resistance, 10 100%, not at ${last.text}`, at: last };
  return undefined;
}

/** Six figures: more than any meter has. */
function tidy(value: number): string {
  return String(Number(value.toPrecision(6)));
}
