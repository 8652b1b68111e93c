/** A sheet for several instruments: a box and room for a reading for each. */
import type { Build } from '../build.js';

/** How many instruments of a batch have room on one sheet. */
const ROOM = 6;

/** Marks of the instruments that a sheet is for, where they are several: their numbers, or letters where the batch takes several sheets. */
export function instrumentsOn({ count }: Build, number?: number): readonly string[] {
  if (number !== undefined || count < 2) return [];
  return count > ROOM ? ['a', 'b', 'c', 'd', 'e', 'f'] : Array.from({ length: count }, (_, i) => String(i + 1));
}

/** The line under the title on which the instrument is written. */
export function instrumentField(build: Build): string {
  const marks = instrumentsOn(build);
  if (marks.length === 0) return 'Instrument';
  const [first = '', last = ''] = [marks[0], marks.at(-1)];
  return build.count > ROOM
    ? `Instruments ${first} to ${last} of ${build.count} are numbers`
    : `Instruments ${first} to ${last} are numbers`;
}

/** Columns to write in: one with this head, or one for each instrument. */
export function readBlanks(build: Build, head: string, number?: number): readonly string[] {
  const marks = instrumentsOn(build, number);
  return marks.length === 0 ? [head] : marks.map((mark) => `${head} ${mark}`);
}
