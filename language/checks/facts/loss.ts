/** What could not be read of the text, so that nothing is missed aloud that the writer did write. */
import type { Circuit, PartId } from '../../circuit/model.js';
import type { SourceRange } from '../../source.js';

export interface Loss {
  /** True where a statement that wires or declares something could not be read whole: the instrument as a whole cannot be judged. */
  readonly any: boolean;
  /** True where such a statement names or declares the part, or names nothing that could be read: what the part lacks may stand there. */
  touches(part: PartId): boolean;
}

/** Problems that leave a joint or a part out of the circuit. A wrong colour or value does not. */
const takesAway = new Set(['syntax', 'unknown-name', 'duplicate-name', 'use', 'type', 'form']);

export function createLoss(circuit: Circuit): Loss {
  const aside = circuit.aside ?? [];
  const lost = circuit.problems
    .filter((problem) => problem.severity === 'error' && takesAway.has(problem.rule))
    .map((problem) => problem.range)
    .filter((range) => !aside.some((statement) => meets(statement, range)));
  if (lost.length === 0) return { any: false, touches: () => false };
  const mentions = lost.map((range) => mentionedIn(circuit, range));
  const blind = mentions.some((parts) => parts.length === 0);
  const touched = new Set(mentions.flat());
  return { any: true, touches: (part) => blind || touched.has(part) };
}

function mentionedIn(circuit: Circuit, range: SourceRange): readonly PartId[] {
  const named = circuit.names.filter((use) => meets(range, use.range)).flatMap(({ part }) => (part === undefined ? [] : [part]));
  const joined = circuit.joints.filter((joint) => meets(range, joint.statementRange));
  const declared = circuit.parts.filter((part) => meets(range, part.range));
  return [
    ...named,
    ...joined.flatMap((joint) => [circuit.lugs[joint.a]!.part, circuit.lugs[joint.b]!.part]),
    ...declared.map(({ id }) => id),
  ];
}

/** Statements stand on lines of their own, so a line in common is the same statement. */
function meets(a: SourceRange, b: SourceRange): boolean {
  return a.uri === b.uri && a.start.line <= b.end.line && b.start.line <= a.end.line;
}
