/** Expectations that nobody asked for by name: what the positions of a circuit usually give, by what each of its switches is for, beside what sounds now. */
import { partById, type AnalysedCircuit, type Arrangement, type Part, type PartId, type Switch } from '../../circuit/model.js';
import { factsOf } from '../../checks/index.js';
import { arrangementText, hasRelays, outputsOf, sameArrangement, type Setting, type Sound } from '../../electrics/index.js';
import { rolesOf, tokensOf, type Role, type RoleWord } from '../../roles/index.js';
import { finished, type Steps } from '../../steps.js';
import { stated, written, type Stated } from './lines.js';
import { coilsOf, usualRow } from './usual-rows.js';

/** Of more settings or pickups than these nothing is said. */
const mostSettings = 64;
const mostPickups = 4;

export interface UsualLine {
  readonly line: string;
  /** What sounds now, where that is something else in some setting of the line: `silent`, `parallel(neck, bridge)`. */
  readonly now?: string;
}

export interface Usual {
  readonly lines: readonly UsualLine[];
  /** How many settings there are, and in how many something else sounds now. */
  readonly positions: number;
  readonly differing: number;
  /** The switch that chooses, where there is one. */
  readonly selector?: Switch;
}

/**
 * What is usual for all positions, pots at rest. Undefined where that cannot be said: a switch whose place in the trade is not known changes what is heard, the names
 * of positions contradict every pattern, or the wiring is too far from each.
 */
export function usualOf(circuit: AnalysedCircuit): Usual | undefined {
  return finished(usualSteps(circuit));
}

/** The same in steps of one solved setting each. */
export function* usualSteps(circuit: AnalysedCircuit): Steps<Usual | undefined> {
  const { signal, settings, leftOut } = factsOf(circuit);
  const pickups = signal.pickups.filter(({ parent }) => parent === undefined);
  if (!isJudged(circuit, pickups) || leftOut().length > 0 || settings().length > mostSettings) return undefined;
  const heard = new Map<Setting, Sound>();
  for (const setting of settings()) {
    heard.set(setting, signal.sound(setting));
    yield;
  }
  const usually = createUsually(circuit, pickups, heard);
  if (usually === undefined) return undefined;
  const rows: (Stated & { readonly isNow: boolean })[] = [];
  for (const [setting, sound] of heard) {
    const usual = usually.at(setting);
    const claim = usual === 'silent' ? 'silent' : `sounds ${arrangementText(circuit, usual)}`;
    rows.push({ setting, claims: [claim], isNow: isHeard(circuit, usual, sound) });
  }
  const other = new Set(rows.filter(({ isNow }) => !isNow).map(({ setting }) => setting));
  const lines = yield* stated(circuit, rows);
  return {
    lines: written(lines).map((line, index): UsualLine => {
      const differing = (lines[index]?.[2] ?? []).filter((setting) => other.has(setting));
      const texts = new Set(differing.map((setting) => soundText(heard.get(setting))));
      return texts.size === 0 ? { line } : { line, now: [...texts].join(' or ') };
    }),
    positions: rows.length,
    differing: other.size,
    ...(usually.selector === undefined ? {} : { selector: usually.selector }),
  };
}

/** `5 positions, 1 differs from what sounds now`. */
export function usualText({ positions, differing }: Usual): string {
  const counted = `${positions} ${positions === 1 ? 'position' : 'positions'}`;
  if (differing === 0) return `${counted}, as they sound now`;
  return `${counted}, ${differing} ${differing === 1 ? 'differs' : 'differ'} from what sounds now`;
}

/** A piezo is heard beside the others, a dummy coil in series with them, and a second output may have the rest: no pattern says how. */
function isJudged(circuit: AnalysedCircuit, pickups: readonly Part[]): boolean {
  if (
    circuit.isLibrary ||
    hasRelays(circuit) ||
    outputsOf(circuit).length !== 1 ||
    pickups.length === 0 ||
    pickups.length > mostPickups
  )
    return false;
  return !rolesOf(circuit).some(({ unit, word }) => unit.kind === 'pickup' && (word === 'piezo' || word === 'dummy'));
}

type Sounding = Arrangement | 'silent';

interface Usually {
  readonly at: (setting: Setting) => Sounding;
  readonly selector?: Switch;
}

function createUsually(
  circuit: AnalysedCircuit,
  pickups: readonly Part[],
  heard: ReadonlyMap<Setting, Sound>,
): Usually | undefined {
  const turned = circuit.switches.filter(({ rest, positions }) => rest === undefined && positions.length > 1);
  const roles = new Map(
    rolesOf(circuit).flatMap((role) => (role.unit.kind === 'switch' ? [[role.unit.switch, role] as const] : [])),
  );
  const changes: (Change & { readonly device: Switch })[] = [];
  const choosing: Switch[] = [];
  for (const device of turned) {
    const role = roles.get(device.id);
    if (isIdle(device, heard) && !isMeant(role)) continue;
    if (isChoosing(device, role?.word, pickups)) choosing.push(device);
    else {
      const change = role && changeBy(circuit, role, pickups, device, heard);
      if (change === undefined) return undefined;
      changes.push({ device, ...change });
    }
  }
  const [selector, ...others] = choosing;
  if (others.length > 0) return undefined;
  const isPlain = ({ positions }: Setting): boolean => changes.every(({ device, on }) => positions[device.id] !== on);
  const [first, ...more] = pickups.map(({ id }): Arrangement => ({ kind: 'pickup', part: id, reversed: false }));
  if (first === undefined) return undefined;
  const all: Arrangement = more.length === 0 ? first : { kind: 'parallel', members: [first, ...more], reversed: false };
  const row =
    selector &&
    usualRow(
      circuit,
      selector,
      pickups,
      soundsNow(
        circuit,
        selector,
        [...heard].filter(([setting]) => isPlain(setting)),
      ),
    );
  if (selector !== undefined && row === undefined) return undefined;
  return {
    at: (setting) => {
      const chosen = selector === undefined ? all : (row?.[setting.positions[selector.id] ?? -1] ?? all);
      return changes.reduce<Sounding>(
        (sounding, { device, on, change }) =>
          sounding !== 'silent' && setting.positions[device.id] === on ? change(sounding) : sounding,
        chosen,
      );
    },
    ...(selector === undefined ? {} : { selector }),
  };
}

/** Whether what a position usually gives is heard in all settings of it; undefined where it is silent. */
function soundsNow(circuit: AnalysedCircuit, { id }: Switch, heard: readonly (readonly [Setting, Sound])[]) {
  return (position: number, usually: Arrangement): boolean | undefined => {
    const own = heard.filter(([{ positions }]) => positions[id] === position);
    if (own.every(([, sound]) => sound.silent)) return undefined;
    return own.every(([, sound]) => isHeard(circuit, usually, sound));
  };
}

function isHeard(circuit: AnalysedCircuit, usually: Sounding, sound: Sound): boolean {
  if (usually === 'silent' || sound.silent) return usually === 'silent' && sound.silent;
  return sound.arrangement !== undefined && sameArrangement(circuit, usually, sound.arrangement, sound);
}

function soundText(sound: Sound | undefined): string {
  return sound === undefined || sound.silent ? 'silent' : sound.text;
}

/** A selector; and a switch that may join two pickups, or the coils of the only one, in several ways. */
function isChoosing({ positions: { length } }: Switch, word: RoleWord | undefined, pickups: readonly Part[]): boolean {
  if (word === 'selector') return true;
  const isJoining = word === 'series' || word === 'parallel' || word === 'circuit';
  return pickups.length === 1
    ? isJoining || (word === 'split' && length === 3)
    : isJoining && pickups.length === 2 && length === 2;
}

/** True for a switch that should be heard, though it may not be. */
function isMeant(role: Role | undefined): boolean {
  return role !== undefined && (role.word === 'selector' || (role.confidence !== 'weak' && words[role.word] !== undefined));
}

/** True where what is heard is the same in all positions, however the other switches are set: a choice of capacitors, a spare switch. */
function isIdle({ id }: Switch, heard: ReadonlyMap<Setting, Sound>): boolean {
  const texts = new Map<string, string>();
  for (const [{ positions }, sound] of heard) {
    const key = positions.map((at, index) => (index === id ? '' : at)).join();
    const known = texts.get(key);
    if (known !== undefined && known !== soundText(sound)) return false;
    texts.set(key, soundText(sound));
  }
  return true;
}

interface Doing {
  /** Words in the names of the position in which a switch does it, and of the other. */
  readonly on: readonly string[];
  readonly off: readonly string[];
  /** How much of it is in a sound. */
  readonly done: (sound: Sound) => number;
}

const words: Readonly<Partial<Record<RoleWord, Doing>>> = {
  split: {
    on: ['split', 'single', 'coil', 'coils', 'north', 'south', 'screw', 'slug'],
    off: ['full', 'humbucker', 'whole', 'both', 'series', 'normal'],
    done: ({ heard }) => -heard.length,
  },
  phase: {
    on: ['reversed', 'reverse', 'turned', 'out', 'phase'],
    off: ['in', 'normal'],
    done: ({ text }) => Number(text.includes('reversed ')),
  },
  mute: { on: ['mute', 'muted', 'silent'], off: ['play', 'live'], done: ({ silent }) => Number(silent) },
};

/** The position of two in which a switch does what it is for: by the names of the positions, else pulled up, else where more of it is heard now. */
function onPosition({ id, positions }: Switch, word: RoleWord, heard: ReadonlyMap<Setting, Sound>): number | undefined {
  const known = words[word];
  if (positions.length !== 2 || known === undefined) return undefined;
  const says = positions.map(({ key, label }) => {
    const tokens = label === key ? [] : tokensOf(label);
    if (tokens.some((token) => known.off.includes(token))) return 'off';
    return tokens.some((token) => known.on.includes(token)) ? 'on' : undefined;
  });
  const [on, off] = [says.indexOf('on'), says.indexOf('off')];
  if (on >= 0 && says.lastIndexOf('on') === on) return on;
  if (off >= 0 && says.lastIndexOf('off') === off) return 1 - off;
  const up = positions.findIndex(({ key }) => key === 'up');
  if (up >= 0) return up;
  const [first, second] = positions.map((_, at) =>
    [...heard].filter(([setting]) => setting.positions[id] === at).reduce((sum, [, sound]) => sum + known.done(sound), 0),
  );
  return first === undefined || second === undefined || first === second ? undefined : Number(second > first);
}

interface Change {
  /** The position in which the switch does it. */
  readonly on: number;
  readonly change: (sounding: Arrangement) => Sounding;
}

function changeBy(
  circuit: AnalysedCircuit,
  { word, of }: Pick<Role, 'word' | 'of'>,
  pickups: readonly Part[],
  device: Switch,
  heard: ReadonlyMap<Setting, Sound>,
): Change | undefined {
  const on = onPosition(device, word, heard);
  if (on === undefined) return undefined;
  if (word === 'mute') return { on, change: () => 'silent' };
  if (word === 'split') {
    if (!of.some((part) => coilsOf(circuit, partById(circuit, part).elements).length > 0)) return undefined;
    const left = [...heard].filter(([{ positions }]) => positions[device.id] === on).map(([, sound]) => sound);
    const coil = (part: PartId): Arrangement | undefined => (of.includes(part) ? coilLeft(circuit, part, left) : undefined);
    return {
      on,
      change: (sounding) => (sounding.kind === 'pickup' ? (coil(sounding.part) ?? sounding) : replaced(sounding, coil)),
    };
  }
  // Of two pickups either may be turned round: it sounds the same. One alone sounds as before.
  const [turned] = of.length === 1 || pickups.length === 2 ? of : [];
  const reversed = (part: PartId): Arrangement | undefined =>
    part === turned ? { kind: 'pickup', part, reversed: true } : undefined;
  return turned === undefined ? undefined : { on, change: (sounding) => replaced(sounding, reversed) };
}

/** The coil of a pickup that a split leaves now; the north coil where that does not show. */
function coilLeft(circuit: AnalysedCircuit, part: PartId, sounds: readonly Sound[]): Arrangement | undefined {
  const [north, south] = coilsOf(circuit, partById(circuit, part).elements);
  if (north === undefined || south === undefined) return undefined;
  const count = (coil: typeof north, other: typeof north): number =>
    sounds.filter(({ heard }) => heard.some((one) => one.coil === coil) && !heard.some((one) => one.coil === other)).length;
  return { kind: 'coil', coil: count(south, north) > count(north, south) ? south : north, reversed: false };
}

/** A group with some of its pickups replaced. */
function replaced(sounding: Arrangement, by: (part: PartId) => Arrangement | undefined): Arrangement {
  if (!('members' in sounding)) return sounding;
  const members = sounding.members.map((member) =>
    member.kind === 'pickup' ? (by(member.part) ?? member) : replaced(member, by),
  );
  return { ...sounding, members };
}
