/** Text in, circuit out: what the tests of lowering share. */
import { expect } from 'vitest';
import {
  lower,
  type AnalysedCircuit,
  type Circuit,
  type Coil,
  type Element,
  type Lug,
  type Part,
  type Track,
} from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';

export const URI = 'file:///bench/no-0.lug';

/** The circuit of a text; `files` are those that it may use, by their path beside it. */
export function circuitOf(text: string, files: Readonly<Record<string, string>> = {}): AnalysedCircuit {
  const trees = new Map(
    Object.entries(files).map(([path, other]) => [`file:///bench/${path}`, parseText(`file:///bench/${path}`, other)]),
  );
  return lower(parseText(URI, text), { tree: (uri) => trees.get(uri) });
}

/** The circuit of a text that has nothing wrong with it. */
export function soundCircuit(text: string, files: Readonly<Record<string, string>> = {}): AnalysedCircuit {
  const circuit = circuitOf(text, files);
  expect(circuit.problems.map((problem) => problem.message)).toEqual([]);
  return circuit;
}

export function partOf(circuit: Circuit, name: string): Part {
  const part = circuit.parts.find((candidate) => candidate.name === name);
  if (part === undefined) throw new Error(`no part ${name} among ${circuit.parts.map((candidate) => candidate.name).join(' ')}`);
  return part;
}

export function lugOf(circuit: Circuit, label: string): Lug {
  const lug = circuit.lugs.find((candidate) => candidate.label === label);
  if (lug === undefined) throw new Error(`no lug ${label} among ${circuit.lugs.map((candidate) => candidate.label).join(' ')}`);
  return lug;
}

export function elementsOf(circuit: Circuit, name: string): Element[] {
  return partOf(circuit, name).elements.map((id) => circuit.elements[id]!);
}

export function coilOf(circuit: Circuit, part: string, name = 'main'): Coil {
  const coil = elementsOf(circuit, part).find((element) => element.kind === 'coil' && element.name === name);
  if (coil?.kind !== 'coil') throw new Error(`no coil ${name} in ${part}`);
  return coil;
}

export function trackOf(circuit: Circuit, part: string, name = ''): Track {
  const track = elementsOf(circuit, part).find((element) => element.kind === 'track' && element.name === name);
  if (track?.kind !== 'track') throw new Error(`no track ${name} in ${part}`);
  return track;
}

/** Every joint as `kind a b`, in the order of the circuit. */
export function jointsOf(circuit: Circuit): string[] {
  return circuit.joints.map((joint) => `${joint.kind} ${circuit.lugs[joint.a]!.label} ${circuit.lugs[joint.b]!.label}`);
}

/** The contacts of a switch, a line a position: `up: A out`; `-` where nothing is joined. */
export function contactsOf(circuit: Circuit, part: string): string[] {
  const control = circuit.switches.find((candidate) => candidate.name === part);
  return (control?.positions ?? []).map((position) => {
    const groups = position.joins.map((lugs) => lugs.map((lug) => circuit.lugs[lug]!.name).join(' '));
    return `${position.key}: ${groups.length === 0 ? '-' : groups.join(', ')}`;
  });
}

/** Lug names in rows, `-` for an empty place. */
export function rowsOf(circuit: Circuit, part: string): string {
  return partOf(circuit, part)
    .rows.map((row) => row.map((lug) => (lug === null ? '-' : circuit.lugs[lug]!.name)).join(' '))
    .join(' / ');
}

/**
 * Checks a text against what it says of itself: under a line, a comment with carets under the place and `rule: message` behind them
 * (`//   ^^^^ unknown-name: …`; `//<` where the place begins in the comment's own columns, with the text of the place in backticks).
 */
export function expectProblems(text: string, files: Readonly<Record<string, string>> = {}): void {
  const expected: string[] = [];
  let place = 0;
  text.split('\n').forEach((line, index) => {
    const caret = /^\s*\/\/( *)(\^+) (.*)$/.exec(line);
    const early = /^\s*\/\/< `(.*?)` (.*)$/.exec(line);
    if (caret === null && early === null) {
      if (!/^\s*\/\/[ <]/.test(line)) place = index;
      return;
    }
    if (caret !== null) {
      const start = line.indexOf('^');
      expected.push(`${place + 1}:${start}-${start + caret[2]!.length} ${caret[3]!}`);
    } else if (early !== null) {
      const start = text.split('\n')[place]!.indexOf(early[1]!);
      expected.push(`${place + 1}:${start}-${start + early[1]!.length} ${early[2]!}`);
    }
  });
  const found = circuitOf(text, files).problems.map(({ rule, message, range }) => {
    const end = range.end.line === range.start.line ? '' : `${range.end.line + 1}:`;
    return `${range.start.line + 1}:${range.start.character}-${end}${range.end.character} ${rule}: ${message}`;
  });
  expect(found).toEqual(expected);
}
