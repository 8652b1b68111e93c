/** Ground wires shown as marks instead of drawn: a mark at each lug on which they end says where they go. */
import { firstOf, valueFor } from '../../collections.js';
import type { Circuit } from '../../circuit/model.js';
import type { Steps } from '../../steps.js';
import type { DiagramPart, DiagramRun } from './diagram.js';
import { compareText } from './order.js';

export interface MarkedGrounds {
  /** What is still drawn, stubs to the marks among it. */
  readonly runs: readonly DiagramRun[];
  /** The marks, to be laid out like parts. */
  readonly marks: readonly DiagramPart[];
}

/** Takes the ground wires between parts out of the runs; leads, direct joints and screened wires stay drawn. A step for each mark. `groupOf` gives a lug's group. */
export function* groundsAsMarks(
  circuit: Circuit,
  runs: readonly DiagramRun[],
  groupOf: (lug: string) => string | undefined,
): Steps<MarkedGrounds> {
  const partOf = new Map(circuit.lugs.map((lug) => [`lug:${lug.label}`, lug.part]));
  const isMarked = (run: DiagramRun): boolean =>
    run.ground && run.kind === 'wire' && !run.shielded && partOf.get(run.from) !== partOf.get(run.to);
  const wires = new Map<string, DiagramRun[]>();
  for (const run of runs.filter(isMarked)) for (const lug of [run.from, run.to]) wires.set(lug, [...(wires.get(lug) ?? []), run]);

  const marks: DiagramPart[] = [];
  const stubs: DiagramRun[] = [];
  for (const [lug, own] of wires) {
    yield;
    const label = lug.slice(4);
    const lines = linesOf(wires, lug, own);
    const first = firstOf(own);
    const isAlike = own.every((run) => run.letters === first.letters);
    const group = groupOf(lug);
    const end = `end:${label}`;
    marks.push({
      id: `mark:${label}`,
      name: label,
      type: 'ground',
      kind: 'mark',
      values: lines,
      lugs: [{ id: end, name: '', label: end, metal: true, ends: 1 }],
      rows: [],
      contacts: [],
      bent: [],
      inPlace: false,
      ...(group === undefined ? {} : { group }),
    });
    stubs.push({
      id: `ground:${label}`,
      kind: 'ground',
      joints: own.flatMap((run) => run.joints),
      from: lug,
      to: end,
      colours: isAlike ? first.colours : [],
      letters: isAlike ? first.letters : '',
      bare: isAlike && first.bare,
      twisted: false,
      shielded: false,
      ownLead: false,
      ground: true,
      says: `ground at ${label}: ${lines.join(', ')}`,
    });
  }
  return { runs: [...runs.filter((run) => !isMarked(run)), ...stubs], marks };
}

/** Where a wire meets many, the other end says where it goes; here their number is enough to know when all are on. */
function linesOf(wires: ReadonlyMap<string, readonly DiagramRun[]>, lug: string, own: readonly DiagramRun[]): string[] {
  const others = own.map((run) => (run.from === lug ? run.to : run.from));
  const away = others.filter((other) => isHub(wires, other, lug)).sort(compareText);
  const here = own.length - away.length;
  return [
    ...away.map((other) => `to ${other.slice(4)}`),
    ...(here === 0 ? [] : [`${here} ${here === 1 ? 'wire comes' : 'wires come'} here`]),
  ];
}

function isHub(wires: ReadonlyMap<string, readonly DiagramRun[]>, lug: string, other: string): boolean {
  const difference = valueFor(wires, lug).length - valueFor(wires, other).length;
  return difference === 0 ? compareText(lug, other) < 0 : difference > 0;
}
