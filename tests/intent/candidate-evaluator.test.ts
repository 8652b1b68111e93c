/** What the search for repairs takes as heard: what `describeSound` says, and nothing else. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { factsOf } from '../../language/checks/index.js';
import { createSolver, describeSound, nets, restingSetting, soundWithoutArrangement } from '../../language/electrics/index.js';
import { createFolding } from '../../language/intent/repair/folding.js';
import { createCandidateEvaluator } from '../../language/intent/repair/candidate-evaluator.js';
import { circuitOf } from './harness.js';

/**
 * A pickup with a shorted second winding beside a soft one. Coupling carries a share of the shorted winding's strong voltage to the output; what
 * is heard is defined without it, so the soft pickup is one half of the loudest, and heard.
 */
const shortedWinding = `
type sensed : pickup {
  lugs hot ground a b
  coil sense from hot to ground { output 2%, resistance 5k, inductance 3H, coupling 90% }
  coil drive from a to b { output 100%, resistance 5k, inductance 3H, coupling 90% }
}
part p      : sensed
part soft   : single-coil 5k 3H { output 1% }
part output : jack
wire p.a to p.b
wire p.hot to soft.hot to output.tip
wire p.ground to soft.ground to output.sleeve
`;

test('a pickup that is heard is not missed for the coupling of another', () => {
  const circuit = circuitOf(shortedWinding);
  expect(circuit.problems.map(({ message }) => message)).toEqual([]);
  const names = (coils: Iterable<number>) => [...coils].map((id) => circuit.parts[id]?.name);
  const folding = createFolding(circuit);
  folding.classes([]);
  const screen = createCandidateEvaluator(circuit, factsOf(circuit));
  expect(names(screen.hear(folding, screen.read).heard)).toEqual(['p', 'soft']);
  expect(screen.measure(folding, folding.classes([]), screen.read).silence).toBe(0);
});

test('with coupling, the same circuit would hide the soft pickup behind more than twenty times its voltage', () => {
  const circuit = circuitOf(shortedWinding);
  const setting = restingSetting(circuit);
  const solver = createSolver(circuit, nets(circuit, setting.positions), setting);
  const { re, im } = solver.transfers(100);
  const volts = solver.coils.map((id, i) => {
    const coil = circuit.elements[id];
    return coil?.kind === 'coil' ? Math.hypot(re[i] ?? 0, im[i] ?? 0) * coil.output : 0;
  });
  expect(volts).toHaveLength(3);
  const [, drive = 0, soft = 0] = volts;
  expect(soft).toBeLessThan(drive / 20);
});

test('in every setting of the examples it is the same coils at the same levels', () => {
  const folder = new URL('../../examples/', import.meta.url);
  const files = readdirSync(folder).filter((name) => name.endsWith('.lug'));
  for (const name of files) {
    const circuit = circuitOf(readFileSync(new URL(name, folder), 'utf8'));
    for (const setting of factsOf(circuit).settings().slice(0, 8)) {
      const { silent, hum, heard } = describeSound(circuit, setting);
      expect(soundWithoutArrangement(circuit, setting), name).toMatchObject({ silent, hum, heard });
    }
  }
});
