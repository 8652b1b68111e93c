/** A table of wires, pasted from a spreadsheet, as wire statements. */
import { oneLine } from '../escape.js';
import { formatText } from '../grammar/index.js';
import { partAndLug } from './columns.js';
import { createPartNames } from './names.js';
import { readWires, type WireEnd, type WireRow } from './rows.js';

export interface PastedWires {
  /** Wire statements in the one layout, with a line end behind the last; rows that could not be read are comments. */
  readonly text: string;
  readonly wires: number;
  /** Rows of which something could not be read. */
  readonly unread: number;
}

/**
 * The wire statements of a table with or without a header row; undefined for a text that is no such table. Parts need no types for this: the
 * document has them, or its findings say what is missing.
 */
export function wiresOfTable(table: string): PastedWires | undefined {
  const read = readWires(table);
  if ('problem' in read) return undefined;
  const ends = read.wires.flatMap((wire) => wire.ends ?? []);
  // Without a header only tabs make a table: `a.b, c.d` may be anything.
  const isTable = (read.hasHeader || read.separator === '\t') && ends.some(({ cell }) => partAndLug(cell.text) !== undefined);
  if (!isTable) return undefined;
  const names = createPartNames(ends.map(({ part }) => part));
  const endText = ({ part, lug }: WireEnd): string => names.nameOf(part) + (lug === undefined ? '' : `.${lug}`);
  const lines = read.wires.flatMap(({ row, ends: pair, looks, note, problems }: WireRow): string[] => {
    const comment = `// ${oneLine(row.source)}`;
    if (pair === undefined) return [comment];
    const [from, to] = pair;
    const wire = [`wire ${endText(from)} to ${endText(to)}`, ...looks, ...(note === undefined ? [] : [`// ${oneLine(note)}`])];
    return problems.length === 0 ? [wire.join(' ')] : [comment, wire.join(' ')];
  });
  return {
    text: formatText(`${lines.join('\n')}\n`),
    wires: read.wires.filter((wire) => wire.ends !== undefined).length,
    unread: read.wires.filter(({ problems }) => problems.length > 0).length,
  };
}
