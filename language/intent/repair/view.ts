/** The joints of a circuit as one looks at them on the bench, the switches left out. */
import type { Pole } from '../../checks/index.js';
import type { AnalysedCircuit, LugId } from '../../circuit/model.js';

export interface View {
  readonly circuit: AnalysedCircuit;
  /** Class of a lug: its smallest lug. */
  readonly of: (lug: LugId) => number;
  readonly isWired: (lug: LugId) => boolean;
  readonly members: (klass: number) => readonly LugId[];
  /** Classes of sleeve and tip; −1 without a jack. */
  readonly ground: number;
  readonly tip: number;
  /** True for a class on which a pickup has a lead. */
  readonly isSource: (klass: number) => boolean;
  /** Classes from which a capacitor leads to ground, be it one that a pole chooses. */
  readonly drained: ReadonlySet<number>;
  /** Classes at which a volume takes its input: the far end of a track whose other end is on ground, or its wiper where a pickup is on that. */
  readonly inputs: readonly number[];
  /** How many tracks end on a class. */
  readonly tracksOn: (klass: number) => number;
}

export function createView(circuit: AnalysedCircuit, classes: Int32Array, poles: readonly Pole[]): View {
  const members = new Map<number, LugId[]>();
  for (const { id } of circuit.lugs) {
    const here = members.get(classes[id]!);
    if (here === undefined) members.set(classes[id]!, [id]);
    else here.push(id);
  }
  const { output } = circuit;
  const ground = output === undefined ? -1 : classes[output.sleeve]!;
  const sources = new Set<number>();
  for (const element of circuit.elements) if (element.kind === 'coil') sources.add(classes[element.a]!).add(classes[element.b]!);
  sources.delete(ground);
  const of = (lug: LugId): number => classes[lug]!;
  const drained = new Set<number>();
  const inputs: number[] = [];
  const tracks = new Map<number, number>();
  for (const element of circuit.elements) {
    const [a, b] = [of(element.a), of(element.kind === 'track' ? (element.leavesTo ?? element.b) : element.b)];
    if (element.kind === 'track') {
      for (const end of new Set([of(element.a), of(element.b)])) tracks.set(end, (tracks.get(end) ?? 0) + 1);
    }
    const far = a === ground ? b : b === ground ? a : -1;
    if (far < 0) continue;
    if (element.kind === 'capacitor') drained.add(far);
    if (element.kind !== 'track') continue;
    const wiper = of(element.wiper);
    inputs.push(sources.has(wiper) && !sources.has(far) ? wiper : far);
  }
  const chosen = poles.flatMap(({ common, throws }) =>
    common !== undefined && of(common) !== ground && throws.some((lug) => drained.has(of(lug)) && !sources.has(of(lug)))
      ? [of(common)]
      : [],
  );
  for (const klass of chosen) drained.add(klass);
  return {
    circuit,
    of,
    isWired: (lug) => members.get(classes[lug]!)!.length > 1,
    members: (klass) => members.get(klass) ?? [],
    ground,
    tip: output === undefined ? -1 : classes[output.tip]!,
    isSource: (klass) => sources.has(klass),
    drained,
    inputs,
    tracksOn: (klass) => tracks.get(klass) ?? 0,
  };
}
