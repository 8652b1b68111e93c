/** What the examples claim of the response, against a general circuit solver: peak, cut-off and level of every setting that a line speaks of. */
import { describe, expect, it } from 'vitest';
import type { AnalysedCircuit, Claim } from '../../language/circuit/model.js';
import { heardAt, netNames, nets, settingsMatching, spiceDeck, type Setting } from '../../language/electrics/index.js';
import { sweepReference } from '../electrics/general-solver.js';
import { createBench, exampleNames, examplesUri } from './harness.js';

const bench = createBench();
const circuits = exampleNames('')
  .map((name) => ({ name, circuit: bench.circuit(examplesUri + name) }))
  .filter(({ circuit }) => circuit.expectations.some(({ claims }) => claims.some(isAboutResponse)));

type ResponseClaim = Extract<Claim, { kind: 'peak' | 'cutoff' | 'level' }>;

it('there are many such claims', () => {
  expect(circuits.length).toBeGreaterThan(15);
});

describe.each(circuits)('$name', ({ circuit }) => {
  const lines = circuit.expectations.filter(({ claims }) => claims.some(isAboutResponse));

  it('claims what the general solver finds', { timeout: 120_000 }, async () => {
    for (const { at, settings, claims } of lines) {
      const heard = heardAt(circuit, at);
      for (const setting of settingsMatching(heard, settings)) {
        const sweep = await sweepOf(heard, setting);
        for (const claim of claims.filter(isAboutResponse)) hold(claim, sweep, JSON.stringify(setting));
      }
    }
  });
});

function isAboutResponse(claim: Claim): claim is ResponseClaim {
  return claim.kind === 'peak' || claim.kind === 'cutoff' || claim.kind === 'level';
}

interface Point {
  readonly hz: number;
  readonly db: number;
}

async function sweepOf(circuit: AnalysedCircuit, setting: Setting): Promise<readonly Point[]> {
  const folded = nets(circuit, setting.positions);
  const deck = spiceDeck(circuit, setting, { perDecade: 400 }).replace(/^\.ac .*$/m, '.ac dec 400 1 20000');
  const points = await sweepReference(deck, netNames(circuit, folded)[folded.tip]!);
  return points.map(({ hz, re, im }) => ({ hz, db: 20 * Math.log10(Math.hypot(re, im)) }));
}

/** The figure of the sweep lies within what the claim itself allows. */
function hold(claim: ResponseClaim, sweep: readonly Point[], name: string): void {
  const low = medianOf(sweep.filter((point) => point.hz >= 80 && point.hz <= 1300).map(({ db }) => db));
  if (claim.kind === 'level') {
    const db = claim.hz === undefined ? low : levelIn(sweep, claim.hz);
    expect(Math.abs(db - claim.db), `${name}: ${db} dB, claimed ${claim.db}`).toBeLessThanOrEqual(claim.within ?? 1);
    return;
  }
  const hz = claim.kind === 'peak' ? highest(sweep) : cornerOf(sweep, low - 10 * Math.log10(2));
  expect(Math.abs(hz / claim.hz - 1), `${name}: ${hz} Hz, claimed ${claim.hz}`).toBeLessThanOrEqual(claim.within ?? 0.05);
}

/** As the reference defines the level: the median from 80 Hz to 1.3 kHz, of points that are evenly spaced on a logarithmic axis. */
function medianOf(levels: readonly number[]): number {
  return [...levels].sort((a, b) => a - b)[Math.floor(levels.length / 2)]!;
}

function highest(sweep: readonly Point[]): number {
  return sweep.reduce((best, point) => (point.db > best.db ? point : best)).hz;
}

/** From above, the first crossing of a level, straight between two points on logarithmic axes. */
function cornerOf(sweep: readonly Point[], db: number): number {
  for (let i = sweep.length - 1; i > 0; i--) {
    const [a, b] = [sweep[i - 1]!, sweep[i]!];
    if (a.db >= db && b.db < db) return a.hz * (b.hz / a.hz) ** ((a.db - db) / (a.db - b.db));
  }
  return NaN;
}

function levelIn(sweep: readonly Point[], hz: number): number {
  const i = sweep.findIndex((point) => point.hz >= hz * (1 - 1e-9));
  const [a, b] = [sweep[i - 1], sweep[i]!];
  if (a === undefined) return b.db;
  return a.db + ((b.db - a.db) * Math.log(hz / a.hz)) / Math.log(b.hz / a.hz);
}
