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

/** A line for each wire: its number and the lug at its other end. Where many end, that is said for the ones that go on from here alone: the others say it at their own ends. */
function linesOf(wires: ReadonlyMap<string, readonly DiagramRun[]>, lug: string, own: readonly DiagramRun[]): string[] {
  const away = own.map((run) => ({ run, other: run.from === lug ? run.to : run.from }));
  const said = away.length <= mostLines ? away : away.filter(({ other }) => isHub(wires, other, lug));
  const here = away.filter((one) => !said.includes(one)).map(({ run }) => run.number ?? 'wire');
  return [
    ...said
      .map(({ run, other }) => [run.number, '→', other.slice(4)].filter((text) => text !== undefined).join(' '))
      .sort(compareText),
    ...wrapped(here.sort(compareText)),
  ];
}

const mostLines = 2;
/** Numbers in a line of those that only end here. */
const mostNumbers = 3;

function wrapped(numbers: readonly string[]): string[] {
  const lines: string[] = [];
  for (let at = 0; at < numbers.length; at += mostNumbers) lines.push(numbers.slice(at, at + mostNumbers).join(' '));
  return lines;
}

function isHub(wires: ReadonlyMap<string, readonly DiagramRun[]>, lug: string, other: string): boolean {
  const difference = valueFor(wires, lug).length - valueFor(wires, other).length;
  return difference === 0 ? compareText(lug, other) < 0 : difference > 0;
}
