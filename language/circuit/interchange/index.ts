/** A circuit as JSON that other programs can read and that reads back to the same circuit, with its published schema. */
import { firstOf } from '../../collections.js';
import { analysed, type AnalysedCircuit, type Circuit } from '../model.js';
import { objectOf, Unreadable, type JsonSchema, type Names } from './codec.js';
import { textClaim } from '../problems.js';
import { circuitForm, definitions } from './form.js';

/** The version of the form. */
const version = 1;

/** How addresses of files are written, and found again: the language knows no file system. */
export interface Addresses {
  /** A name for an address, from where the JSON will lie. */
  nameOf(uri: string): string;
  uriOf(name: string): string;
}

/** The circuit as plain data. Of its text it keeps the places of things; what only an editor needs (the index of names, the types) is left out. */
export function circuitToJson(circuit: Circuit, { nameOf }: Pick<Addresses, 'nameOf'>): object {
  const files = [...new Set([circuit.uri, ...(circuit.files ?? []), ...placesIn(circuit)])];
  const names: Names = { ...namesOf(circuit.parts, circuit.lugs, circuit.elements, circuit.switches, circuit.shafts), files };
  return { lugwork: version, files: files.map(nameOf), ...(circuitForm.write(circuit, names) as object) };
}

/** The circuit again, or in one sentence why the JSON is none. Ids are the places in the lists. */
export function circuitFromJson(
  json: unknown,
  { uriOf }: Pick<Addresses, 'uriOf'>,
): { readonly circuit: AnalysedCircuit } | { readonly problem: string } {
  try {
    const { lugwork, files, ...rest } = objectOf(json, '');
    const form = Object.fromEntries(Object.entries(rest).filter(([key]) => key !== '$schema'));
    if (lugwork !== version) return { problem: `it is not a circuit of version ${version}` };
    if (!Array.isArray(files) || files.length === 0 || !files.every((file) => typeof file === 'string')) {
      return { problem: '.files is not a list of texts' };
    }
    const uris = files.map(uriOf);
    const lists = {
      parts: rows(form, 'parts'),
      lugs: rows(form, 'lugs'),
      elements: rows(form, 'elements'),
      switches: rows(form, 'switches'),
      shafts: rows(form, 'shafts'),
    };
    const parts = lists.parts.map(({ name }) => ({ name: String(name) }));
    const partId = new Map(uniqueNames(parts.map(({ name }) => name)).map((name, id) => [name, id]));
    const elements = lists.elements.map(({ name, part }) => ({ name: String(name), part: partId.get(String(part)) ?? -1 }));
    const names: Names = {
      ...namesOf(
        parts,
        lists.lugs.map(({ label }) => ({ label: String(label) })),
        elements,
        lists.switches.map(({ name }) => ({ name: String(name) })),
        lists.shafts.map(({ name }) => ({ name: String(name) })),
      ),
      files: uris,
    };
    const read = circuitForm.read(form, names, '') as Omit<Circuit, 'uri' | 'names'>;
    const numbered = <T>(list: readonly T[]): T[] => list.map((item, id) => ({ id, ...item }));
    return {
      circuit: analysed({
        ...read,
        uri: firstOf(uris),
        parts: numbered(read.parts),
        lugs: numbered(read.lugs),
        joints: numbered(read.joints),
        elements: numbered(read.elements),
        switches: numbered(read.switches),
        shafts: numbered(read.shafts),
        problems: read.problems.map((problem) => ({ ...problem, claim: textClaim(problem.rule, ''), related: [], fixes: [] })),
        files: uris.slice(1),
        names: [],
      }),
    };
  } catch (error) {
    if (error instanceof Unreadable) return { problem: error.message };
    throw error;
  }
}

/** The JSON Schema (draft-07) of the form. */
export function circuitSchema(): JsonSchema {
  const { properties, required, ...form } = circuitForm.schema as {
    readonly properties: object;
    readonly required: readonly string[];
  };
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'A guitar circuit, as `lugwork circuit` writes it',
    description:
      'Lugs, parts, elements, switches and shafts are named by their labels; if two have the same label, # and the number in the list follow it.',
    ...form,
    properties: {
      $schema: { type: 'string' },
      lugwork: { const: version },
      files: {
        type: 'array',
        items: { type: 'string' },
        minItems: 1,
        description: 'the file that it was written in, then those that it uses',
      },
      ...properties,
    },
    required: ['lugwork', 'files', ...required],
    definitions,
  };
}

interface Named {
  readonly name: string;
}

function namesOf(
  parts: readonly Named[],
  lugs: readonly { readonly label: string }[],
  elements: readonly (Named & { readonly part: number })[],
  switches: readonly Named[],
  shafts: readonly Named[],
): Omit<Names, 'files'> {
  const element = elements.map(({ name, part }) => [parts[part]?.name ?? '', name].filter((word) => word !== '').join(':'));
  return {
    part: uniqueNames(parts.map(({ name }) => name)),
    lug: uniqueNames(lugs.map(({ label }) => label)),
    element: uniqueNames(element),
    switch: uniqueNames(switches.map(({ name }) => name)),
    shaft: uniqueNames(shafts.map(({ name }) => name)),
  };
}

/** A name that stands twice has its number behind it. */
function uniqueNames(names: readonly string[]): readonly string[] {
  const times = new Map<string, number>();
  for (const name of names) times.set(name, (times.get(name) ?? 0) + 1);
  return names.map((name, id) => (times.get(name) === 1 ? name : `${name}#${id}`));
}

function rows(form: Readonly<Record<string, unknown>>, name: string): readonly Readonly<Record<string, unknown>>[] {
  const list = form[name];
  if (!Array.isArray(list)) throw new Unreadable(`.${name} is not a list`);
  return list.map((row: unknown, index) => objectOf(row, `.${name}[${index}]`));
}

/** Addresses that places in the circuit name. */
function placesIn(value: unknown, found = new Set<string>()): ReadonlySet<string> {
  if (typeof value !== 'object' || value === null) return found;
  if ('uri' in value && 'start' in value) found.add(value.uri as string);
  for (const [key, item] of Object.entries(value)) if (key !== 'names' && key !== 'types') placesIn(item, found);
  return found;
}
