/** What each shaft does, found by turning it and solving. */
import type { Circuit, PartId, Shaft, Track } from '../circuit/model.js';
import { levelsIn } from './control-levels.js';
import { roleOf, type Role } from './control-role.js';
import { enumerate } from './enumerate.js';
import type { ControlEffect, ControlRole, Nets, Setting } from './model.js';
import { nets } from './nets.js';
import { restingSetting } from './settings.js';

/** Of more different nets than this, so many are looked at, spread evenly. */
const mostGroups = 256;
/** Two pickups that a volume silences are told apart where their falls at mid rotation differ by this, in dB. */
const ownFall = 3;

/**
 * The effect of every shaft. Each is turned through its travel in every different position of the switches, the other shafts at rest and,
 * where one of them does not rest at 10, also at 10. A volume falls to silence (−60 dB) at 0; a tone is darkest at 0, its bass within
 * 2 dB; a bass cut the other way about; a blend changes pickups against each other by 3 dB, a spread the coils of one pickup; what
 * is none of these, or is one thing here and another there, is mixed. `backwards` holds for volume and tone alone. `silences` lists,
 * per setting, pickups that a volume at its silent end takes along although it is not theirs: in another setting they go on, or
 * they fall later than its own.
 */
export function controlEffects(circuit: Circuit): readonly ControlEffect[] {
  const { settings, group, groups } = enumerate(circuit);
  const members: Setting[][] = Array.from({ length: groups }, () => []);
  settings.forEach((setting, i) => members[group[i]!]!.push(setting));
  const step = Math.max(1, groups / mostGroups);
  const looked: Group[] = [];
  for (let at = 0; at < groups; at += step) {
    const of = members[Math.floor(at)]!;
    looked.push({ settings: of, folded: nets(circuit, of[0]!.positions) });
  }
  return circuit.shafts.map((shaft) => effectOf(circuit, shaft, looked));
}

interface Group {
  readonly settings: readonly Setting[];
  readonly folded: Nets;
}

function effectOf(circuit: Circuit, shaft: Shaft, groups: readonly Group[]): ControlEffect {
  const none = { shaft: shaft.id, backwards: false, actsIn: [], silences: [] };
  if (!isWired(circuit, shaft)) return { ...none, role: 'unwired', says: `nothing is soldered to the track of ${shaft.name}` };
  const found = groups.map((group) => ({ group, role: roleInGroup(circuit, shaft, group) }));
  const acting = found.filter(({ role }) => role.kind !== 'nothing');
  if (acting.length === 0) return { ...none, role: 'nothing', says: `${shaft.name} changes nothing in any position` };
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

/** A track is wired where a joint of the user's leads to one of its lugs. */
function isWired(circuit: Circuit, shaft: Shaft): boolean {
  const lugs = new Set(
    shaft.tracks.flatMap((id) => {
      const track = circuit.elements[id] as Track;
      return [track.a, track.b, track.wiper, ...(track.leavesTo === undefined ? [] : [track.leavesTo])];
    }),
  );
  return circuit.joints.some(
    (joint) => joint.kind !== 'inside' && joint.a !== joint.b && (lugs.has(joint.a) || lugs.has(joint.b)),
  );
}

/** Rotations of all shafts with one turned, the same arrays for every group so that their branches are made once. */
const turnedBy = new WeakMap<Shaft, readonly (readonly (readonly number[])[])[]>();

function travels(circuit: Circuit, shaft: Shaft): readonly (readonly (readonly number[])[])[] {
  const known = turnedBy.get(shaft);
  if (known !== undefined) return known;
  const { rotations } = restingSetting(circuit);
  const bases = [rotations];
  if (rotations.some((rotation, id) => id !== shaft.id && rotation !== 10)) bases.push(rotations.map(() => 10));
  const made = bases.map((base) =>
    [0, 2.5, 5, 7.5, 10].map((rotation) => base.map((at, id) => (id === shaft.id ? rotation : at))),
  );
  turnedBy.set(shaft, made);
  return made;
}

/** The first way of standing the other shafts in which it acts at all. */
function roleInGroup(circuit: Circuit, shaft: Shaft, group: Group): Role {
  let role: Role | undefined;
  for (const travel of travels(circuit, shaft)) {
    const { positions } = group.settings[0]!;
    role = roleOf(
      circuit,
      travel.map((rotations) => levelsIn(circuit, group.folded, { positions, rotations })),
    );
    if (role.kind !== 'nothing') break;
  }
  return role!;
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
  return found.flatMap(({ group, role }) => {
    const most = Math.max(...role.silenced.values());
    const others = [...role.silenced]
      .filter(([part, fall]) => goesOn.has(part) || fall < most - ownFall)
      .map(([part]) => circuit.parts[part]!.name);
    // Where every silenced pickup is another's, this volume is a master that some settings pass by, and takes nobody along.
    if (others.length === 0 || others.length === role.silenced.size) return [];
    return group.settings.map((setting) => ({ setting, pickups: others.sort() }));
  });
}

function sentence(circuit: Circuit, shaft: Shaft, role: ControlRole, backwards: boolean, roles: readonly Role[]): string {
  const most = roles.reduce((a, b) => (b.change > a.change ? b : a));
  const amount = `${most.change.toFixed(0)} dB at ${most.hz < 1000 ? `${most.hz} Hz` : `${most.hz / 1000} kHz`}`;
  const pickups = [...new Set(roles.flatMap(({ heard }) => [...heard]))].map((part) => circuit.parts[part]!.name).sort();
  switch (role) {
    case 'volume':
      return backwards ? `${shaft.name} is a volume that is silent at 10` : `${shaft.name} is a volume: silent at 0`;
    case 'tone':
      return `${shaft.name} is a tone${backwards ? ' that is darkest at 10' : ': darkest at 0'}, up to ${amount}`;
    case 'bass-cut':
      return `${shaft.name} cuts bass, up to ${amount}`;
    case 'blend':
      return `${shaft.name} blends ${pickups.join(' and ')}`;
    case 'spread':
      return `${shaft.name} turns between the coils of ${pickups.join(' and ')}`;
    default:
      return `${shaft.name} changes the sound by up to ${amount}, as a mixture of volume, tone and blend`;
  }
}
