/** Wires drawn with the hand: the edits that write a wire between two lugs of the drawing, or move one end of a wire to another lug. */
import { partById, type Circuit, type Lug } from '../../../language/circuit/index.js';
import type { TextEdit } from 'vscode-languageserver';
import type { DrawnEdits, DrawWireParams } from '../../protocol.js';
import type { Service } from '../feature.js';
import { insertStatements } from '../insertions.js';
import { textIn } from '../places.js';
import { aligned } from '../texts/aligned.js';
import type { Snapshot } from '../workspace.js';

/** Answers the request on the service's connection. */
export function registerWiring({ connection, guard, workspace }: Service): void {
  connection.onRequest(
    'lugwork/drawWire',
    guard.request<DrawWireParams, DrawnEdits | null>('lugwork/drawWire', null, async (params) => {
      const at = await workspace.snapshot(params.uri);
      return at === undefined ? null : drawnEdits(at, params);
    }),
  );
}

function drawnEdits(at: Snapshot, { from, to, other }: DrawWireParams): DrawnEdits {
  const { circuit, text } = at;
  const [lug, target, stays] = [
    lugOf(circuit, from),
    lugOf(circuit, to),
    other === undefined ? undefined : lugOf(circuit, other),
  ];
  if (lug === undefined || target === undefined || (other !== undefined && stays === undefined)) return { refused: 'gone' };
  const end = stays ?? lug;
  if (end === target) return { refused: 'same' };
  if (partById(circuit, target.part).parent !== undefined || partById(circuit, end.part).parent !== undefined)
    return { refused: 'inside' };
  if (circuit.joints.some((joint) => isBetween(joint, end, target))) return { refused: 'joined' };
  const edit =
    stays === undefined
      ? insertStatements(at, [`wire ${lug.label} to ${target.label}`], ['wire', 'solder', 'part'])
      : movedEnd(at, lug, stays, target);
  if (edit === undefined) return { refused: 'elsewhere' };
  return { edits: aligned(text, [edit]).map(({ range, newText }) => ({ range, text: newText })) };
}

/** The name of the lug in the statement that joins it to the one that stays; nothing where that is in another file, or says it in another way. */
function movedEnd({ circuit, uri, text }: Snapshot, lug: Lug, stays: Lug, target: Lug): TextEdit | undefined {
  const joint = circuit.joints.find((one) => isBetween(one, lug, stays));
  const range = joint?.a === lug.id ? joint.aRange : joint?.bRange;
  if (range?.uri !== uri || textIn(text, range) !== lug.label) return undefined;
  return { range: { start: range.start, end: range.end }, newText: target.label };
}

function lugOf(circuit: Circuit, id: string): Lug | undefined {
  return circuit.lugs.find(({ label, inner }) => inner !== true && `lug:${label}` === id);
}

function isBetween({ a, b }: { readonly a: Lug['id']; readonly b: Lug['id'] }, one: Lug, other: Lug): boolean {
  return (a === one.id && b === other.id) || (a === other.id && b === one.id);
}
