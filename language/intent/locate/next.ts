/** The reading to take next: the one that parts the first suspects best. */
import { lugById, partById, type AnalysedCircuit, type Circuit, type LugId } from '../../circuit/model.js';
import {
  enumerate,
  jointClasses,
  restingSetting,
  settingLabel,
  withRotation,
  type MeterReading,
  type Setting,
} from '../../electrics/index.js';
import { ohmText } from '../../checks/index.js';
import { isWithin } from './readings.js';
import type { NextReading, Reading } from './model.js';
import type { Judged } from './suspects.js';

/** Suspects to be distinguished, at most, and settings tried at the jack. */
const mostCompared = 10;
const mostSettings = 16;
/** A reading inside means opening the instrument: it has to tell so much more, in bits. */
const opening = 0.25;

interface Candidate {
  readonly between?: readonly [LugId, LugId];
  readonly setting: Setting;
}

export function nextReading(
  circuit: AnalysedCircuit,
  judged: readonly Judged[],
  taken: readonly Reading[],
): NextReading | undefined {
  const most = judged[0]?.suspect.explains.length ?? 0;
  const compared = judged.filter(({ suspect }) => suspect.explains.length === most).slice(0, mostCompared);
  if (compared.length < 2) return undefined;
  let best: { readonly candidate: Candidate; readonly groups: readonly Group[]; readonly gain: number } | undefined;
  for (const candidate of candidatesFor(circuit, compared)) {
    if (taken.some((reading) => isTaken(reading, candidate))) continue;
    const groups = grouped(compared, candidate);
    const gain = informationOf(groups) - (candidate.between === undefined ? 0 : opening);
    if (groups.length > 1 && gain > (best?.gain ?? 0) + 1e-9) best = { candidate, groups, gain };
  }
  if (best === undefined) return undefined;
  const { candidate, groups } = best;
  const outcomes = groups.map(({ members, reads }) => ({ reads, suspects: members.map(({ suspect }) => suspect) }));
  return { ...candidate, line: lineOf(circuit, candidate), where: whereSaid(circuit, candidate), outcomes };
}

/** At the jack in every position and with each pot turned; inside, across what is suspected and from each net that it touches to ground. */
function candidatesFor(circuit: AnalysedCircuit, compared: readonly Judged[]): readonly Candidate[] {
  const { settings } = enumerate(circuit);
  const resting = restingSetting(circuit);
  const positions =
    settings.length > mostSettings ? settings.filter((_, i) => i % Math.ceil(settings.length / mostSettings) === 0) : settings;
  const turned = circuit.shafts.flatMap(({ id, rest }) =>
    [0, 5, 10].filter((at) => at !== rest).map((at) => withRotation(resting, id, at)),
  );
  const probes = new Map<string, readonly [LugId, LugId]>();
  const add = (a: LugId, b: LugId): void => {
    if (a !== b && isReachable(circuit, a) && isReachable(circuit, b)) probes.set([a, b].sort((x, y) => x - y).join(), [a, b]);
  };
  const sleeve = circuit.output?.sleeve;
  const { of } = jointClasses(circuit);
  for (const { suspect } of compared) {
    const { probes: own } = suspect.fault;
    if (own === undefined) continue;
    add(...own);
    for (const lug of own) if (sleeve !== undefined && of[lug] !== of[sleeve]) add(lug, sleeve);
  }
  return [
    ...positions.map((setting) => ({ setting })),
    ...turned.map((setting) => ({ setting })),
    ...[...probes.values()].flatMap((between) => positions.slice(0, 6).map((setting) => ({ between, setting }))),
  ];
}

/** A probe cannot be put on what is inside a part. */
function isReachable(circuit: Circuit, lug: LugId): boolean {
  const found = circuit.lugs[lug];
  return (
    found !== undefined &&
    found.inner !== true &&
    partById(circuit, found.part).parent === undefined &&
    partById(circuit, found.part).family !== 'screen'
  );
}

function isTaken({ measurement, settings }: Reading, { between, setting }: Candidate): boolean {
  const same =
    between === undefined
      ? measurement.between === undefined
      : measurement.between !== undefined && [...measurement.between].sort().join() === [...between].sort().join();
  const isAt = (other: Setting): boolean =>
    other.positions.join() === setting.positions.join() && other.rotations.join() === setting.rotations.join();
  return same && settings.some(isAt);
}

interface Group {
  readonly reads: string;
  readonly members: Judged[];
}

/** Suspects that a meter could not distinguish by this reading are one group. */
function grouped(compared: readonly Judged[], { between, setting }: Candidate): readonly Group[] {
  const groups: (Group & { readonly reading: MeterReading })[] = [];
  for (const judged of compared) {
    const reading = judged.observer.read(setting, between);
    const alike = groups.find((group) => isAlike(group.reading, reading));
    if (alike === undefined) groups.push({ reading, reads: describeOutcome(reading), members: [judged] });
    else alike.members.push(judged);
  }
  return groups;
}

function isAlike(one: MeterReading, other: MeterReading): boolean {
  if (one.unknown || other.unknown) return true;
  if (one.ohm === null || other.ohm === null) return one.ohm === other.ohm;
  return isWithin(one.ohm, other) || isWithin(other.ohm, one);
}

function describeOutcome({ ohm, unknown }: MeterReading): string {
  if (unknown) return 'a value that is not known yet';
  if (ohm === null) return 'open';
  return ohm < 2 ? 'short' : `about ${ohmText(ohm)}`;
}

/** Bits that the reading is expected to tell, suspects weighed by how common they are. */
function informationOf(groups: readonly Group[]): number {
  const weights = groups.map(({ members }) => members.reduce((sum, { suspect }) => sum + suspect.fault.weight, 0));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.reduce((bits, weight) => (weight > 0 ? bits - (weight / all) * Math.log2(weight / all) : bits), 0);
}

/** Where the probes go, in words; which is which does not matter to ohms. */
function whereSaid(circuit: Circuit, { between, setting }: Candidate): string {
  const label = (lug: LugId): string => lugById(circuit, lug).label;
  const controls = settingLabel(circuit, setting);
  const jack = circuit.output;
  const probes =
    between !== undefined
      ? `one probe on ${label(between[0])}, the other on ${label(between[1])}, nothing plugged in`
      : jack === undefined
        ? 'the probes at the jack'
        : `plug a lead in and put the probes on its tip and sleeve, or one on ${label(jack.tip)} and the other on ${label(jack.sleeve)}`;
  const pots = circuit.shafts.length === 0 ? '' : controls === '' ? 'all pots turned up' : 'all other pots turned up';
  return `${probes}; ${[controls, pots].filter(Boolean).join(', ')}`.replace(/; $/, '');
}

function lineOf(circuit: Circuit, { between, setting }: Candidate): string {
  const probes =
    between === undefined ? '' : `between ${lugById(circuit, between[0]).label} and ${lugById(circuit, between[1]).label}`;
  const words = ['measured', probes, settingLabel(circuit, setting)].filter(Boolean).join(' ');
  return `${words} : reads …`;
}
