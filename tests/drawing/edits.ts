/** Small edits, the same for every example, by which it is measured how far a drawing moves. */
import type { Circuit } from '../../language/circuit/model.js';
import { circuitOf, exampleText } from './support.js';

export interface Edit {
  readonly what: string;
  /** The example's text with the edit, or nothing where it has no place for it. */
  apply(this: void, name: string): string | undefined;
}

export const edits: readonly Edit[] = [
  { what: 'a colour changed', apply: (name) => onLine(exampleText(name), isWire, recoloured) },
  { what: 'a wire added', apply: (name) => appended(name, (hot, ground, out) => `wire ${hot} to ${out} green`) },
  { what: 'a wire taken out', apply: (name) => onLine(exampleText(name), isWire, () => undefined) },
  {
    what: 'a part added',
    apply: (name) => appended(name, (hot, ground) => `part bleed-${name.length} : resistor 330k from ${hot} to ${ground}`),
  },
  { what: 'a wire’s end moved', apply: endMoved },
];

const isWire = (line: string): boolean => /^wire \S+ +to \S+/.test(line);

/** The first line of a kind changed; nothing where there is none. */
function onLine(
  text: string,
  isSuch: (line: string) => boolean,
  change: (line: string) => string | undefined,
): string | undefined {
  const lines = text.split('\n');
  const index = lines.findIndex(isSuch);
  if (index < 0) return undefined;
  const line = change(lines[index]!);
  return [...lines.slice(0, index), ...(line === undefined ? [] : [line]), ...lines.slice(index + 1)].join('\n');
}

function recoloured(line: string): string {
  const [whole = line] = /^[^{/]*?(?=\s*(?:[{]|\/\/|$))/.exec(line) ?? [];
  const colour = /\b(black|brown|red|orange|yellow|green|blue|violet|grey|white|pink)\b/.exec(
    whole.replace(/^wire \S+( to \S+)+/, ''),
  );
  if (!colour) return line.replace(/^(wire \S+(?: +to \S+)+)/, '$1 violet');
  return line.replace(new RegExp(`\\b${colour[0]}\\b(?!.*\\b${colour[0]}\\b)`), colour[0] === 'violet' ? 'grey' : 'violet');
}

/** A statement between lugs that every example has: a hot lug, the jack's sleeve, the jack's tip. */
function appended(name: string, line: (hot: string, ground: string, out: string) => string): string | undefined {
  const circuit = circuitOf(name);
  if (circuit.output === undefined) return undefined;
  const label = (lug: number): string => circuit.lugs[lug]!.label;
  const hot = circuit.joints.filter((joint) => joint.kind === 'wire').map((joint) => label(joint.a))[0];
  if (hot === undefined) return undefined;
  return `${exampleText(name)}\n${line(hot, label(circuit.output.sleeve), label(circuit.output.tip))}\n`;
}

/** The end of the first wire whose last lug has a neighbour by number or name, put on that neighbour. */
function endMoved(name: string): string | undefined {
  const circuit = circuitOf(name);
  return onLine(
    exampleText(name),
    (line) => neighbourOf(circuit, lastLug(line)) !== undefined,
    (line) => line.replace(lastLug(line)!, neighbourOf(circuit, lastLug(line))!),
  );
}

function lastLug(line: string): string | undefined {
  return /^wire \S+(?: +to \S+)*? +to (\S+\.\S+)(?! +to)\s*(?:$|[a-z\d])/.exec(line)?.[1];
}

function neighbourOf(circuit: Circuit, label: string | undefined): string | undefined {
  const lug = circuit.lugs.find((other) => other.label === label);
  if (!lug) return undefined;
  const lugs = circuit.parts[lug.part]!.lugs;
  const at = lugs.indexOf(lug.id);
  const next = lugs[at + 1] ?? lugs[at - 1];
  return next === undefined ? undefined : circuit.lugs[next]!.label;
}
