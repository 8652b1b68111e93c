/** Codecs: one description of a piece of data that gives its JSON Schema, its writer and its reader, so that the three cannot part. */
import type { Place, SourceRange } from '../../source.js';

export type JsonSchema = Readonly<Record<string, unknown>>;

/** What names stand for what: lugs, parts, elements, switches and shafts go by name in the JSON and by number in the circuit. */
export interface Names {
  readonly lug: readonly string[];
  readonly part: readonly string[];
  readonly element: readonly string[];
  readonly switch: readonly string[];
  readonly shaft: readonly string[];
  /** Addresses of files; places name them by their number here. */
  readonly files: readonly string[];
}

export interface Codec {
  readonly schema: JsonSchema;
  write(value: unknown, names: Names): unknown;
  /** Throws `Unreadable`. */
  read(json: unknown, names: Names, at: string): unknown;
}

/** What is wrong with a JSON form, and where. */
export class Unreadable extends Error {}

function refuse(at: string, wanted: string): never {
  throw new Unreadable(`${at === '' ? 'the whole' : at} is not ${wanted}`);
}

function plain(schema: JsonSchema, isSuch: (json: unknown) => boolean, wanted: string): Codec {
  return { schema, write: (value) => value, read: (json, _, at) => (isSuch(json) ? json : refuse(at, wanted)) };
}

export const text = plain({ type: 'string' }, (json) => typeof json === 'string', 'a text');
export const truth = plain({ type: 'boolean' }, (json) => typeof json === 'boolean', 'true or false');
export const figure = plain({ type: 'number' }, (json) => typeof json === 'number', 'a number');
export const count = plain(
  { type: 'integer', minimum: 0 },
  (json) => Number.isInteger(json) && (json as number) >= 0,
  'a whole number',
);

export function words(...choices: readonly (string | number)[]): Codec {
  return plain({ enum: choices }, (json) => choices.includes(json as string), `one of ${choices.join(', ')}`);
}

export function list(item: Codec): Codec {
  return {
    schema: { type: 'array', items: item.schema },
    write: (value, names) => (value as readonly unknown[]).map((one) => item.write(one, names)),
    read: (json, names, at) =>
      Array.isArray(json) ? json.map((one: unknown, index) => item.read(one, names, `${at}[${index}]`)) : refuse(at, 'a list'),
  };
}

/** A value or null. */
export function orNull(item: Codec): Codec {
  return {
    schema: { anyOf: [item.schema, { type: 'null' }] },
    write: (value, names) => (value === null ? null : item.write(value, names)),
    read: (json, names, at) => (json === null ? null : item.read(json, names, at)),
  };
}

/** Any names with values of one kind. */
export function dictionary(item: Codec): Codec {
  return {
    schema: { type: 'object', additionalProperties: item.schema },
    write: (value, names) =>
      Object.fromEntries(Object.entries(value as object).map(([key, one]) => [key, item.write(one, names)])),
    read: (json, names, at) =>
      Object.fromEntries(Object.entries(objectOf(json, at)).map(([key, one]) => [key, item.read(one, names, `${at}.${key}`)])),
  };
}

/** Named fields; those whose name ends with `?` may be missing. */
export function struct(fields: Readonly<Record<string, Codec>>, says?: string): Codec {
  const known = Object.entries(fields).map(([name, codec]) => ({
    name: name.replace('?', ''),
    isOptional: name.endsWith('?'),
    codec,
  }));
  return {
    schema: {
      type: 'object',
      ...(says === undefined ? {} : { description: says }),
      properties: Object.fromEntries(known.map(({ name, codec }) => [name, codec.schema])),
      required: known.filter(({ isOptional }) => !isOptional).map(({ name }) => name),
      additionalProperties: false,
    },
    write: (value, names) =>
      Object.fromEntries(
        known.flatMap(({ name, codec }) => {
          const one = (value as Readonly<Record<string, unknown>>)[name];
          return one === undefined ? [] : [[name, codec.write(one, names)]];
        }),
      ),
    read(json, names, at) {
      const data = objectOf(json, at);
      const other = Object.keys(data).find((key) => !known.some(({ name }) => name === key));
      if (other !== undefined) refuse(`${at}.${other}`, 'a known field');
      return Object.fromEntries(
        known.flatMap(({ name, isOptional, codec }) => {
          if (!Object.hasOwn(data, name)) return isOptional ? [] : refuse(`${at}.${name}`, 'there');
          return [[name, codec.read(data[name], names, `${at}.${name}`)]];
        }),
      );
    },
  };
}

/** One of several structs, distinguished by the word in a field. */
export function variant(field: string, structs: Readonly<Record<string, Codec>>): Codec {
  const byKind = new Map<unknown, Codec>(Object.entries(structs));
  const of = (kind: unknown, at: string): Codec =>
    byKind.get(kind) ?? refuse(`${at}.${field}`, `one of ${[...byKind.keys()].join(', ')}`);
  return {
    schema: { oneOf: [...new Set(Object.values(structs))].map(({ schema }) => schema) },
    write: (value, names) => of((value as Readonly<Record<string, unknown>>)[field], '').write(value, names),
    read: (json, names, at) => of(objectOf(json, at)[field], at).read(json, names, at),
  };
}

/** A codec that holds itself; the schema refers to a definition of that name. */
export function recursive(name: string, make: () => Codec): Codec {
  return {
    schema: { $ref: `#/definitions/${name}` },
    write: (value, names) => make().write(value, names),
    read: (json, names, at) => make().read(json, names, at),
  };
}

/** A lug, part … by its name. */
export function named(kind: Exclude<keyof Names, 'files'>): Codec {
  return {
    schema: { type: 'string', description: `the name of a ${kind}` },
    write: (value, names) => names[kind][value as number],
    read(json, names, at) {
      const id = names[kind].indexOf(json as string);
      return id >= 0 ? id : refuse(at, `the name of a ${kind}`);
    },
  };
}

/** `3:5-3:12`: line and character of both ends, counted from 1; ` in 2` behind it names another of the files. */
export const place: Codec = {
  schema: {
    type: 'string',
    pattern: '^\\d+:\\d+-\\d+:\\d+( in \\d+)?$',
    description: 'a place in the text: lines and characters from 1',
  },
  write(value, { files }) {
    const { uri, start, end } = value as SourceRange;
    const at = ({ line, character }: Place): string => `${line + 1}:${character + 1}`;
    const file = files.indexOf(uri);
    return `${at(start)}-${at(end)}${file <= 0 ? '' : ` in ${file}`}`;
  },
  read(json, { files }, at) {
    const found = typeof json === 'string' ? /^(\d+):(\d+)-(\d+):(\d+)(?: in (\d+))?$/.exec(json) : null;
    if (found === null) return refuse(at, 'a place such as 3:5-3:12');
    const [start, end] = [placeOf(found[1], found[2]), placeOf(found[3], found[4])];
    const uri = files[Number(found[5] ?? 0)];
    if (uri === undefined || start.line < 0 || start.character < 0) return refuse(at, 'a place in one of the files');
    return { uri, start, end };
  },
};

/** From the numbers as they are written, which begin at 1. */
function placeOf(line: string | undefined, character: string | undefined): Place {
  return { line: Number(line) - 1, character: Number(character) - 1 };
}

export function objectOf(json: unknown, at: string): Readonly<Record<string, unknown>> {
  return typeof json === 'object' && json !== null && !Array.isArray(json)
    ? (json as Readonly<Record<string, unknown>>)
    : refuse(at, 'an object');
}
