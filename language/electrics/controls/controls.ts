/** What each shaft does, found by turning it and solving. */
import {
  type AnalysedCircuit,
  derive,
  derivation,
  isBuiltIn,
  lugById,
  partById,
  shaftById,
  type Band,
  type Circuit,
  type Gain,
  type LugId,
  type PartId,
  type Shaft,
  type ShaftId,
  type Track,
} from '../../circuit/model.js';
import { levelsIn, type Levels } from './control-levels.js';
import { roleOf, type Role, type Travel } from './control-role.js';
import { enumerate } from '../settings/enumerate.js';
import type { ControlEffect, ControlRole, Nets, Setting } from '../model.js';
import { netsKey } from '../network/alike.js';
import { netOf, nets } from '../network/nets.js';
import { createNetwork } from '../network/network.js';
import { solveNetwork } from '../solver/solver.js';
import { createRotationSolver } from './rotation-solver.js';
import { getOrCreate } from '../../collections.js';
import { lazy } from '../../lazy.js';
import { finished, type Steps } from '../../steps.js';
import { listed } from '../../words.js';

/**
 * Of more different nets than this, so many are looked at: every position of every switch, then others spread evenly. A circuit with more
 * shafts than any instrument has looks at fewer, so that the whole stays at about 512 travels.
 */
const mostGroups = 32;
const fewestGroups = 8;
const travelsInAll = 512;
/** Two pickups that a volume silences are distinguished where their falls at mid rotation differ by this, in dB. */
const ownFall = 3;

/**
 * The effect of every shaft. Each is turned through its travel in every different position of the switches, the other shafts at rest and,
 * where one of them does not rest at 10, also at 10; where switches fold more than 32 different nets, 32 of them (fewer with very many shafts) are
 * looked at, and `actsIn` and `silences` speak of those. A volume falls to silence (−60 dB) at 0; a tone is darkest at 0, its bass within
 * 2 dB or a quarter of what the treble loses; a bass cut the other way about; a blend changes pickups against each other by 3 dB, a spread the coils of one pickup; what
 * is none of these, or is one thing here and another there, is mixed. `backwards` holds for volume and tone alone. `silences` lists,
 * per setting, pickups that a volume at its silent end takes along although it is not theirs: in another setting they go on, or
 * they fall later than its own.
 */
export function controlEffects(circuit: AnalysedCircuit): readonly ControlEffect[] {
  return circuit.shafts.map((shaft) => controlEffect(circuit, shaft.id));
}

/** The effect of one shaft, kept, so that a host can have them one by one and stay able to answer in between. */
export function controlEffect(circuit: AnalysedCircuit, shaft: ShaftId): ControlEffect {
  return finished(controlEffectSteps(circuit, shaft));
}

/** The same in steps of one solved rotation each. */
export function* controlEffectSteps(circuit: AnalysedCircuit, shaft: ShaftId): Steps<ControlEffect> {
  const { solving, groups, isWhole, soldered, effects } = derive(circuit, travels);
  const effect = effects.get(shaft) ?? (yield* effectOf(solving, shaftById(solving, shaft), { groups, isWhole, soldered }));
  effects.set(shaft, effect);
  return effect;
}

/** What turning any shaft starts from, and the effects found so far. */
interface Travels {
  /** The circuit that is solved: another has the same effects where all inputs are equal. */
  readonly solving: AnalysedCircuit;
  readonly groups: readonly Group[];
  /** False where there are more groups than these. */
  readonly isWhole: boolean;
  /** Lugs at which a joint ends that leads to another part. */
  readonly soldered: ReadonlySet<LugId>;
  readonly effects: Map<ShaftId, ControlEffect>;
}

const travels = derivation(['joints', 'contacts', 'elements', 'values', 'rests', 'output'], (circuit): Travels => ({
  solving: circuit,
  ...groupsOf(circuit),
  soldered: solderedLugs(circuit),
  effects: new Map(),
}));

/** Settings that fold the same nets, with what every shaft asks of them. */
interface Group {
  readonly settings: readonly Setting[];
  readonly folded: Nets;
  /** Levels with the shafts at rest and one of them turned. */
  readonly atRest: LevelsAt;
  /** The same with all others at 10. */
  readonly atTen: LevelsAt;
  /** The nets from which something can reach the output while no pot is at an end of its travel. */
  readonly live: () => ReadonlySet<number>;
  /** What shafts do here, where that has been solved. */
  readonly roles: Map<ShaftId, Role>;
}

/** Most changes of a wire leave most positions as they were. */
const rolesByNets = derivation(['elements', 'values', 'rests'], () => new Map<string, Map<ShaftId, Role>>());

/** Levels in one setting of the switches with the shaft at this rotation, all others as they are; with nothing turned where no shaft is named. */
type LevelsAt = (shaft?: ShaftId, rotation?: number) => Levels;

function createLevelsAt(circuit: AnalysedCircuit, folded: Nets, setting: Setting): LevelsAt {
  const solver = lazy(() => createRotationSolver(circuit, folded, setting));
  const still = lazy(() => solver()?.levels() ?? levelsIn(circuit, folded, setting));
  return (shaft, rotation) => {
    const { positions, rotations } = setting;
    circuit.analysis.work?.charge('level', circuit.elements.length);
    if (shaft === undefined || rotation === undefined || rotations[shaft] === rotation) return still();
    const turned = solver()?.canTurn(shaft) === true ? solver()?.levels(shaft, rotation) : undefined;
    return (
      turned ?? levelsIn(circuit, folded, { positions, rotations: rotations.map((at, id) => (id === shaft ? rotation : at)) })
    );
  };
}

function groupsOf(circuit: AnalysedCircuit): Pick<Travels, 'groups' | 'isWhole'> {
  const { settings, group, leftOut } = enumerate(circuit);
  const members = new Map<number, [Setting, ...Setting[]]>();
  for (const [i, setting] of settings.entries()) {
    const number = group[i] ?? -1;
    const own = members.get(number);
    if (own === undefined) members.set(number, [setting]);
    else own.push(setting);
  }
  const most = Math.max(fewestGroups, Math.min(mostGroups, Math.floor(travelsInAll / Math.max(1, circuit.shafts.length))));
  const groups = chosen([...members.values()], most).map((of) => createGroup(circuit, of));
  return { groups, isWhole: groups.length === members.size && leftOut.length === 0 };
}

function createGroup(circuit: AnalysedCircuit, settings: readonly [Setting, ...Setting[]]): Group {
  const [setting] = settings;
  const { positions } = setting;
  const folded = nets(circuit, positions);
  return {
    settings,
    folded,
    roles: getOrCreate(derive(circuit, rolesByNets), netsKey(circuit, folded), () => new Map<ShaftId, Role>()),
    atRest: createLevelsAt(circuit, folded, setting),
    atTen: createLevelsAt(circuit, folded, { positions, rotations: circuit.shafts.map(() => 10) }),
    live: lazy(() => {
      const network = createNetwork(circuit, folded, { positions, rotations: circuit.shafts.map(() => 4) });
      const { within, problem } = solveNetwork(network, false);
      const all = Array.from({ length: folded.count }, (_, net) => net);
      // Where nothing sounds half way, an end of some travel may still join what sounds.
      return new Set(problem === undefined ? all.filter((net) => within[network.nodeOf[net] ?? -1] === 1) : all);
    }),
  };
}

/** At most `most` groups that between them have every position of every switch, if so many are enough. */
function chosen<G extends readonly [Setting, ...Setting[]]>(groups: readonly G[], most: number): readonly G[] {
  if (groups.length <= most) return groups;
  const taken = new Set<number>();
  const seen = new Set<string>();
  const last = groups.length - 1;
  // The last group is furthest from the first, and between them most positions have been seen.
  for (const i of [0, last, ...groups.keys()]) {
    const places = (groups[i]?.[0].positions ?? []).map((at, device) => `${device} ${at}`);
    if (taken.size >= most || places.every((place) => seen.has(place))) continue;
    taken.add(i);
    for (const place of places) seen.add(place);
  }
  for (let at = 0; at <= last && taken.size < most; at += groups.length / most) taken.add(Math.floor(at));
  return groups.filter((_, i) => taken.has(i));
}

function* effectOf(
  circuit: AnalysedCircuit,
  shaft: Shaft,
  { groups, isWhole, soldered }: Pick<Travels, 'groups' | 'isWhole' | 'soldered'>,
): Steps<ControlEffect> {
  const none = { shaft: shaft.id, backwards: false, isWhole, actsIn: [], silences: [] };
  // A track is wired where a joint leads from one of its lugs to another, also inside an assembly.
  if (!turnedLugs(circuit, shaft).some((lug) => soldered.has(lug))) {
    const what = shaft.tracks.length === 0 ? 'the stage' : 'the track';
    return { ...none, role: 'unwired', says: `nothing is soldered to ${what} of ${shaft.name}` };
  }
  const found: { readonly group: Group; readonly role: Role }[] = [];
  for (const group of groups) found.push({ group, role: yield* roleInGroup(circuit, shaft, group) });
  const acting = found.filter(({ role }) => role.kind !== 'nothing');
  if (acting.length === 0)
    return { ...none, role: 'nothing', says: `${shaft.name} changes nothing in any position${isWhole ? '' : ' that was tried'}` };
  const bands = bandsOf(circuit, shaft);
  if (bands.length > 0)
    return {
      ...none,
      role: 'band',
      actsIn: acting.flatMap(({ group }) => group.settings),
      says: `${shaft.name} lifts and cuts ${listed(bands.map(({ kind, db }) => `${kind} by up to ${Math.abs(db)} dB`))}`,
    };
  const { role, backwards } = judge(
    circuit,
    shaft,
    acting.map((one) => one.role),
  );
  const silences = role === 'volume' ? takenAlong(circuit, found) : [];
  return {
    shaft: shaft.id,
    role,
    backwards,
    isWhole,
    actsIn: acting.flatMap(({ group }) => group.settings),
    says: sentence(
      circuit,
      shaft,
      role,
      backwards,
      acting.map((one) => one.role),
    ),
    silences,
  };
}

function solderedLugs(circuit: AnalysedCircuit): ReadonlySet<LugId> {
  circuit.analysis.work?.charge('rule', circuit.joints.length);
  const partOf = (lug: LugId): PartId => lugById(circuit, lug).part;
  const wires = circuit.joints.filter(
    (joint) => joint.a !== joint.b && (partOf(joint.a) !== partOf(joint.b) || !isBuiltIn(joint, partOf(joint.a))),
  );
  return new Set(wires.flatMap(({ a, b }) => [a, b]));
}

function* roleInGroup(circuit: AnalysedCircuit, shaft: Shaft, group: Group): Steps<Role> {
  const role = group.roles.get(shaft.id) ?? (yield* turnedInGroup(circuit, shaft, group));
  group.roles.set(shaft.id, role);
  return role;
}

/** The first way of standing the other shafts in which it acts at all: at rest, or at 10 where one of them rests elsewhere. */
function* turnedInGroup(circuit: AnalysedCircuit, shaft: Shaft, group: Group): Steps<Role> {
  group.live();
  yield;
  const touches = turnedLugs(circuit, shaft).some(
    (lug) => netOf(group.folded, lug) !== group.folded.ground && group.live().has(netOf(group.folded, lug)),
  );
  // Where its track hangs on nothing that sounds, one look tells what is heard, and nothing changes.
  if (!touches) return roleOf(circuit, [group.atRest(), group.atRest(), group.atRest()]);
  const role = roleOf(circuit, yield* travelIn(group.atRest, shaft));
  if (role.kind !== 'nothing') return role;
  const otherRests = circuit.shafts.some(({ id, rest }) => id !== shaft.id && rest !== 10);
  return otherRests ? roleOf(circuit, yield* travelIn(group.atTen, shaft)) : role;
}

function* travelIn(levels: LevelsAt, shaft: Shaft): Steps<Travel> {
  const low = levels(shaft.id, 0);
  yield;
  const middle = levels(shaft.id, 5);
  yield;
  const high = levels(shaft.id, 10);
  yield;
  return [low, middle, high];
}

/** Lugs of the tracks of a shaft, or of the stage whose bands it sets. */
function turnedLugs(circuit: Circuit, shaft: Shaft): readonly LugId[] {
  if (shaft.tracks.length === 0) return stagesOf(circuit, shaft).flatMap(({ a, b }) => [a, b]);
  return shaft.tracks.flatMap((id) => {
    const track = circuit.elements[id] as Track;
    return [track.a, track.b, track.wiper, ...(track.leavesTo === undefined ? [] : [track.leavesTo])];
  });
}

function stagesOf({ elements }: Circuit, shaft: Shaft): readonly Gain[] {
  return elements.filter(
    (element): element is Gain => element.kind === 'gain' && (element.bands ?? []).some((band) => isSetBy(band, shaft)),
  );
}

/** What the knob of a stage sets. */
function bandsOf(circuit: Circuit, shaft: Shaft): readonly KnobBand[] {
  return stagesOf(circuit, shaft).flatMap(({ bands = [] }) => bands.filter((band) => isSetBy(band, shaft)));
}

type KnobBand = Exclude<Band, { readonly kind: 'pole' }>;

function isSetBy(band: Band, { id }: Shaft): band is KnobBand {
  return band.kind !== 'pole' && band.shaft === id;
}

function judge(
  circuit: Circuit,
  shaft: Shaft,
  roles: readonly Role[],
): { readonly role: ControlRole; readonly backwards: boolean } {
  const kinds = new Set(roles.map(({ kind }) => kind));
  const ends = new Set(roles.map(({ silentAt }) => silentAt).filter((end) => end !== undefined));
  // A blend with one pickup switched off looks like a volume there; the setting with both says what it is.
  if (kinds.has('blend')) return { role: 'blend', backwards: false };
  if (kinds.has('spread')) return { role: 'spread', backwards: false };
  if ([...kinds].every((kind) => kind === 'volume' || kind === 'fade')) {
    if (ends.size > 1) return { role: 'mixed', backwards: false };
    const leaves = shaft.tracks.some((id) => (circuit.elements[id] as Track).leavesTo !== undefined);
    // A track that opens at 10 and lets one pickup go there is a blend pot used as it is meant to be.
    if (!kinds.has('volume') && ends.has(10) && leaves) return { role: 'blend', backwards: false };
    return { role: 'volume', backwards: ends.has(10) };
  }
  const [kind] = kinds;
  if (kinds.size === 1 && kind === 'tone')
    return { role: ends.size > 1 ? 'mixed' : 'tone', backwards: ends.size === 1 && ends.has(10) };
  if (kinds.size === 1 && kind === 'bass-cut') return { role: 'bass-cut', backwards: false };
  return { role: 'mixed', backwards: false };
}

/** Pickups that a volume silences in some setting although they are not its own. */
function takenAlong(
  circuit: Circuit,
  found: readonly { readonly group: Group; readonly role: Role }[],
): ControlEffect['silences'] {
  const goesOn = new Set<PartId>();
  for (const { role } of found) for (const part of role.heard) if (!role.silenced.has(part)) goesOn.add(part);
  // A pickup that it silences by itself somewhere is its own, though another circuit passes it by.
  for (const { role } of found) if (role.silenced.size === 1) for (const part of role.silenced.keys()) goesOn.delete(part);
  return found.flatMap(({ group, role }) => {
    const most = Math.max(...role.silenced.values());
    const others = [...role.silenced]
      .filter(([part, fall]) => goesOn.has(part) || fall < most - ownFall)
      .map(([part]) => partById(circuit, part).name);
    // Where every silenced pickup is another's, this volume is a master that some settings pass by, and takes nobody along.
    if (others.length === 0 || others.length === role.silenced.size) return [];
    others.sort();
    return group.settings.map((setting) => ({ setting, pickups: others }));
  });
}

function sentence(circuit: Circuit, shaft: Shaft, role: ControlRole, backwards: boolean, roles: readonly Role[]): string {
  const most = roles.reduce((a, b) => (b.change > a.change ? b : a));
  const amount = `${most.change.toFixed(0)} dB at ${most.hz < 1000 ? `${most.hz} Hz` : `${most.hz / 1000} kHz`}`;
  const pickups = (): string =>
    [...new Set(roles.flatMap(({ heard }) => [...heard]))]
      .map((part) => partById(circuit, part).name)
      .sort()
      .join(' and ');
  switch (role) {
    case 'volume':
      return backwards ? `${shaft.name} is a volume that is silent at 10` : `${shaft.name} is a volume: silent at 0`;
    case 'tone':
      return `${shaft.name} is a tone${backwards ? ' that is darkest at 10' : ': darkest at 0'}, up to ${amount}`;
    case 'bass-cut':
      return `${shaft.name} cuts bass, up to ${amount}`;
    case 'blend':
      return `${shaft.name} blends ${pickups()}`;
    case 'spread':
      return `${shaft.name} blends the coils of ${pickups()}`;
    default:
      return `${shaft.name} changes the sound by up to ${amount}, as a mix of volume, tone and blend`;
  }
}
