/** What findings claim is true of every position that they speak of: read from their claims, and solved for each position and rotation by itself. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FindingClaim } from '../../language/claim.js';
import { altered, elementById, type AnalysedCircuit } from '../../language/circuit/model.js';
import { describeSound, enumerate, levelAt, withPosition, withRotation, type Setting } from '../../language/electrics/index.js';
import { check } from '../../language/checks/index.js';
import { readCases } from './cases.js';
import { circuitOf, textsIn } from './harness.js';

const texts = [
  ...textsIn('correct', '.lug').map(([, text]) => text),
  ...textsIn('cases', '.txt').flatMap(([, text]) => readCases(text).map(({ circuit }) => circuit)),
];

/** Circuits with more combinations than this are left out: each is solved. */
const mostSolved = 2000;

interface Judge {
  readonly circuit: AnalysedCircuit;
  /** Every combination of the switches that do not rest, none left out. */
  readonly all: readonly Setting[];
  heard(setting: Setting): ReadonlySet<string>;
}

/** Names of pickups, and of coils as claims name them. */
function judgeOf(circuit: AnalysedCircuit): Judge {
  const kept = new Map<string, ReadonlySet<string>>();
  return {
    circuit,
    all: enumerate(circuit, { limit: mostSolved }).settings,
    heard(setting) {
      const key = [...setting.positions, ...setting.rotations].join();
      const names = kept.get(key) ?? namesHeard(circuit, setting);
      kept.set(key, names);
      return names;
    },
  };
}

function namesHeard(circuit: AnalysedCircuit, setting: Setting): ReadonlySet<string> {
  return new Set(
    describeSound(circuit, setting).heard.flatMap(({ coil }) => {
      const { part, name } = elementById(circuit, coil);
      const pickup = circuit.parts[part]!.name;
      return [pickup, `${pickup}.${name}`];
    }),
  );
}

/** Settings that a claim speaks of: those that fit one of its places; all where it names none. */
function meant({ circuit, all }: Judge, { settings }: FindingClaim): readonly Setting[] {
  if (settings === undefined || settings.length === 0) return all;
  return all.filter(({ positions }) =>
    settings.some((controls) =>
      controls.every(({ control, at }) => {
        const device = circuit.switches.find(({ name }) => name === control);
        return device === undefined || at.some(({ position }) => device.positions[positions[device.id]!]?.key === position);
      }),
    ),
  );
}

function rotations(circuit: AnalysedCircuit, control: string, setting: Setting): readonly Setting[] {
  const shaft = circuit.shafts.find(({ name }) => name === control)!;
  return [0, 2.5, 5, 7.5, 10].map((at) => withRotation(setting, shaft.id, at));
}

type Subjects = Readonly<Record<string, string & readonly string[]>>;

/** By rule: whether one setting that the claim speaks of agrees with it. */
const holds: Readonly<Record<string, (judge: Judge, claim: FindingClaim, setting: Setting) => boolean>> = {
  'silent-position': ({ heard }, _, setting) => heard(setting).size === 0,
  'silent-combination': ({ heard }, _, setting) => heard(setting).size === 0,
  'silent-at-rest': ({ heard }, _, setting) => heard(setting).size === 0,
  'never-heard'({ heard }, claim, setting) {
    const { pickup, pickups = [pickup!] } = claim.subjects as unknown as Subjects;
    return [...pickups].every((name) => !heard(setting).has(name));
  },
  'silent-coil': ({ heard }, claim, setting) => !heard(setting).has((claim.subjects as unknown as Subjects)['coil']!),
  'hanging-coil': ({ heard }, claim, setting) => !heard(setting).has((claim.subjects as unknown as Subjects)['coil']!),
  'lead-on-common'({ circuit, heard }, claim, setting) {
    const { lead, common } = claim.subjects as unknown as Subjects;
    const partOf = (label: string): number => circuit.lugs.find((lug) => lug.label === label)!.part;
    const pickup = circuit.parts[partOf(lead!)]!.name;
    const device = circuit.switches.find(({ part }) => part === partOf(common!))!;
    const on = device.positions.map((_, index) => heard(withPosition(setting, device.id, index)).has(pickup));
    return new Set(on).size === 1;
  },
  'loud-kill'({ circuit, heard }, claim, setting) {
    const device = circuit.switches.find(({ name }) => name === (claim.subjects as unknown as Subjects)['switch'])!;
    return (
      new Set(device.positions.map((_, index) => [...heard(withPosition(setting, device.id, index))].sort().join())).size === 1
    );
  },
  'idle-control'({ circuit }, claim, setting) {
    const { control } = claim.subjects as unknown as Subjects;
    return [100, 1000, 4000].every((hz) => {
      const levels = rotations(circuit, control!, setting).map((turned) => levelAt(circuit, turned, hz) ?? 0);
      const most = Math.max(...levels);
      // Less than half a decibel is no change that is heard (`noticeable` of the controls), and below −100 dB nothing is.
      return most < -100 || most - Math.min(...levels) < 0.5;
    });
  },
  'silenced-pickup'({ circuit, heard }, claim, setting) {
    const { volumes } = claim.subjects as unknown as { volumes: readonly { volume: string; silences: readonly string[] }[] };
    return volumes.every(({ volume, silences }) => {
      const { id } = circuit.shafts.find(({ name }) => name === volume)!;
      const [up, down] = [heard(withRotation(setting, id, 10)), heard(withRotation(setting, id, 0))];
      return silences.every((name) => up.has(name) && !down.has(name));
    });
  },
  'odd-volume'({ circuit, heard }, claim, setting) {
    if (claim.kind !== 'off-ground' || heard(setting).size === 0) return true;
    const { control } = claim.subjects as unknown as Subjects;
    return rotations(circuit, control!, setting).every((turned) => heard(turned).size > 0);
  },
};

function contradictions(circuit: AnalysedCircuit): readonly string[] {
  const found = check(circuit).filter(({ rule }) => rule in holds);
  if (found.length === 0 || enumerate(circuit, { limit: mostSolved }).leftOut.length > 0) return [];
  const judge = judgeOf(circuit);
  return found.flatMap(({ rule, claim, message }) => {
    const places = meant(judge, claim);
    const wrong = places.filter((setting) => !holds[rule]!(judge, claim, setting));
    // A claim of which only so many settings were tried must say so, and hold in that many.
    const isTrue = claim.tried === undefined ? wrong.length === 0 : places.length - wrong.length >= claim.tried;
    return isTrue ? [] : [`${rule}: ${message} (not in ${wrong.length} of ${places.length})`];
  });
}

test('in the circuits of the cases', () => {
  expect(texts.flatMap((text) => contradictions(circuitOf(text)))).toEqual([]);
});

test('in circuits with one or two joints moved', () => {
  const moved = fc.tuple(
    fc.constantFrom(...texts),
    fc.array(fc.tuple(fc.nat(), fc.nat(), fc.boolean()), { minLength: 1, maxLength: 2 }),
  );
  fc.assert(
    fc.property(moved, ([text, moves]) => {
      const circuit = circuitOf(text);
      const joints = [...circuit.joints];
      if (joints.length === 0) return;
      for (const [which, lug, atA] of moves) {
        const at = which % joints.length;
        joints[at] = { ...joints[at]!, [atA ? 'a' : 'b']: lug % circuit.lugs.length };
      }
      expect(contradictions(altered(circuit, { joints }))).toEqual([]);
    }),
    { seed: 20251129, numRuns: 150 },
  );
});

describe('where not all positions are tried', () => {
  /** Blocks of a pickup, a switch of its own and a volume, mixed on one net; with 13 of them there are 8,192 combinations, of which 4,096 at most are tried. */
  const blocks = (count: number, block: (n: number) => readonly string[]): string =>
    [
      'part saddle : bridge-ground',
      'part output : jack',
      'wire saddle to output.sleeve',
      ...Array.from({ length: count }, (_, n) => block(n)).flat(),
    ].join('\n');
  const common = (n: number): readonly string[] => [
    `part p${n} : single-coil 6.8k 2.8H 115pF`,
    `part s${n} : spst`,
    `part v${n} : pot 250k audio`,
    `wire p${n}.ground to output.sleeve`,
    `wire s${n}.frame to v${n}.case to output.sleeve`,
  ];

  test('no pot of ten identical blocks is idle', () => {
    const text = blocks(13, (n) => [
      ...common(n),
      `wire p${n}.hot to s${n}.A0`,
      `wire s${n}.A1 to v${n}.2`,
      `wire v${n}.3 to output.tip`,
      `wire v${n}.1 to v${n}.case`,
    ]);
    const circuit = circuitOf(text);
    expect(check(circuit).filter(({ rule }) => rule === 'idle-control')).toEqual([]);
    expect(check(circuit).map(({ rule }) => rule)).toContain('untried-positions');
  });

  test('a pot whose lugs leave it idle is one, in the positions that were tried', () => {
    const text = blocks(13, (n) => [
      ...common(n),
      `wire p${n}.hot to s${n}.A0`,
      `wire s${n}.A1 to v${n}.3 to output.tip`,
      `wire v${n}.1 to v${n}.case`,
    ]);
    const [idle] = check(circuitOf(text)).filter(({ rule }) => rule === 'idle-control');
    expect(idle?.claim.tried).toBeGreaterThan(0);
    expect(idle?.message).toMatch(
      /^v0 does nothing in any of the [\d,]+ positions that were tried: nothing is soldered to v0\.2$/,
    );
  });
});
