/** Edited pairs for the picture of a comparison: each example with several of its wires or parts changed at once. */
import type { Circuit } from '../../language/circuit/model.js';
import { edits } from '../drawing/edits.js';
import { circuitOf, exampleText } from '../drawing/support.js';

export interface PicturePair {
  readonly name: string;
  readonly edit: string;
  readonly text: string;
}

/** How the last lugs of some wires become others, or the wires go. */
const rewirings: Readonly<Record<string, (lines: readonly WireLine[], circuit: Circuit) => readonly (string | undefined)[]>> = {
  'wires taken out': (lines) => lines.map(({ text }, index) => (index % 4 === 0 ? undefined : text)),
  'ends moved to the next lug': (lines, circuit) =>
    lines.map(({ text, last }, index) => (index % 4 === 1 ? text.replace(` ${last}`, ` ${nextLug(circuit, last)}`) : text)),
  'ends exchanged': (lines) =>
    lines.map(({ text, last }, index) =>
      index % 3 === 0 ? text.replace(` ${last}`, ` ${lines[(index + 4) % lines.length]!.last}`) : text,
    ),
};

interface WireLine {
  readonly text: string;
  readonly last: string;
}

/** All pairs of the examples named. */
export function picturePairs(names: readonly string[]): readonly PicturePair[] {
  return names.flatMap((name) => [
    ...Object.keys(rewirings).map((edit) => ({ name, edit, text: rewired(name, edit) })),
    { name, edit: 'pots changed and a part added', text: refitted(name) },
  ]);
}

function refitted(name: string): string {
  const added = edits.find(({ what }) => what === 'a part added')!.apply(name)!;
  return added.replace(/ : pot \w+/g, ' : pot 330k');
}

function rewired(name: string, edit: string): string {
  const lines = exampleText(name).split('\n');
  const wires = lines.flatMap((text, at) => {
    const last = /^wire \S+(?: +to +\S+)*? +to +([^\s.]+\.[^\s.]+)(?=\s*$| +(?!to )[a-z\d])/.exec(text)?.[1];
    return last === undefined ? [] : [{ text, last, at }];
  });
  const now = rewirings[edit]!(wires, circuitOf(name));
  const replaced = new Map(wires.map(({ at }, index) => [at, now[index]]));
  return lines.flatMap((line, at) => (replaced.has(at) ? (replaced.get(at) ?? []) : line)).join('\n');
}

/** The lug after one of the same part, or before it where it is the last. */
function nextLug(circuit: Circuit, label: string): string {
  const lug = circuit.lugs.find((other) => other.label === label);
  const own = circuit.parts.find((part) => part.id === lug?.part)?.lugs ?? [];
  const at = own.findIndex((id) => id === lug?.id);
  const next = own[at + 1] ?? own[at - 1];
  return circuit.lugs.find(({ id }) => id === next)?.label ?? label;
}
