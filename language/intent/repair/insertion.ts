/** A new wire: where it goes in the text, and how it is written there. */
import { gaugeText } from '../../circuit/index.js';
import { lugById, type AnalysedCircuit, type Circuit, type Joint, type LugId } from '../../circuit/model.js';
import { jointClasses } from '../../electrics/index.js';
import type { Edit, SourceRange } from '../../source.js';
import { isBentOver, isScreen } from './change.js';

/** A statement of its own below the last one that leads to the same net, in the layout of that one. */
export function insertion(circuit: AnalysedCircuit, from: LugId, to: LugId): Edit {
  const run = isScreen(circuit, from) ? circuit.joints.find(({ screen }) => screen === from) : undefined;
  if (run !== undefined) {
    const { uri, end } = run.statementRange;
    return { range: { uri, start: end, end }, text: ` screen to ${lugById(circuit, to).label}` };
  }
  const word = isBentOver(circuit, from, to) ? 'solder' : 'wire';
  const model = modelOf(circuit, from, to);
  const looks = word === 'wire' ? looksLike(circuit, from, to) : '';
  const line = (indent: number, column: number): string => {
    const head = `${' '.repeat(indent)}${word} `;
    return `${head}${lugById(circuit, from).label.padEnd(column - 1 - head.length)} to ${lugById(circuit, to).label}${looks}\n`;
  };
  if (model === undefined) return edit(belowParts(circuit), line(0, 0));
  const { aRange, bRange, statementRange } = model;
  const column = aRange.start.line === bRange.start.line ? bRange.start.character - 3 : 0;
  return edit(below(circuit, statementRange), line(statementRange.start.character, column));
}

function edit(place: { readonly uri: string; readonly line: number }, text: string): Edit {
  const at = { line: place.line, character: 0 };
  return { range: { uri: place.uri, start: at, end: at }, text };
}

/** The last statement of the instrument's own text that ends on the same lug, else leads to the net of either, else joins anything. */
function modelOf(circuit: AnalysedCircuit, from: LugId, to: LugId): Joint | undefined {
  const { of } = jointClasses(circuit);
  const wires = circuit.joints.filter((joint) => joint.statementRange.uri === circuit.uri && isLine(circuit, joint));
  const leading = (lug: LugId): Joint | undefined => last(wires.filter((joint) => of[joint.a] === of[lug]));
  return last(wires.filter(({ b }) => b === to)) ?? leading(to) ?? leading(from) ?? last(wires);
}

/** A wire or solder statement: not a part that stands `from … to …`. */
function isLine(circuit: Circuit, joint: Joint): boolean {
  if (joint.kind !== 'wire' && joint.kind !== 'solder') return false;
  return !circuit.parts.some(
    ({ range }) => range.uri === joint.statementRange.uri && range.start.line === joint.statementRange.start.line,
  );
}

function last(joints: readonly Joint[]): Joint | undefined {
  return joints.reduce<Joint | undefined>(
    (lowest, joint) =>
      lowest !== undefined && lowest.statementRange.start.line >= joint.statementRange.start.line ? lowest : joint,
    undefined,
  );
}

/** The line below a statement; above it where nothing is known to follow, since the last line of a file may have no end. */
function below(circuit: Circuit, { uri, start, end }: SourceRange): { readonly uri: string; readonly line: number } {
  const isLast = !places(circuit).some((range) => range.uri === uri && range.start.line > end.line);
  return { uri, line: isLast ? start.line : end.line + 1 };
}

function belowParts(circuit: Circuit): { readonly uri: string; readonly line: number } {
  const ranges = circuit.parts.map(({ range }) => range).filter(({ uri }) => uri === circuit.uri);
  const lowest = ranges.reduce<SourceRange | undefined>(
    (a, b) => (a !== undefined && a.start.line >= b.start.line ? a : b),
    undefined,
  );
  return lowest === undefined ? { uri: circuit.uri, line: 0 } : below(circuit, lowest);
}

function places(circuit: Circuit): readonly SourceRange[] {
  return [
    ...circuit.joints.map(({ statementRange }) => statementRange),
    ...[circuit.parts, circuit.expectations, circuit.measurements, circuit.allows, circuit.cavities, circuit.plates].flatMap(
      (items) => items.map(({ range }) => range),
    ),
  ];
}

/** Colour and gauge of another wire to the same place; a part's own lead has its own. */
function looksLike(circuit: AnalysedCircuit, from: LugId, to: LugId): string {
  const hasLead = circuit.parts.some((part) => part.leads?.some(({ lug }) => lug === from || lug === to));
  if (hasLead) return '';
  const { of } = jointClasses(circuit);
  const alike = circuit.joints
    .filter(
      (joint) => joint.kind === 'wire' && !joint.ownLead && !joint.bare && joint.colour !== undefined && of[joint.a] === of[to],
    )
    .at(-1);
  if (alike?.colour === undefined) return '';
  return ` ${alike.colour}${alike.gauge === undefined ? '' : ` ${gaugeText(alike.gauge)}`}`;
}
