/** A table of wires as the text of a circuit: title, parts with their types, wires; what could not be read stays as a comment. */
import { standardTypeInfos, type TypeInfo } from '../circuit/index.js';
import { getOrCreate } from '../collections.js';
import { oneLine } from '../escape.js';
import { formatText } from '../grammar/index.js';
import { nearest } from '../nearest.js';
import { abridged, listed } from '../words.js';
import { guessType, hasOneLug, isSide, lugOf, type Guess, type LugsUsed } from './guess-type.js';
import { createPartNames, nameFrom, type PartNames } from './names.js';
import { readWires, type WireEnd, type WireRow } from './rows.js';
import type { TableProblem } from './separated.js';

export interface ImportWish {
  /** What the table is called in comments: the name of its file. */
  readonly name: string;
  readonly title: string;
  /** Standard types by the names of the parts, as the table or as the circuit has them. */
  readonly types?: ReadonlyMap<string, string>;
}

export interface ImportedCircuit {
  /** In the one layout, without syntax errors. */
  readonly text: string;
  /** What could not be read, in the order of the table; each such row is a comment in the text. */
  readonly problems: readonly TableProblem[];
  /** What the reader should know though nothing is wrong, each a sentence. */
  readonly remarks: readonly string[];
  /** How many parts have a type that was guessed. */
  readonly guessed: number;
  readonly wires: number;
}

/** The circuit of a table (columns `from`, `to` and optionally `colour`, `gauge`, `length`, `note`), or the problem for which there is none. */
export function circuitOfTable(table: string, wish: ImportWish): ImportedCircuit | { readonly problem: TableProblem | string } {
  const read = readWires(table);
  if ('problem' in read) return read;
  const ends = read.wires.flatMap((wire) => wire.ends ?? []);
  const names = createPartNames(ends.map(({ part }) => part));
  const parts = partsOf(ends, names, wish.types ?? new Map());
  if ('problem' in parts) return parts;
  const writer = createWireWriter(wish.name, names, parts);
  const wires = read.wires.flatMap(writer.lines);
  const guessed = [...parts.values()].filter(({ guess }) => guess !== undefined).length;
  const note = guessed === 0 ? '' : ' Types that are marked as guessed were chosen by lugs and names: check each.';
  const text = [
    `// Imported from ${commentOf(wish.name)}.${note}`,
    `instrument "${oneLine(wish.title).replace(/["\\]/g, '\\$&')}"`,
    '',
    ...[...parts].flatMap(([name, part]) => partLines(name, part, names)),
    '',
    ...wires,
  ];
  return {
    text: formatText(`${text.join('\n')}\n`),
    problems: [...read.problems, ...writer.problems].sort((a, b) => a.line - b.line || a.character - b.character),
    remarks: [...read.remarks, ...mergedNames(parts, names)],
    guessed,
    wires: read.wires.filter(({ ends: found }) => found !== undefined).length,
  };
}

interface ImportedPart {
  /** Absent where nothing speaks for any type. */
  readonly type?: TypeInfo;
  /** Absent where the type was given. */
  readonly guess?: Pick<Guess, 'others' | 'isWhole'>;
  readonly words: ReadonlySet<string>;
}

type Parts = ReadonlyMap<string, ImportedPart>;

function partsOf(
  ends: readonly WireEnd[],
  names: PartNames,
  wished: ReadonlyMap<string, string>,
): Parts | { readonly problem: string } {
  const used = new Map<string, { words: Set<string>; isAlone: boolean }>();
  for (const { part, lug } of ends) {
    const entry = getOrCreate(used, names.nameOf(part), () => ({ words: new Set<string>(), isAlone: false }));
    if (lug === undefined) entry.isAlone = true;
    else entry.words.add(lug);
  }
  const types = standardTypeInfos();
  const given = new Map<string, TypeInfo>();
  for (const [written, typeName] of wished) {
    const name = [...used.keys()].find((one) => one === written || names.writtenAs(one).includes(written)) ?? nameFrom(written);
    const type = types.find((one) => one.name === typeName);
    if (!used.has(name)) return { problem: `--types: ${unknown('the table has no part', written, [...used.keys()])}` };
    if (type === undefined)
      return {
        problem: `--types: ${unknown(
          'there is no standard type',
          typeName,
          types.map((one) => one.name),
        )}`,
      };
    given.set(name, type);
  }
  const partOf = (name: string, lugs: LugsUsed, pickups: number): ImportedPart => {
    const fixed = given.get(name);
    if (fixed !== undefined) return { type: fixed, words: lugs.words };
    const guess = guessType(types, name, lugs, pickups);
    return { words: lugs.words, ...(guess && { type: guess.type, guess }) };
  };
  const all = (pickups: number): Map<string, ImportedPart> =>
    new Map([...used].map(([name, lugs]) => [name, partOf(name, lugs, pickups)]));
  // How many pickups there are says which lever is likely; no other guess depends on it.
  return all([...all(0).values()].filter(({ type }) => type?.family === 'pickup').length);
}

function unknown(problem: string, word: string, known: readonly string[]): string {
  const near = nearest(word, known);
  return `${problem} “${oneLine(word)}”${near === undefined ? '' : `; did you mean ${near}?`}`;
}

function partLines(name: string, { type, guess }: ImportedPart, names: PartNames): string[] {
  const written = names.writtenAs(name);
  const doc = written.length === 0 ? [] : [`/** In the table: ${listed(written.map((one) => `“${docOf(one)}”`))}. */`];
  if (type === undefined) return [...doc, `// part ${name} : the type is not known; name it with --types "${name}=TYPE"`];
  return [...doc, `part ${name} : ${type.name}${guess === undefined ? '' : ` // guessed; ${besides(guess)}`}`];
}

/** What else the part might be. */
function besides({ others, isWhole }: Pick<Guess, 'others' | 'isWhole'>): string {
  if (!isWhole) return 'no type has all of its lugs';
  return others.length === 0 ? 'no other type has these lugs' : `${abridged(others, 'or')} would fit, too`;
}

/** Names that the table writes in several ways and that are one part in the circuit. */
function mergedNames(parts: Parts, names: PartNames): string[] {
  return [...parts.keys()].flatMap((name) => {
    const written = names.writtenAs(name);
    if (written.length < 2) return [];
    return [`${listed(written.map((one) => `“${oneLine(one)}”`))} are one part, ${name}`];
  });
}

interface WireWriter {
  /** The statement of a row, or the row as a comment; problems are kept. */
  lines(wire: WireRow): string[];
  readonly problems: TableProblem[];
}

function createWireWriter(table: string, names: PartNames, parts: Parts): WireWriter {
  const problems: TableProblem[] = [];
  const reported = new Set<string>();

  /** The end as the circuit writes it; undefined where the part has no such lug, which is reported. */
  const endText = (end: WireEnd): string | undefined => {
    const name = names.nameOf(end.part);
    const part = parts.get(name);
    const lug = part?.type === undefined ? undefined : lugText(part.type, end.lug);
    if (lug !== undefined) return name + lug;
    const message = lugProblem(name, end.lug, part);
    // A part whose type is not known is said once, at its first lug.
    if (part?.type !== undefined || !reported.has(name))
      problems.push({ line: end.cell.line, character: end.cell.character, message });
    reported.add(name);
    return undefined;
  };

  return {
    problems,
    lines({ row, ends, looks, note, problems: own }) {
      problems.push(...own);
      const comment = `// ${commentOf(table)}, line ${row.line + 1}: ${commentOf(row.source)}`;
      const [from, to] = ends?.map(endText) ?? [];
      if (from === undefined || to === undefined) return [comment];
      const wire = [`wire ${from} to ${to}`, ...looks, ...(note === undefined ? [] : [`// ${commentOf(note)}`])].join(' ');
      return own.length === 0 ? [wire] : [comment, wire];
    },
  };
}

/** `.lug`, or nothing for a part that is named alone; undefined where the type has no such lug. */
function lugText(type: TypeInfo, lug: string | undefined): string | undefined {
  if (lug === undefined) return hasOneLug(type) ? '' : undefined;
  const known = lugOf(type, lug);
  return known === undefined ? undefined : `.${known}`;
}

function lugProblem(name: string, lug: string | undefined, part: ImportedPart | undefined): string {
  const type = part?.type;
  if (part === undefined || type === undefined) {
    const lugs = listed([...(part?.words ?? [])].map((word) => `“${word}”`));
    const which = lugs === '' ? 'nothing says what it is' : `no type has ${lugs}`;
    return `the type of ${name} is not known: ${which}; name it with --types "${name}=TYPE"`;
  }
  const lugs = [...type.lugs, ...(type.numbered === undefined ? type.optional : [])];
  const taken = part.guess !== undefined ? `${name} is taken for a ${type.name}` : `${name} is a ${type.name}`;
  if (lug === undefined) return `no lug of ${name} is named; ${taken}, with the lugs ${abridged(lugs, 'and', 14)}`;
  if (isSide(type, lug))
    return `${lug} of ${name} depends on the side that is looked at; say 1 or 3 (shaft towards you, lugs down, 1 is left)`;
  const near = nearest(lug, lugs);
  const hint = near === undefined ? `; its lugs are ${abridged(lugs, 'and', 14)}` : `; did you mean ${near}?`;
  const way = part.guess !== undefined ? ` (--types "${name}=TYPE" gives it another type)` : '';
  return `${taken}, which has no lug “${lug}”${hint}${way}`;
}

/** Text of the table's as a part of a comment that ends with its line. */
function commentOf(text: string): string {
  return oneLine(text).replace(/\s+/g, ' ').trim();
}

/** The same inside a comment that ends with its own sign. */
function docOf(text: string): string {
  return commentOf(text).replaceAll('*/', '* /').replaceAll('/*', '/ *');
}
