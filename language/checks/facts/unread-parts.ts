/** What could not be read of the text, so that nothing is missed aloud that the writer did write. */
import { lugById, type Circuit, type PartId } from '../../circuit/model.js';
import type { Finding, SourceRange } from '../../source.js';
import { itemAt } from '../../collections.js';

export interface UnreadParts {
  /** True where a statement that wires or declares something could not be read whole: the instrument as a whole cannot be judged. */
  readonly any: boolean;
  /** True where such a statement names or declares the part, or names nothing that could be read: what the part lacks may stand there. */
  touches(part: PartId): boolean;
}

/** Rules of problems that leave a joint or a part out of the circuit. A wrong colour or value does not. */
const taking = new Set(['syntax', 'unknown-name', 'duplicate-name', 'use', 'type', 'form']);

/** Whether a problem of the text leaves a joint or a part out of the circuit. */
export function takesAway(circuit: Circuit): (problem: Pick<Finding, 'rule' | 'severity' | 'range'>) => boolean {
  const aside = createLines(circuit.aside ?? []);
  return ({ rule, severity, range }) => severity === 'error' && taking.has(rule) && !aside.meets(range);
}

export function createUnreadParts(circuit: Circuit): UnreadParts {
  const lost = circuit.problems.filter(takesAway(circuit)).map(({ range }) => range);
  if (lost.length === 0) return { any: false, touches: () => false };
  const mentions = mentionsIn(circuit);
  const spoilt = createLines(lost);
  const mentioned = createLines(mentions.map(({ range }) => range));
  const blind = lost.some((range) => !mentioned.meets(range));
  const touched = new Set(mentions.filter(({ range }) => spoilt.meets(range)).flatMap(({ parts }) => parts));
  return { any: true, touches: (part) => blind || touched.has(part) };
}

interface Mention {
  readonly range: SourceRange;
  readonly parts: readonly PartId[];
}

/** Every place that names, joins or declares parts. */
function mentionsIn(circuit: Circuit): readonly Mention[] {
  return [
    ...circuit.names.flatMap(({ range, part }) => (part === undefined ? [] : [{ range, parts: [part] }])),
    ...circuit.joints.map(({ statementRange, a, b }) => ({
      range: statementRange,
      parts: [lugById(circuit, a).part, lugById(circuit, b).part],
    })),
    ...circuit.parts.map(({ id, range }) => ({ range, parts: [id] })),
  ];
}

/** The lines of several places, joined into stretches, so that a place is looked up among all of them at once. */
interface Lines {
  /** True where one of the places has a line in common with this one: statements are on lines of their own, so it is the same statement. */
  meets(range: SourceRange): boolean;
}

function createLines(ranges: readonly SourceRange[]): Lines {
  const stretches = new Map<string, { start: number; end: number }[]>();
  for (const { uri, start, end } of [...ranges].sort((a, b) => a.start.line - b.start.line)) {
    const before = stretches.get(uri) ?? [];
    const last = before.at(-1);
    if (last !== undefined && start.line <= last.end) last.end = Math.max(last.end, end.line);
    else before.push({ start: start.line, end: end.line });
    stretches.set(uri, before);
  }
  return {
    meets({ uri, start, end }) {
      const among = stretches.get(uri) ?? [];
      // The first stretch that does not end before the place begins.
      let [low, high] = [0, among.length];
      while (low < high) {
        const middle = (low + high) >> 1;
        if (itemAt(among, middle).end < start.line) low = middle + 1;
        else high = middle;
      }
      return (among[low]?.start ?? Infinity) <= end.line;
    },
  };
}
