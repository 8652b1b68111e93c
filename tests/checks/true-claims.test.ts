/** What findings claim is true of every position that they speak of: read from their claims, and solved for each position and rotation by itself. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FindingClaim } from '../../language/claim.js';
import { altered, elementById, type AnalysedCircuit, type Element, type LugId } from '../../language/circuit/model.js';
import {
  createSolver,
  describeSound,
  enumerate,
  heardAt,
  levelAt,
  netOf,
  nets,
  outputsOf,
  readAtJack,
  withPosition,
  withRotation,
  type Setting,
} from '../../language/electrics/index.js';
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

/** The circuit at each output, and the setting with a plug in that jack. */
function atOutputs(
  circuit: AnalysedCircuit,
  setting: Setting,
): readonly { readonly label: string; readonly heard: AnalysedCircuit; readonly plugged: Setting }[] {
  return outputsOf(circuit).map(({ tip }) => {
    const heard = heardAt(circuit, tip);
    const positions = heard.switches.map(({ id, rest }) => (isPlug(heard, id) ? rest! : setting.positions[id]!));
    return { label: circuit.lugs[tip]!.label, heard, plugged: { ...setting, positions } };
  });
}

/** Levels at every output, pots where they are and pots part way: what a change that is heard changes. */
function levels(circuit: AnalysedCircuit, setting: Setting): readonly number[] {
  return atOutputs(circuit, setting).flatMap(({ heard, plugged }) => {
    return [plugged, { ...plugged, rotations: setting.rotations.map(() => 4) }].flatMap((at) =>
      [100, 1000, 4000].map((hz) => Math.max(levelAt(heard, at, hz) ?? 0, -100)),
    );
  });
}

/** The switch of the jack at which the circuit is heard. */
function isPlug(circuit: AnalysedCircuit, id: number): boolean {
  const { part, rest } = circuit.switches[id]!;
  return part === circuit.output?.part && rest !== undefined;
}

/** Within a hundredth of a decibel. */
function areSame(one: readonly number[], other: readonly number[]): boolean {
  return one.length === other.length && one.every((value, i) => Math.abs(value - other[i]!) <= 0.01);
}

/** What each audible coil among these parts or coils delivers at 100 Hz, with the sign of the string's signal. */
function delivered(
  circuit: AnalysedCircuit,
  setting: Setting,
  names: readonly string[],
): readonly { name: string; volts: number }[] {
  const { coils, weights, transfers } = createSolver(circuit, nets(circuit, setting.positions), setting);
  const { re } = transfers(100);
  const volts = coils.map((_, i) => re[i]! * weights[i]!);
  const loudest = Math.max(...volts.map(Math.abs));
  return coils.flatMap((id, i) => {
    const { part, name } = elementById(circuit, id);
    const pickup = circuit.parts[part]!.name;
    const known = names.find((one) => one === pickup || one === `${pickup}.${name}`);
    return known === undefined || Math.abs(volts[i]!) < loudest / 20 ? [] : [{ name: known, volts: volts[i]! }];
  });
}

/** On one net, or with one resistor of a supply filter between them. */
function areFed(circuit: AnalysedCircuit, { positions }: Setting, a: LugId, b: LugId): boolean {
  const folded = nets(circuit, positions);
  const [one, other] = [netOf(folded, a), netOf(folded, b)];
  const isBetween = (element: Element): boolean => {
    const ends = [netOf(folded, element.a), netOf(folded, element.b)];
    return element.kind === 'resistor' && element.resistance.value <= 10_000 && ends.includes(one) && ends.includes(other);
  };
  return one === other || circuit.elements.some(isBetween);
}

function withValue(circuit: AnalysedCircuit, changed: Element, factor: number): AnalysedCircuit {
  const scaled = (element: Element): Element => {
    switch (element.kind) {
      case 'resistor':
        return { ...element, resistance: { ...element.resistance, value: element.resistance.value * factor } };
      case 'capacitor':
        return { ...element, capacitance: { ...element.capacitance, value: element.capacitance.value * factor } };
      case 'inductor':
        return { ...element, inductance: { ...element.inductance, value: element.inductance.value * factor } };
      default:
        throw new Error(`${element.name} is no resistor, capacitor or inductor`);
    }
  };
  return altered(circuit, { elements: circuit.elements.map((element) => (element === changed ? scaled(element) : element)) });
}

type Subjects = Readonly<Record<string, string & readonly string[]>>;

/** Less than half a decibel is no change that is heard (`noticeable` of the controls), and below −100 dB nothing is. */
function isStill({ circuit }: Judge, { subjects }: FindingClaim, setting: Setting): boolean {
  const { control } = subjects as unknown as Subjects;
  return [100, 1000, 4000].every((hz) => {
    const levels = rotations(circuit, control!, setting).map((turned) => levelAt(circuit, turned, hz) ?? 0);
    const most = Math.max(...levels);
    return most < -100 || most - Math.min(...levels) < 0.5;
  });
}

/** By rule: whether one setting that the claim speaks of agrees with it. */
const holds: Readonly<Record<string, (judge: Judge, claim: FindingClaim, setting: Setting) => boolean>> = {
  'silent-position'({ circuit, heard }, { subjects }, setting) {
    const output = subjects?.['output'];
    if (output === undefined) return heard(setting).size === 0;
    return atOutputs(circuit, setting).some((at) => at.label === output && namesHeard(at.heard, at.plugged).size === 0);
  },
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
  'idle-control': isStill,
  'one-sided-control': isStill,
  // At one of the outputs: what is silenced at the ring may never be heard at the tip.
  'silenced-pickup'({ circuit }, claim, setting) {
    const { volumes } = claim.subjects as unknown as { volumes: readonly { volume: string; silences: readonly string[] }[] };
    return volumes.every(({ volume, silences }) => {
      const { id } = circuit.shafts.find(({ name }) => name === volume)!;
      const namesAt = (rotation: number) =>
        atOutputs(circuit, withRotation(setting, id, rotation)).map((at) => namesHeard(at.heard, at.plugged));
      const [up, down] = [namesAt(10), namesAt(0)];
      return silences.every((name) => up.some((names, output) => names.has(name) && !down[output]!.has(name)));
    });
  },
  'no-supply'({ circuit }, { kind, subjects }, setting) {
    const { stage, free = [] } = subjects as unknown as { stage: string; free?: readonly string[] };
    const lugOf = (label: string): LugId => circuit.lugs.find((lug) => lug.label === label)!.id;
    if (kind === 'unsoldered')
      return free
        .map(lugOf)
        .every((lug) => circuit.joints.every(({ kind: how, a, b }) => how === 'inside' || (a !== lug && b !== lug)));
    const amplifiers = circuit.elements.flatMap((element) =>
      element.kind === 'gain' && circuit.parts[element.part]!.name === stage ? [element] : [],
    );
    const batteries = circuit.elements.filter((element) => element.kind === 'battery');
    const isOn = (a: LugId, b: LugId): boolean => areFed(circuit, setting, a, b);
    const folded = nets(circuit, setting.positions);
    const areJoined = amplifiers.some(({ plus, minus }) => netOf(folded, plus) === netOf(folded, minus));
    if (areJoined || kind === 'joined') return areJoined && kind !== 'reversed';
    return amplifiers.some(({ plus, minus }) =>
      kind === 'reversed'
        ? batteries.some(({ a }) => isOn(a, minus)) && batteries.some(({ b }) => isOn(b, plus))
        : batteries.every(({ a, b }) => !isOn(a, plus) || !isOn(b, minus)),
    );
  },
  'reversed-connector'({ circuit, heard }, { kind, subjects }, setting) {
    const { connector, position, stages } = subjects as unknown as Subjects;
    const device = circuit.switches.find(({ name }) => name === connector)!;
    const index = device.positions.findIndex(({ label }) => label === position);
    const turned = withPosition(setting, device.id, index);
    if (kind === 'silent') return heard(setting).size > 0 && heard(turned).size === 0;
    const folded = nets(circuit, turned.positions);
    const isOn = (one: LugId, other: LugId): boolean => netOf(folded, one) === netOf(folded, other);
    const cells = circuit.elements.flatMap((element) => (element.kind === 'battery' ? [element] : []));
    return circuit.elements
      .flatMap((element) => (element.kind === 'gain' ? [element] : []))
      .filter(({ part }) => [...stages!].includes(circuit.parts[part]!.name))
      .some(({ plus, minus }) => cells.some(({ a, b }) => isOn(a, minus) && isOn(b, plus)));
  },
  'idle-part'({ circuit }, { kind, subjects }, setting) {
    const { part } = subjects as unknown as Subjects;
    const elements = circuit.elements.filter((element) => circuit.parts[element.part]!.name === part);
    const folded = nets(circuit, setting.positions);
    if (kind === 'shorted' && !elements.some(({ a, b }) => netOf(folded, a) === netOf(folded, b))) return false;
    const asIs = levels(circuit, setting);
    return elements.some((element) =>
      [1e-3, 1e3].every((factor) => areSame(asIs, levels(withValue(circuit, element, factor), setting))),
    );
  },
  'idle-switch'({ circuit }, { subjects }, setting) {
    const device = circuit.switches.find(({ name }) => name === (subjects as unknown as Subjects)['switch'])!;
    const asIs = levels(circuit, setting);
    return device.positions.every((_, index) => areSame(asIs, levels(circuit, withPosition(setting, device.id, index))));
  },
  'twin-positions'({ circuit }, { subjects, settings }, setting) {
    const device = circuit.switches.find(({ name }) => name === (subjects as unknown as Subjects)['switch'])!;
    const pairs = settings!
      .flat()
      .map(({ at }) => at.map(({ position }) => device.positions.findIndex(({ key }) => key === position)));
    return pairs
      .filter((pair) => pair.includes(setting.positions[device.id]!))
      .every((pair) => {
        const both = pair.map((index) => withPosition(setting, device.id, index));
        const [one, other] = both.map((at) => levels(circuit, at));
        const [sound, otherSound] = both.map((at) => describeSound(circuit, at).text);
        const [ohm, otherOhm] = both.map((at) => readAtJack(circuit, at).ohm ?? -1);
        return (
          both.length === 2 &&
          areSame(one!, other!) &&
          sound === otherSound &&
          Math.abs(ohm! - otherOhm!) <= 0.01 * Math.abs(ohm!)
        );
      });
  },
  'out-of-phase'({ circuit }, { kind, subjects }, setting) {
    const { coils, others = coils } = subjects as unknown as { coils: readonly string[]; others?: readonly string[] };
    return atOutputs(circuit, setting).some(({ heard, plugged }) => {
      const [one, other] = [delivered(heard, plugged, coils), delivered(heard, plugged, others)];
      const crossed = one.flatMap((a) => other.filter((b) => a.name !== b.name).map((b) => a.volts * b.volts < 0));
      // Of two camps of several coils each the sentence does not say which is in which.
      return kind === 'odd-one' || coils.length === 2 ? crossed.length > 0 && !crossed.includes(false) : crossed.includes(true);
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

test('of each rule there are claims among them', () => {
  const found = new Set(texts.flatMap((text) => check(circuitOf(text)).map(({ rule }) => rule)));
  expect(Object.keys(holds).filter((rule) => !found.has(rule))).toEqual([]);
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
