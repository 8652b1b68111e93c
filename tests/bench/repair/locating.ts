/** Bench faults located from readings: at the jack alone, then with the readings that are asked for. */
import type { Table } from '../../../server/command/output/table.js';
import { locate, type Suspect } from '../../../language/intent/index.js';
import { asBuilt, benchFaults, jackLines, readingLine, type BenchFault } from './bench-faults.js';
import { behaviourOf } from './behaviour.js';
import { projectOf, type Example } from './files.js';
import { createRandom } from '../../harness/random.js';
import { percent } from './tally.js';

export interface LocateOutcome {
  readonly example: string;
  readonly fault: BenchFault;
  /** True where no reading at the jack differs from those of the correct circuit by more than parts and meter allow. */
  readonly isUnseen: boolean;
  /** Place of the fault, or of one with the same nets, among the suspects after 0, 1, 2 … further readings; 0 where it is not there. */
  readonly places: readonly number[];
  /** Suspects that explain as much as the first one, after the readings at the jack. */
  readonly alike: number;
  readonly ms: number;
}

/** Further readings that are followed. */
const further = 4;

export function tryLocating(example: Example, share: number, seed: number): readonly LocateOutcome[] {
  const random = createRandom(example.name, seed);
  const built = asBuilt(example.circuit, random);
  return benchFaults(built)
    .filter(() => random() < share)
    .map((fault) => outcomeOf(example, fault));
}

/** Faults that a reading at the jack tells of, and how many of them any ranking by those readings alone could put first, and among the first three. */
export interface Bound {
  readonly seen: number;
  readonly first: number;
  readonly firstThree: number;
}

/**
 * Faults after which every reading at the jack is the same can’t be checked apart there: whichever stands first is right for itself alone. All faults of
 * the example count alike.
 */
export function boundOf(example: Example, seed: number): Bound {
  const built = asBuilt(example.circuit, createRandom(example.name, seed));
  const whole = jackLines(built).join('\n');
  const alike = new Map<string, Map<string, number>>();
  for (const fault of benchFaults(built)) {
    const lines = jackLines(fault.circuit).join('\n');
    if (lines === whole) continue;
    const key = fault.kind.startsWith('winding') ? `${fault.kind} ${fault.says}` : netsOf(fault.circuit);
    const group = alike.get(lines) ?? alike.set(lines, new Map<string, number>()).get(lines)!;
    group.set(key, (group.get(key) ?? 0) + 1);
  }
  const sizes = [...alike.values()].map((group) => [...group.values()].sort((a, b) => b - a));
  const sum = (most: number): number => sizes.flatMap((group) => group.slice(0, most)).reduce((all, size) => all + size, 0);
  return { seen: sum(Infinity), first: sum(1), firstThree: sum(3) };
}

function outcomeOf(example: Example, fault: BenchFault): LocateOutcome {
  const key = netsOf(fault.circuit);
  const own = example.texts.get(example.uri)!;
  const lines = [...jackLines(fault.circuit)];
  const places: number[] = [];
  let [alike, ms, isUnseen] = [0, 0, false];
  for (let step = 0; step <= further; step++) {
    const texts = new Map(example.texts).set(example.uri, `${own}\n${lines.join('\n')}\n`);
    const circuit = projectOf(texts).circuit(example.uri)!;
    const began = process.cpuUsage();
    const located = locate(circuit);
    const { user, system } = process.cpuUsage(began);
    if (step === 0) {
      ms = (user + system) / 1000;
      isUnseen = located.suspects.length === 0;
      const most = located.suspects[0]?.explains.length ?? 0;
      alike = located.suspects.filter(({ explains }) => explains.length === most).length;
    }
    places.push(placeOf(located.suspects, fault, key));
    if (located.next === undefined) break;
    lines.push(readingLine(fault.circuit, located.next.setting, located.next.between));
  }
  return { example: example.name, fault, isUnseen, places, alike, ms };
}

/** The place of a suspect with the same nets and, for a winding that is shorted in part, of the same winding. */
function placeOf(suspects: readonly Suspect[], fault: BenchFault, key: string): number {
  return (
    1 +
    suspects.findIndex(({ fault: suspect }) => {
      if (fault.kind === 'winding shorted in part')
        return suspect.kind === 'partly shorted coil' && fault.says.startsWith(suspect.where.split('.')[0]!);
      if (fault.kind === 'winding open')
        return suspect.kind === 'broken coil' && fault.says.startsWith(suspect.where.split('.')[0]!);
      return netsOf(suspect.circuit) === key;
    })
  );
}

const known = new WeakMap<object, string>();

function netsOf(circuit: BenchFault['circuit']): string {
  const before = known.get(circuit);
  if (before !== undefined) return before;
  const { nets, metal } = behaviourOf(circuit);
  known.set(circuit, `${nets}|${metal}`);
  return `${nets}|${metal}`;
}

export function locateTable(outcomes: readonly LocateOutcome[]): Table {
  const kinds = [...new Set(outcomes.map(({ fault }) => fault.kind))];
  return {
    heads: [
      'fault',
      'cases',
      'no sign',
      'first',
      'first three',
      'told',
      'alike',
      ...Array.from({ length: further }, (_, i) => `first, ${i + 1} more`),
    ],
    rows: [
      ...kinds.map((kind) =>
        row(
          kind,
          outcomes.filter(({ fault }) => fault.kind === kind),
        ),
      ),
      row('all', outcomes),
    ],
  };
}

function row(name: string, outcomes: readonly LocateOutcome[]): string[] {
  const seen = outcomes.filter(({ isUnseen }) => !isUnseen);
  const share = (isSo: (one: LocateOutcome) => boolean): string => percent(seen.filter(isSo).length, seen.length);
  const placeAfter = ({ places }: LocateOutcome, step: number): number => places[Math.min(step, places.length - 1)]!;
  return [
    name,
    String(outcomes.length),
    String(outcomes.length - seen.length),
    share(({ places }) => places[0] === 1),
    share(({ places }) => places[0]! >= 1 && places[0]! <= 3),
    share(({ places }) => places[0]! >= 1),
    (seen.reduce((sum, { alike }) => sum + alike, 0) / Math.max(1, seen.length)).toFixed(1),
    ...Array.from({ length: further }, (_, i) => share((one) => placeAfter(one, i + 1) === 1)),
  ];
}
