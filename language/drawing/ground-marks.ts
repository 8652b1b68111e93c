/** Ground wires told instead of drawn: a mark at each lug that says where its wires go. */
import type { Circuit } from '../circuit/model.js';
import type { DiagramMark, DiagramRun } from './diagram.js';
import { compareText } from './order.js';

/** Takes the ground wires out of the runs and gives a mark to each lug on which they end; leads, direct joints and screens stay drawn. */
export function groundsAsMarks(circuit: Circuit, runs: readonly DiagramRun[]): { drawn: DiagramRun[]; marks: DiagramMark[] } {
  const partOf = new Map(circuit.lugs.map((lug) => [`lug:${lug.label}`, lug.part]));
  const isTold = (run: DiagramRun): boolean =>
    run.ground && run.kind === 'wire' && !run.shielded && partOf.get(run.from) !== partOf.get(run.to);
  const told = runs.filter(isTold);
  const wires = new Map<string, DiagramRun[]>();
  for (const run of told) for (const lug of [run.from, run.to]) wires.set(lug, [...(wires.get(lug) ?? []), run]);

  const marks = [...wires].map(([lug, own]): DiagramMark => {
    const others = own.map((run) => (run.from === lug ? run.to : run.from));
    // Where a wire meets many, the other end says where it goes; here the count is enough to know when all are on.
    const away = own.filter((run, at) => isHub(wires, others[at]!, lug));
    const names = away.map((run) => (run.from === lug ? run.to : run.from).slice(4)).sort(compareText);
    const here = own.length - away.length;
    const texts = [
      ...names.map((name) => `to ${name}`),
      ...(here === 0 ? [] : [`${here} ${here === 1 ? 'wire' : 'wires'} here`]),
    ];
    const colours = own.every((run) => run.letters === own[0]!.letters) ? own[0]! : { colours: [], letters: '' };
    return {
      id: `mark:${lug.slice(4)}`,
      lug,
      text: texts.join(', '),
      colours: colours.colours,
      letters: colours.letters,
      runs: own.map((run) => run.id),
      says: `ground at ${lug.slice(4)}: ${texts.join(', ')}`,
    };
  });
  return { drawn: runs.filter((run) => !isTold(run)), marks: marks.sort((a, b) => compareText(a.id, b.id)) };
}

function isHub(wires: ReadonlyMap<string, readonly DiagramRun[]>, lug: string, other: string): boolean {
  const difference = wires.get(lug)!.length - wires.get(other)!.length;
  return difference === 0 ? compareText(lug, other) < 0 : difference > 0;
}
