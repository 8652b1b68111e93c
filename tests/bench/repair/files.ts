/** The correct examples as texts in which mistakes can be made and fixed. */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { AnalysedCircuit } from '../../../language/circuit/model.js';
import { createProject, type Project } from '../../../language/project.js';
import { generateCircuit } from '../circuits.js';
import type { Edit } from '../../../language/source.js';

/** The folder of the examples; the benchmark is started from the root of the checkout. */
const folder = new URL(`file://${process.cwd()}/examples/`);

export interface Example {
  readonly name: string;
  readonly uri: string;
  readonly circuit: AnalysedCircuit;
  /** Its own text and those of the files it uses, by address. */
  readonly texts: ReadonlyMap<string, string>;
}

export type TextChange = (text: string) => string;

/** Instruments: files with a jack. `change` is done to each text before it is read. */
export function examples(change: TextChange = (text) => text): readonly Example[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.lug'))
    .sort()
    .flatMap((name): readonly Example[] => {
      const uri = new URL(name, folder).href;
      const texts = new Map<string, string>();
      const project = createProject({
        read(asked) {
          const text = readText(asked);
          if (text !== undefined) texts.set(asked, change(text));
          return texts.get(asked);
        },
      });
      const circuit = project.circuit(uri)!;
      return circuit.output === undefined ? [] : [{ name: name.slice(0, -4), uri, circuit, texts }];
    });
}

/** A generated circuit of so many parts, with `expect` lines for each of its positions. */
export function generated(parts: number): Example {
  const uri = `bench:/generated-${parts}.lug`;
  const texts = new Map([[uri, generateCircuit(parts)]]);
  return { name: `generated-${parts}`, uri, circuit: projectOf(texts).circuit(uri)!, texts };
}

function readText(uri: string): string | undefined {
  try {
    return readFileSync(fileURLToPath(uri), 'utf8');
  } catch {
    return undefined;
  }
}

/** A project in which some texts are edited. */
export function edited(texts: ReadonlyMap<string, string>, edits: readonly Edit[]): ReadonlyMap<string, string> {
  const changed = new Map(texts);
  for (const uri of new Set(edits.map(({ range }) => range.uri)))
    changed.set(
      uri,
      apply(
        texts.get(uri) ?? '',
        edits.filter(({ range }) => range.uri === uri),
      ),
    );
  return changed;
}

export function projectOf(texts: ReadonlyMap<string, string>): Project {
  return createProject({ read: (uri) => texts.get(uri) });
}

/** Applies edits as an editor does; those at one place in their order. */
export function apply(text: string, edits: readonly Edit[]): string {
  const starts = [0, ...[...text.matchAll(/\n/g)].map((match) => match.index + 1)];
  const at = ({ line, character }: Edit['range']['start']): number => (starts[line] ?? text.length) + character;
  return edits
    .map((edit, order) => ({ edit, order }))
    .sort((a, b) => at(b.edit.range.start) - at(a.edit.range.start) || b.order - a.order)
    .reduce((now, { edit: { range, text: put } }) => now.slice(0, at(range.start)) + put + now.slice(at(range.end)), text);
}
