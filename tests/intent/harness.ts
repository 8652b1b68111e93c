/** Circuits from the examples with lines taken out and put in, repairs done to texts, and joints in words, for the tests of intent. */
import { readFileSync } from 'node:fs';
import type { AnalysedCircuit, Circuit } from '../../language/circuit/model.js';
import { createProject } from '../../language/project.js';
import type { Edit, Fix } from '../../language/source.js';

export const uri = 'test:/circuit.lug';

export function circuitOf(text: string): AnalysedCircuit {
  return createProject({ read: (asked) => (asked === uri ? text : undefined) }).circuit(uri)!;
}

/** The text of an example, by name without ending. */
export function example(name: string): string {
  return readFileSync(new URL(`../../examples/${name}.lug`, import.meta.url), 'utf8');
}

/** A block of cases: a title, a circuit, and what stands behind each `--- word` line. */
export interface Case {
  readonly title: string;
  readonly text: string;
  readonly sections: ReadonlyMap<string, readonly string[]>;
}

/**
 * Blocks after `===`, with lines of comment before the circuit where something was worked by hand. A circuit that begins with `from NAME` is that example, with lines taken out (`- line`, a star stands for the rest) and put in
 * where the last one was taken out, else at the end (`+ line`).
 */
export function casesIn(file: string): readonly Case[] {
  return readFileSync(new URL(`cases/${file}`, import.meta.url), 'utf8')
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const [title, ...rest] = block.split('\n');
      const [body, ...parts] = rest.join('\n').split(/^--- /m);
      const sections = new Map(
        parts.map((part) => {
          const [word, ...lines] = part.split('\n');
          return [word!.trim(), lines.filter((line) => line.trim() !== '')] as const;
        }),
      );
      return { title: title!, text: textOf(body!), sections };
    });
}

function textOf(body: string): string {
  const from = /^(?:\/\/.*\n)*from (\S+)\n/.exec(body);
  if (from === null) return body;
  let lines = example(from[1]!).split('\n');
  let place = lines.length - 1;
  for (const change of body.slice(from[0].length).split('\n')) {
    const line = change.slice(2);
    if (change.startsWith('- ')) {
      const isMeant = (other: string): boolean =>
        line.endsWith('*') ? squeezed(other).startsWith(squeezed(line.slice(0, -1))) : squeezed(other) === squeezed(line);
      const found = lines.findIndex(isMeant);
      if (found < 0) throw new Error(`${from[1]!} has no line “${line}”`);
      lines = lines.filter((other) => !isMeant(other));
      place = found;
    } else if (change.startsWith('+ ')) lines.splice(place++, 0, line);
  }
  return lines.join('\n');
}

function squeezed(line: string): string {
  return line.trim().replace(/ +/g, ' ');
}

/** The text with the edits of its own file done, as an editor does them. */
export function edited(text: string, edits: readonly Edit[]): string {
  const starts = [0, ...[...text.matchAll(/\n/g)].map((match) => match.index + 1)];
  const at = ({ line, character }: Edit['range']['start']): number => (starts[line] ?? text.length) + character;
  return edits
    .map((edit, order) => ({ edit, order }))
    .sort((a, b) => at(b.edit.range.start) - at(a.edit.range.start) || b.order - a.order)
    .reduce((now, { edit: { range, text: put } }) => now.slice(0, at(range.start)) + put + now.slice(at(range.end)), text);
}

export function withFix(text: string, { edits }: Fix): string {
  return edited(text, edits);
}

/** What is soldered to what, in order; a screen is called so, since its own name follows the lugs of its wire. */
export function wires({ joints, lugs, parts }: Circuit): readonly string[] {
  const name = (lug: number): string => (parts[lugs[lug]!.part]!.family === 'screen' ? 'screen' : lugs[lug]!.label);
  return joints.map(({ kind, a, b }) => `${kind} ${[name(a), name(b)].sort().join(' ')}`).sort();
}
