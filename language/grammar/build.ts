/** One statement's tree made from Langium's node: whatever of it is whole enough to be used. */
import type * as ast from './generated/ast.js';
import { claims, settings } from './build-claims.js';
import { dotted, dottedNames, freeWord, present, properties, spot, word, words } from './build-words.js';
import type {
  BodyStatement,
  LocalRange,
  PlateStatement,
  PropertyNode,
  RowsStatement,
  Statement,
  TypeStatement,
  Word,
} from './tree.js';
import type { HeadWord } from './syntax/syntax.js';

type Without<T, K extends string> = T extends unknown ? Omit<T, K> : never;

/** A statement that does not yet know its place in the file; a type without its body. */
export type PlacelessStatement = Without<
  Exclude<Statement | BodyStatement, TypeStatement> | Omit<TypeStatement, 'body'>,
  'line' | 'doc'
>;

export interface BuildContext {
  readonly head: HeadWord;
  readonly range: LocalRange;
  readonly headRange: LocalRange;
  /** Place of the statement's first problem so far. */
  readonly broken?: LocalRange;
  problem(range: LocalRange, message: string): void;
}

/** Builds the tree of a statement; `undefined` where what makes it one (a part's name, a wire's two ends) is missing. */
export function buildStatement(node: ast.Statement, context: BuildContext): PlacelessStatement | undefined {
  const common: Common = {
    range: context.range,
    head: { kind: 'name', text: context.head, range: context.headRange },
  };
  const block = (...blocks: (ast.Block | undefined)[]) => properties(blocks, (range, message) => context.problem(range, message));
  switch (node.$type) {
    case 'Instrument':
      return { ...common, kind: 'instrument', properties: block(node.block), ...some({ title: word(node.title) }) };
    case 'Use':
      return node.path && { ...common, kind: 'use', path: word(node.path) };
    case 'Part':
      return part(node, common, block(...(node.blocks ?? [])));
    case 'Wire':
    case 'Solder':
      return connection(node, common);
    case 'Cavity':
    case 'Channel':
    case 'Plate':
    case 'Place':
      return placing(node, common, block);
    case 'Rig':
      return { ...common, kind: 'rig', properties: block(node.block) };
    case 'Build':
      return { ...common, kind: 'build', properties: block(node.block) };
    case 'Record':
    case 'Actual':
    case 'Allow':
      return onTheBench(node, common, block);
    case 'Expect':
    case 'Measured':
      return claimed(node, common, context.broken);
    case 'Type':
      return typeLine(node, common);
    default:
      return bodyStatement(node, common, context.head, block);
  }
}

interface Common {
  readonly range: LocalRange;
  readonly head: Word;
}

type Block = (...blocks: (ast.Block | undefined)[]) => PropertyNode[];

/** The properties that are there; an absent one is left out, not `undefined`. */
function some<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}

/** A word that is missing in the text, read as an empty one that is not known. */
function unwritten(behind: Word): Word {
  return { kind: 'unknown', text: '', range: { start: behind.range.end, end: behind.range.end } };
}

/** What joins lugs: it needs two of them. */
function connection(node: ast.Wire | ast.Solder, common: Common): PlacelessStatement | undefined {
  const ends = dottedNames(node.ends);
  if (ends.length < 2) return undefined;
  if (node.$type === 'Solder') return { ...common, kind: 'solder', ends };
  const options = present((node.options ?? []).map((option) => freeWord(option)));
  return { ...common, kind: 'wire', ends, options, numbers: words(node.numbers), screens: dottedNames(node.screens) };
}

/** The first line of a type; a missing name or base is an unknown word, so that the body is still read. */
function typeLine(node: ast.Type, common: Common): PlacelessStatement {
  const name = word(node.name) ?? unwritten(common.head);
  return { ...common, kind: 'type', name, base: word(node.base) ?? unwritten(name) };
}

/** Cavities, plates and what is in them. */
function placing(
  node: ast.Cavity | ast.Channel | ast.Plate | ast.Place,
  common: Common,
  block: Block,
): PlacelessStatement | undefined {
  switch (node.$type) {
    case 'Cavity': {
      const name = word(node.name);
      const shield = (node.shield ?? []).length > 0;
      return (
        name && {
          ...common,
          kind: 'cavity',
          name,
          shield,
          properties: block(node.block),
          ...some({ depth: freeWord(node.depth?.[0]) }),
        }
      );
    }
    case 'Channel': {
      const [from, to] = [word(node.start), word(node.end)];
      const measures = some({ length: freeWord(node.length), bore: freeWord(node.bore) });
      return from && to && { ...common, kind: 'channel', from, to, properties: block(node.block), ...measures };
    }
    case 'Plate':
      return plate(node, common);
    case 'Place': {
      const [parts, cavity] = [words(node.parts), word(node.cavity)];
      return cavity && parts.length > 0
        ? { ...common, kind: 'place', parts, cavity, ...some({ spot: spot(node.spot) }) }
        : undefined;
    }
  }
}

/** What is noted of one instrument in hand. */
function onTheBench(node: ast.Record | ast.Actual | ast.Allow, common: Common, block: Block): PlacelessStatement | undefined {
  switch (node.$type) {
    case 'Record': {
      const number = word(node.number);
      return number && { ...common, kind: 'record', number, properties: block(node.block) };
    }
    case 'Actual': {
      const name = word(node.name);
      const values = present((node.values ?? []).map((value) => freeWord(value)));
      return name && { ...common, kind: 'actual', name, values, properties: block(node.block) };
    }
    case 'Allow': {
      const rule = word(node.rule);
      return rule && { ...common, kind: 'allow', rule, ...some({ on: dotted(node.on), why: word(node.why) }) };
    }
  }
}

function part(node: ast.Part, common: Common, found: PropertyNode[]): PlacelessStatement | undefined {
  const names = words(node.names);
  const lastName = names[names.length - 1];
  if (lastName === undefined) return undefined;
  const values = present((node.values ?? []).map((value) => freeWord(value)));
  const [a, b] = [dotted(node.ends?.a), dotted(node.ends?.b)];
  const ends = node.ends && a && b ? { form: node.ends.form, a, b } : undefined;
  const type = word(node.type) ?? unwritten(lastName);
  return { ...common, kind: 'part', names, type, values, properties: found, ...some({ ends }) };
}

function plate(node: ast.Plate, common: Common): PlacelessStatement | undefined {
  const [name, cavity] = [word(node.name), word(node.cavity)];
  if (!name || !cavity) return undefined;
  const entries = (node.entries ?? []).flatMap((entry) => {
    const carried = word(entry.part);
    return carried ? [{ part: carried, ...some({ spot: spot(entry.spot) }) }] : [];
  });
  return {
    ...common,
    kind: 'plate',
    name,
    cavity,
    metal: (node.metal ?? []).length > 0,
    shield: (node.shield ?? []).length > 0,
    entries,
    ...some({ thick: freeWord(node.thick?.[0]), size: sizeOf(node.size?.[0]) }),
  };
}

function sizeOf(node: ast.Size | undefined): PlateStatement['size'] {
  const [width, height] = [freeWord(node?.width), freeWord(node?.height)];
  return width && height && { width, height };
}

function claimed(
  node: ast.Expect | ast.Measured,
  common: Common,
  broken: LocalRange | undefined,
): PlacelessStatement | undefined {
  const whole = claims(node.claims, broken);
  if (whole.length === 0) return undefined;
  const set = settings(node.settings);
  const output = some({ output: dotted(node.output) });
  if (node.$type === 'Expect') return { ...common, kind: 'expect', settings: set, claims: whole, ...output };
  const [from, to] = dottedNames(node.probes);
  return {
    ...common,
    kind: 'measured',
    settings: set,
    claims: whole,
    ...output,
    ...some({ between: from && to ? ([from, to] as const) : undefined }),
  };
}

function bodyStatement(node: ast.Statement, common: Common, head: HeadWord, block: Block): PlacelessStatement | undefined {
  switch (node.$type) {
    case 'Lugs':
      return lugs(words(node.names), common, head as 'lugs' | 'optional' | 'metal');
    case 'Rows':
      return { ...common, kind: 'rows', rows: rows(node.cells) };
    case 'Takes': {
      const parameters = (node.parameters ?? []).flatMap(({ name, choices }) => {
        const [known, words] = [word(name), present((choices ?? []).map((choice) => freeWord(choice)))];
        const [first] = words;
        if (!known) return [];
        if (words.length === 1 && first !== undefined && first.kind !== 'name' && first.kind !== 'string')
          return [{ name: known, value: first, choices: [] }];
        return [{ name: known, choices: words }];
      });
      return { ...common, kind: 'takes', parameters };
    }
    case 'Positions':
      return { ...common, kind: 'positions', names: words(node.names) };
    case 'At': {
      const position = word(node.position);
      const joins = (node.joins ?? []).map((contact) => words(contact.lugs));
      const [from, across, b] = [word(node.a), word(node.across), word(node.b)];
      const a = from ?? across;
      const drive = a && b && { a, b, eitherWay: across !== undefined };
      return position && { ...common, kind: 'at', position, joins, ...some({ where: word(node.where), drive }) };
    }
    case 'Rest': {
      const position = word(node.position);
      return position && { ...common, kind: 'rest', position };
    }
    case 'Element': {
      const [a, b] = [word(node.a), word(node.b)];
      const optional = some({ name: word(node.name), wiper: word(node.wiper) });
      return (
        a &&
        b && {
          ...common,
          kind: 'element',
          element: head as ast.Element['element'],
          a,
          b,
          properties: block(node.block),
          ...optional,
        }
      );
    }
    case 'Also': {
      const [alias, of] = [word(node.alias), word(node.of)];
      return alias && of && { ...common, kind: 'also', alias, of };
    }
    default:
      return undefined;
  }
}

function lugs(names: readonly Word[], common: Common, kind: 'lugs' | 'optional' | 'metal'): PlacelessStatement | undefined {
  const [first, to, last, more] = names;
  // `optional 1 to 99` is a range; a lug named `to` between two numbers is not thinkable.
  if (more === undefined && to?.text === 'to' && first?.kind === 'value' && last?.kind === 'value') {
    return { ...common, kind, names: [first], upTo: last };
  }
  return { ...common, kind, names };
}

function rows(cells: readonly ast.Cell[] | undefined): RowsStatement['rows'] {
  let row: (Word | null)[] = [];
  const found = [row];
  for (const cell of cells ?? []) {
    if (cell.$type === 'Mark' && cell.text === '/') found.push((row = []));
    else row.push(cell.$type === 'Mark' ? null : word(cell));
  }
  return found;
}
