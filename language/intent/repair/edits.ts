/** Changes of joints as changes of the text, so that the text read again gives the very circuit that was tried. */
import { gaugeText } from '../../circuit/index.js';
import { type AnalysedCircuit, type Circuit, type Joint, lugById } from '../../circuit/model.js';
import type { Edit, Place, SourceRange } from '../../source.js';
import type { Change } from './change.js';
import { insertion } from './insertion.js';

/** `circuit` is the one that was read; `undefined` where two of the changes rewrite the same stretch of text. */
export function editsOf(circuit: AnalysedCircuit, changes: readonly Change[]): readonly Edit[] | undefined {
  const cut = changes.flatMap(({ removes }) => removes?.statement ?? []);
  // A chain that is cut twice is another chain after the first cut.
  if (new Set(cut).size < cut.length) return undefined;
  const edits = changes.flatMap((change) => [
    ...change.moves.map(({ mention, to }): Edit => ({ range: mention.range, text: lugById(circuit, to).label })),
    ...(change.removes === undefined ? [] : removal(circuit, change.removes)),
    ...(change.adds === undefined ? [] : [insertion(circuit, ...change.adds)]),
  ]);
  return edits.some((edit, i) => edits.slice(i + 1).some((other) => overlap(edit.range, other.range))) ? undefined : edits;
}

/** A statement of one run goes with its line; one run of several is cut out of the chain, which falls in two where it is an inner one. */
function removal(circuit: Circuit, joint: Joint): readonly Edit[] {
  const runs = circuit.joints
    .filter((other) => other.statement === joint.statement && other.kind === joint.kind)
    .sort((a, b) => compare(a.aRange.start, b.aRange.start));
  const { uri, start, end } = joint.statementRange;
  if (runs.length <= 1)
    return [{ range: { uri, start: { line: start.line, character: 0 }, end: { line: end.line + 1, character: 0 } }, text: '' }];
  if (runs[0]?.id === joint.id) return [{ range: { uri, start: joint.aRange.start, end: joint.bRange.start }, text: '' }];
  if (runs.at(-1)?.id === joint.id) return [{ range: { uri, start: joint.aRange.end, end: joint.bRange.end }, text: '' }];
  const indent = ' '.repeat(start.character);
  const text = `${looksText(circuit, joint)}\n${indent}${joint.kind} `;
  return [{ range: { uri, start: joint.aRange.end, end: joint.bRange.start }, text }];
}

function overlap(a: SourceRange, b: SourceRange): boolean {
  return a.uri === b.uri && compare(a.start, b.end) < 0 && compare(b.start, a.end) < 0;
}

export function compare(a: Place, b: Place): number {
  return a.line - b.line || a.character - b.character;
}

/** ` black 22awg shielded screen to volume.case`: what a run says of itself, its part's own lead left out. */
export function looksText(circuit: Circuit, joint: Joint): string {
  if (joint.kind !== 'wire') return '';
  const words = joint.ownLead ? [] : [joint.colour, joint.gauge === undefined ? undefined : gaugeText(joint.gauge)];
  words.push(
    joint.length === undefined ? undefined : `${Number((joint.length * 1000).toPrecision(9))}mm`,
    joint.bare ? 'bare' : undefined,
    joint.twisted ? 'twisted' : undefined,
    joint.make?.join(' '),
    joint.number === undefined ? undefined : `no ${joint.number}`,
  );
  if (joint.shielded) {
    const ties = circuit.joints
      .filter((other) => other.kind === 'screen' && other.a === joint.screen)
      .map(({ b }) => lugById(circuit, b).label);
    words.push('shielded', ties.length === 0 ? undefined : `screen to ${ties.join(' and ')}`);
  }
  return words.map((word) => (word === undefined ? '' : ` ${word}`)).join('');
}
