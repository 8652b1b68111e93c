/** What names say: the words that luthiers give to controls, switches and small parts. Common practice. */
import type { TypeInfo } from '../circuit/model.js';
import type { PassiveRole, PickupRole, PotRole, RoleWord, SwitchRole } from './role.js';

type Words<R extends RoleWord> = Readonly<Partial<Record<R, readonly string[]>>>;

const pots: Words<PotRole> = {
  volume: ['volume', 'vol', 'v', 'mv', 'master', 'loudness', 'level'],
  tone: ['tone', 't'],
  blend: ['blend', 'blender', 'mix', 'mixer', 'pan', 'bal', 'balance', 'fader'],
  filter: ['filter', 'contour', 'cut'],
  load: ['load'],
  preset: ['preset', 'trim', 'trimmer'],
};

const switches: Words<SwitchRole> = {
  selector: ['selector', 'select', 'sel', 'lever', 'pickups', 'toggle', 'rotary', 'way'],
  split: ['split', 'coil', 'coils', 'single'],
  tap: ['tap', 'tapped'],
  phase: ['phase', 'polarity'],
  series: ['series', 'serial'],
  parallel: ['parallel'],
  on: ['on', 'add', 'enable'],
  kill: ['kill', 'stutter'],
  mute: ['mute'],
  bypass: ['bypass', 'direct', 'straight'],
  standby: ['standby', 'power', 'battery', 'supply'],
  circuit: ['circuit', 'preset', 'program', 'mode'],
};

const passives: Words<PassiveRole> = {
  bleed: ['bleed'],
  'tone-cap': ['tone', 'tonecap'],
  blocking: ['block', 'blocking', 'coupling', 'dc'],
  load: ['load', 'drain', 'pulldown'],
  filter: ['filter', 'decoupling', 'supply'],
};

const pickups: Words<PickupRole> = {
  neck: ['neck', 'front'],
  middle: ['middle', 'mid', 'centre', 'center'],
  bridge: ['bridge', 'rear'],
  dummy: ['dummy'],
  piezo: ['piezo', 'saddle'],
};

/** Parts that have no roles and are known by their names all the same. */
const others = {
  jack: ['output', 'out', 'jack', 'socket'],
  metal: ['saddle', 'strings', 'string', 'ground', 'star', 'earth'],
} as const;

const byKind = { pot: pots, switch: switches, passive: passives, pickup: pickups } as const;

/** Roles that a name of such a unit speaks for, those of its last word first: `neck-tone` is a tone. */
export function rolesNamed(kind: keyof typeof byKind, name: string): readonly RoleWord[] {
  const lists = Object.entries(byKind[kind]) as readonly (readonly [RoleWord, readonly string[]])[];
  const words = tokensOf(name)
    .reverse()
    .flatMap((token) => lists.flatMap(([word, tokens]) => (tokens.includes(token) ? [word] : [])));
  // The tone of a preset circuit is a tone.
  return kind === 'pot' ? [...words.filter((word) => word !== 'preset'), ...words.filter((word) => word === 'preset')] : words;
}

/** What a part may be by its name, that of its last word first: `neck-tone` is a pot, or a passive; a `sel` is a switch. */
export function kindsNamed(name: string): readonly NamedKind[] {
  const words = new Map<NamedKind, readonly string[]>([
    ...(['pot', 'switch', 'pickup', 'passive'] as const).map((kind) => [kind, Object.values(byKind[kind]).flat()] as const),
    ...(['jack', 'metal'] as const).map((kind) => [kind, others[kind]] as const),
  ]);
  const named = tokensOf(name)
    .reverse()
    .flatMap((token) => [...words].flatMap(([kind, tokens]) => (tokens.includes(token) ? [kind] : [])));
  return [...new Set(named)];
}

export type NamedKind = keyof typeof byKind | keyof typeof others;

/** The words of a name, without numbers: `neckTone-2` is `neck`, `tone`. */
export function tokensOf(name: string): string[] {
  return name
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1-$2')
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((token) => token !== '');
}

/** True for a word that names where a pickup sits. */
export function isPickupWord(token: string): boolean {
  return Object.values(pickups).some((tokens) => tokens.includes(token));
}

/** The kind that a type is, as a name may speak for it. Nobody turns a relay, so no name of a switch speaks for one. */
export function kindOfType({ family, positions }: TypeInfo): NamedKind | undefined {
  if (positions.some(({ isDriven }) => isDriven === true)) return undefined;
  switch (family) {
    case 'control':
      return 'pot';
    case 'pickup':
    case 'switch':
    case 'passive':
    case 'jack':
    case 'metal':
      return family;
    default:
      return undefined;
  }
}
