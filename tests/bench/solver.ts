/** The solver measured: sweeps beside a general circuit solver, the state space, and cost by size. */
import {
  combinationLimit,
  controlEffects,
  createSolver,
  describeSound,
  enumerate,
  logarithmic,
  nets,
  positionTable,
  readAtJack,
  responseSummary,
  restingSetting,
  spiceDeck,
} from '../../language/electrics/index.js';
import { analysed, type AnalysedCircuit } from '../../language/circuit/model.js';
import { circuit, type CoilValues } from '../electrics/builder.js';
import { sweepReference } from '../electrics/general-solver.js';
import { median } from './timing.js';

/** One line of the report: what was done, how long it took in milliseconds, and a remark such as a ratio. */
export interface SolverRow {
  readonly what: string;
  readonly ms: number;
  readonly remark: string;
}

const points = 200;
const sizes = [10, 30, 100, 300, 1000] as const;

/** All measurements of the solver, the outside reference in the same run. */
export async function benchSolver(): Promise<readonly SolverRow[]> {
  const own = [...stateSpaces(), ...sizes.flatMap(bySize)];
  return [...(await sweeps()), ...own];
}

/** Two pickups, a toggle, two volumes and two tones: nineteen parts' worth of the commonest electric instrument. */
export function typicalCircuit(losses: CoilValues = { loss: 800e3 }): AnalysedCircuit {
  const b = circuit().toggle('toggle');
  for (const [name, side] of [
    ['bridge', 'A'],
    ['neck', 'B'],
  ] as const) {
    b.humbucker(name, { farad: 120e-12, ...losses })
      .pot(`${name}-volume`, { ohm: 500e3, taper: 'audio' })
      .pot(`${name}-tone`, { ohm: 500e3, taper: 'audio' });
    b.wire(`${name}.hot`, `${name}-volume.3`, `${name}-tone.2`).wire(`${name}-volume.2`, `toggle.${side}`);
    b.wire(`${name}.ground`, `${name}-volume.1`, 'output.sleeve').capacitor(
      `${name}-cap`,
      22e-9,
      `${name}-tone.1`,
      'output.sleeve',
    );
  }
  return b.wire('toggle.out', 'output.tip').build();
}

/** All that a pickup can lose, by coils that share a field. */
const fullLosses: CoilValues = {
  loss: 800e3,
  exponent: 0.94,
  eddy: { share: 0.25, ohm: 30e3 },
  shading: 0.4,
  coupling: 0.15,
};

async function sweeps(): Promise<readonly SolverRow[]> {
  const circuits = [
    { made: typicalCircuit(), remark: '' },
    { made: typicalCircuit(fullLosses), remark: ', core and cover losses, coupled coils' },
  ];
  const cases = circuits.flatMap(({ made, remark }) => sweepCases(made, remark));
  // Ours come first: once the other solver's memory has grown, every typed array of the process is a third slower to read.
  const rows: SolverRow[] = [];
  for (const { name, deck, sweep, whole, summary } of cases) {
    const reference = await referenceTime(deck);
    const times = (ms: number): string => `${(reference / ms).toFixed(0)} times faster`;
    rows.push(
      { what: `general solver, ${points} points, ${name}`, ms: reference, remark: 'deck read and swept, fastest run' },
      { what: `sweep of ${points} points, ${name}`, ms: sweep, remark: times(sweep) },
      { what: `nets, network and sweep, ${name}`, ms: whole, remark: times(whole) },
      { what: `peak, corner and level, ${name}`, ms: summary, remark: '' },
    );
  }
  return rows;
}

interface SweepCase {
  readonly name: string;
  readonly deck: string;
  readonly sweep: number;
  readonly whole: number;
  readonly summary: number;
}

/** The deck of a circuit with its pots at several rotations, and how long ours take. */
function sweepCases(made: AnalysedCircuit, remark: string): readonly SweepCase[] {
  return [10, 7, 3].map((rotation) => {
    const setting = { positions: [1], rotations: made.shafts.map(() => rotation) };
    const hz = logarithmic(20, 20_000, points);
    const solver = createSolver(made, nets(made, setting.positions), setting);
    return {
      name: `pots at ${rotation}${remark}`,
      deck: spiceDeck(made, setting, { perDecade: (points - 1) / 3 }),
      sweep: repeated(() => solver.sweep(hz)),
      whole: repeated(() => createSolver(made, nets(made, setting.positions), setting).sweep(hz)),
      summary: repeated(() => responseSummary(made, setting)),
    };
  });
}

/** The fastest of many bundles of runs: on a machine that others use as well, the middle tells more of them than of us. */
function repeated(work: () => unknown): number {
  const bundle = 20;
  let fastest = Infinity;
  for (let run = 0; run < 200; run++) {
    const began = performance.now();
    for (let i = 0; i < bundle; i++) work();
    fastest = Math.min(fastest, (performance.now() - began) / bundle);
  }
  return fastest;
}

/** The same for the other solver, which needs no bundles. */
async function referenceTime(deck: string): Promise<number> {
  let fastest = Infinity;
  for (let run = 0; run < 60; run++) {
    const began = performance.now();
    await sweepReference(deck, 'output_tip');
    fastest = Math.min(fastest, performance.now() - began);
  }
  return fastest;
}

function stateSpaces(): readonly SolverRow[] {
  const distinct = switchedCircuit(12, false);
  const phased = switchedCircuit(6, true);
  const row = (what: string, made: AnalysedCircuit): readonly SolverRow[] => {
    const { groups, settings } = enumerate(made);
    const copies = Array.from({ length: 6 }, () => analysed(made));
    return [
      {
        what: `${settings.length} combinations, ${what}: nets`,
        ms: median(5, (run) => copies[run]!, enumerate),
        remark: `${groups} different`,
      },
      {
        what: `${settings.length} combinations, ${what}: sound, hum, reading`,
        ms: median(5, () => analysed(made), namedPositions),
        remark: `limit ${combinationLimit}`,
      },
    ];
  };
  return [...row('twelve pickups switched on and off', distinct), ...row('six pickups with switch and phase', phased)];
}

/** The table with every sound named: how coils are joined is worked out where it is first asked for. */
function namedPositions(circuit: AnalysedCircuit): readonly string[] {
  return positionTable(circuit).rows.map(({ sound }) => sound.text);
}

/** Pickups in parallel, each with an on-off switch, and a phase switch where asked for. */
export function switchedCircuit(pickups: number, phase: boolean): AnalysedCircuit {
  const b = circuit().pot('volume').wire('volume.2', 'output.tip').wire('volume.1', 'output.sleeve');
  for (let i = 1; i <= pickups; i++) {
    b.single(`p${i}`, { ohm: 6000 + 100 * i })
      .switch(`on${i}`, { 1: ['A0 A1'], 2: ['A0 A2'] })
      .wire(`on${i}.A1`, 'volume.3');
    if (phase) {
      b.switch(`phase${i}`, { 1: ['A0 A1', 'B0 B1'], 2: ['A0 A2', 'B0 B2'] });
      b.wire(`p${i}.hot`, `phase${i}.A0`).wire(`p${i}.ground`, `phase${i}.B0`).wire(`phase${i}.A1`, `phase${i}.B2`, `on${i}.A0`);
      b.wire(`phase${i}.A2`, `phase${i}.B1`, 'output.sleeve');
    } else b.wire(`p${i}.hot`, `on${i}.A0`).wire(`p${i}.ground`, 'output.sleeve');
  }
  return b.build();
}

/** Independent volumes and tones into one master, four parts a pickup, up to eight of them switched. */
export function circuitOfSize(parts: number): AnalysedCircuit {
  const b = circuit().pot('master').wire('master.2', 'output.tip').wire('master.1', 'output.sleeve');
  const pickups = Math.max(1, Math.floor((parts - 2) / 4));
  for (let i = 1; i <= pickups; i++) {
    b.single(`p${i}`, { ohm: 6000 + i, farad: 110e-12 })
      .pot(`v${i}`, { taper: 'audio' })
      .pot(`t${i}`, { taper: 'audio' });
    b.capacitor(`c${i}`, 22e-9, `t${i}.1`, 'output.sleeve')
      .wire(`p${i}.ground`, `v${i}.1`, 'output.sleeve')
      .wire(`p${i}.hot`, `v${i}.2`, `t${i}.2`);
    if (i <= 8)
      b.switch(`s${i}`, { 1: ['A0 A1'], 2: ['A0 A2'] })
        .wire(`v${i}.3`, `s${i}.A0`)
        .wire(`s${i}.A1`, 'master.3');
    else b.wire(`v${i}.3`, 'master.3');
  }
  return b.build();
}

function bySize(parts: number): readonly SolverRow[] {
  const made = circuitOfSize(parts);
  const setting = restingSetting(made);
  const runs = parts > 100 ? 5 : 15;
  const fresh = (): AnalysedCircuit => analysed(made);
  const turned = { ...setting, rotations: setting.rotations.map(() => 7) };
  const timed = (what: string, work: (one: AnalysedCircuit) => unknown): SolverRow => ({
    what: `${parts} parts: ${what}`,
    ms: median(runs, fresh, work),
    remark: '',
  });
  return [
    timed('nets', (one) => nets(one, setting.positions)),
    timed('sound in one setting', (one) => describeSound(one, setting).text),
    timed('sound in one setting, pots at 7', (one) => describeSound(one, turned).text),
    timed('meter in one setting', (one) => readAtJack(one, setting)),
    timed('sweep of 200 points', (one) =>
      createSolver(one, nets(one, setting.positions), setting).sweep(logarithmic(20, 20_000, points)),
    ),
    timed('all positions', namedPositions),
    ...(parts <= 100 ? [timed('what the controls do', (one) => controlEffects(one))] : []),
  ];
}
