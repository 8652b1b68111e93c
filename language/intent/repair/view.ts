/** The joints of a circuit as one looks at them on the bench, the switches left out. */
import type { Circuit, LugId } from '../../circuit/model.js';

export interface View {
  readonly circuit: Circuit;
  /** Class of a lug: its smallest lug. */
  readonly of: (lug: LugId) => number;
  readonly isWired: (lug: LugId) => boolean;
  readonly members: (klass: number) => readonly LugId[];
  /** Classes of sleeve and tip; −1 without a jack. */
  readonly ground: number;
  readonly tip: number;
  /** True for a class on which a pickup has a lead. */
  readonly isSource: (klass: number) => boolean;
}

export function createView(circuit: Circuit, classes: Int32Array): View {
  const members = new Map<number, LugId[]>();
  for (let lug = 0; lug < classes.length; lug++) {
    const here = members.get(classes[lug]!);
    if (here === undefined) members.set(classes[lug]!, [lug]);
    else here.push(lug);
  }
  const { output } = circuit;
  const ground = output === undefined ? -1 : classes[output.sleeve]!;
  const sources = new Set<number>();
  for (const element of circuit.elements) if (element.kind === 'coil') sources.add(classes[element.a]!).add(classes[element.b]!);
  sources.delete(ground);
  return {
    circuit,
    of: (lug) => classes[lug]!,
    isWired: (lug) => members.get(classes[lug]!)!.length > 1,
    members: (klass) => members.get(klass) ?? [],
    ground,
    tip: output === undefined ? -1 : classes[output.tip]!,
    isSource: (klass) => sources.has(klass),
  };
}
