/** The wires of each example written as a table and imported: the same lugs are joined, by wires that look the same. */
import { expect, test } from 'vitest';
import type { AnalysedCircuit, Joint, Part } from '../../language/circuit/index.js';
import { createProject } from '../../language/project.js';
import { circuitOfTable } from '../../language/table/index.js';
import { filesUnder, read } from '../harness/checkout.js';

const uri = 'file:///bench/';
const project = createProject({
  read: (asked) => (asked.startsWith(`${uri}examples/`) ? read(asked.slice(uri.length)) : undefined),
});

/** No table can say what a part of the workshop's own type is: wires on such a part are left out. */
const isStandard = ({ ancestry, type }: Part): boolean => ancestry[0] === type || type === 'cavity';

interface Run {
  readonly from: string;
  readonly to: string;
  readonly joint: Joint;
}

/** The runs of the wires and the joints of two lugs, as a table has them. */
function runsOf({ joints, lugs, parts }: AnalysedCircuit): Run[] {
  return joints.flatMap((joint) => {
    const [a, b] = [lugs[joint.a]!, lugs[joint.b]!];
    const isOurs = [a, b].every(({ part }) => isStandard(parts[part]!));
    return isOurs && (joint.kind === 'wire' || joint.kind === 'solder') ? [{ from: a.label, to: b.label, joint }] : [];
  });
}

/** Which lugs are joined, in an order that depends on nothing else. */
function netsOf(runs: readonly Run[]): string[] {
  const nets = new Map<string, Set<string>>();
  for (const { from, to } of runs) {
    const both = new Set([...(nets.get(from) ?? [from]), ...(nets.get(to) ?? [to])]);
    for (const lug of both) nets.set(lug, both);
  }
  return [...new Set(nets.values())].map((lugs) => [...lugs].sort().join(' ')).sort();
}

const looksOf = (runs: readonly Run[]): string[] =>
  runs.map(({ from, to, joint: { colour, gauge, length } }) => `${from} ${to} ${colour} ${gauge} ${length?.toFixed(6)}`).sort();

function tableOf(runs: readonly Run[], separator: string): string {
  const rows = runs.map(({ from, to, joint: { colour = '', gauge, length } }) => [
    ...[from, to, colour, gauge === undefined ? '' : `${gauge}awg`],
    length === undefined ? '' : String(length * 1000).replace('.', separator === ';' ? ',' : '.'),
  ]);
  return [['From', 'To', 'Colour', 'AWG', 'Length (mm)'], ...rows].map((row) => row.join(separator)).join('\r\n');
}

const circuits = filesUnder('examples')
  .filter((path) => /^examples\/[^/]+\.lug$/.test(path))
  .map((path) => ({ path, circuit: project.circuit(uri + path)! }))
  .filter(({ path, circuit }) => !circuit.isLibrary && circuit.record === undefined && !path.includes('house-'));

test('there are examples to try', () => {
  expect(circuits.length).toBeGreaterThan(20);
});

test.each(circuits)('$path', ({ circuit }) => {
  const runs = runsOf(circuit);
  expect(runs.length).toBeGreaterThan(5);
  for (const separator of [',', ';', '\t']) {
    const made = circuitOfTable(tableOf(runs, separator), { name: 'wires.csv', title: 'wires' });
    if ('problem' in made) throw new Error(JSON.stringify(made.problem));
    expect(made.problems).toEqual([]);
    const again = createProject({ read: () => made.text }).circuit('file:///bench/wires.lug')!;
    expect(again.problems).toEqual([]);
    expect(netsOf(runsOf(again))).toEqual(netsOf(runs));
    expect(looksOf(runsOf(again))).toEqual(looksOf(runs));
  }
});
