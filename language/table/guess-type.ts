/** Which type a part of a table has: by the lugs that its wires end on and by the words of its name. */
import type { TypeInfo } from '../circuit/index.js';
import { kindOfType, kindsNamed, rolesNamed, tokensOf } from '../roles/index.js';

/** The lugs that a table names on one part. */
export interface LugsUsed {
  readonly words: ReadonlySet<string>;
  /** True where the part is also, or only, named without a lug. */
  readonly isAlone: boolean;
}

export interface Guess {
  readonly type: TypeInfo;
  /** Names of the other types that have these lugs and that the name allows as well, likeliest first. */
  readonly others: readonly string[];
  /** False where no type has all of the lugs. */
  readonly isWhole: boolean;
}

/** The commonest first: common practice, no source. What is not here comes last. */
const commonest = [
  ...[
    'single-coil',
    'humbucker',
    'humbucker-4',
    'pot',
    'pot-push-pull',
    'pot-dual',
    'pot-blend',
    'lever-3',
    'lever-5',
    'toggle-3',
  ],
  ...['mini-dpdt', 'mini-dpdt-on', 'slide-dpdt', 'mini-spdt', 'spst', 'push-on', 'lever-4', 'lever-5x4', 'rotary-2x6'],
  ...['jack', 'jack-stereo', 'jack-switched', 'capacitor', 'resistor', 'inductor', 'battery', 'electrolytic'],
  ...['bridge-ground', 'star', 'junction', 'buffer', 'tag-strip'],
];

/** Words of a name that speak for a type, or for each type whose name begins so. */
const words: Readonly<Record<string, readonly string[]>> = {
  humbucker: ['humbucker', 'hum', 'hb'],
  'pot-blend': ['blend', 'pan', 'balance', 'mix'],
  'pot-concentric': ['concentric', 'stacked'],
  lever: ['lever'],
  toggle: ['toggle'],
  rotary: ['rotary'],
  mini: ['mini'],
  slide: ['slide'],
  'push-on': ['push', 'button', 'kill', 'stutter'],
  capacitor: ['cap', 'capacitor', 'c', 'bleed', 'tone'],
  resistor: ['resistor', 'res', 'r', 'load', 'drain', 'pulldown'],
  inductor: ['inductor', 'choke', 'coil'],
  electrolytic: ['electrolytic', 'cap', 'capacitor', 'c', 'filter', 'decoupling'],
  'bridge-ground': ['saddle', 'bridge', 'strings', 'string'],
  star: ['star', 'ground', 'earth', 'gnd'],
  junction: ['junction', 'splice'],
  'tag-strip': ['tag', 'strip', 'terminal', 'terminals'],
};

/** Another type counts as one that would fit where it has no more than so many more lugs that nothing is wired to. */
const mostSpare = 2;

const selecting = ['lever', 'toggle', 'rotary'];

/**
 * The lug of the type that a word means: its own name, a second name, a number, whatever the case. `middle` is a pot's lug 2; `left` and `right`
 * depend on the side that is looked at and mean none.
 */
export function lugOf(type: TypeInfo, word: string): string | undefined {
  const own = [...type.lugs, ...type.optional];
  if (own.includes(word)) return word;
  const alias = type.aliases[word];
  if (alias !== undefined && own.includes(alias)) return alias;
  const { numbered } = type;
  if (numbered !== undefined && /^[1-9]\d{0,3}$/.test(word) && Number(word) >= numbered.from && Number(word) <= numbered.to)
    return word;
  const alike = own.filter((lug) => lug.toLowerCase() === word.toLowerCase());
  if (alike.length === 1) return alike[0];
  return isPot(type) && word.toLowerCase() === 'middle' ? '2' : undefined;
}

/** True where a part of this type can be named without a lug. */
export function hasOneLug({ lugs }: TypeInfo): boolean {
  return lugs.length === 1;
}

/** True for a pot's lug as some diagrams have it: which one it is depends on the side that is looked at. */
export function isSide(type: TypeInfo, word: string): boolean {
  return isPot(type) && /^(left|right)$/i.test(word);
}

function isPot({ family, lugs }: TypeInfo): boolean {
  return family === 'control' && ['1', '2', '3'].every((lug) => lugs.includes(lug));
}

/** The likeliest type of a part; undefined where no type has any of its lugs and its name says nothing. `pickups` is how many the table has. */
export function guessType(types: readonly TypeInfo[], name: string, used: LugsUsed, pickups: number): Guess | undefined {
  const known = (type: TypeInfo): number =>
    [...used.words].filter((word) => lugOf(type, word) !== undefined || isSide(type, word)).length;
  const fitting = types.filter((type) => known(type) === used.words.size && (!used.isAlone || hasOneLug(type)));
  const order = createOrder(name, used, pickups);
  if (fitting.length > 0) {
    const [type, ...others] = order.sorted(fitting);
    if (type === undefined) return undefined;
    const alike = others.filter(
      (other) => order.kindRank(other) === order.kindRank(type) && order.spare(other) <= order.spare(type) + mostSpare,
    );
    return { type, others: alike.map(({ name: other }) => other), isWhole: true };
  }
  const meant = types.filter((type) => known(type) > 0 || order.kindRank(type) === 0);
  const most = Math.max(0, ...meant.map(known));
  const [type] = order.sorted(meant.filter((one) => known(one) === most && (most > 0 || order.isNamed)));
  return type && { type, others: [], isWhole: false };
}

interface Order {
  readonly isNamed: boolean;
  /** 0 for the kind that the name speaks for first. */
  kindRank(type: TypeInfo): number;
  /** How many of its lugs nothing is wired to, metal aside; many for a type whose lugs are numbered without end. */
  spare(type: TypeInfo): number;
  sorted(types: readonly TypeInfo[]): TypeInfo[];
}

function createOrder(name: string, used: LugsUsed, pickups: number): Order {
  const kinds = kindsNamed(name);
  const tokens = tokensOf(name);
  const selects = rolesNamed('switch', name)[0] === 'selector';
  // A lever with three throws takes five positions where three pickups are on it.
  const usual =
    pickups > 2 ? commonest.map((one) => (one === 'lever-3' ? 'lever-5' : one === 'lever-5' ? 'lever-3' : one)) : commonest;

  const kindRank = (type: TypeInfo): number => {
    const kind = kindOfType(type);
    const at = kind === undefined ? -1 : kinds.indexOf(kind);
    return at < 0 ? kinds.length : at;
  };
  const wordRank = (type: TypeInfo): number =>
    Object.entries(words).some(([key, said]) => isOrBegins(type.name, key) && said.some((word) => tokens.includes(word))) ? 0 : 1;
  const selectorRank = ({ name: typeName }: TypeInfo): number =>
    selects && !selecting.some((begin) => isOrBegins(typeName, begin)) ? 1 : 0;
  const spare = (type: TypeInfo): number => {
    if (type.numbered !== undefined) return 100;
    const taken = new Set([...used.words].map((word) => lugOf(type, word)));
    return type.lugs.filter((lug) => !taken.has(lug) && !type.metal.includes(lug)).length;
  };
  const place = ({ name: typeName }: TypeInfo): number => (usual.includes(typeName) ? usual.indexOf(typeName) : usual.length);
  const ranks = [kindRank, wordRank, selectorRank, spare, place];
  return {
    isNamed: kinds.length > 0,
    kindRank,
    spare,
    sorted: (types) =>
      types
        .map((type) => ({ type, rank: ranks.map((rank) => rank(type)) }))
        .sort((a, b) => compare(a.rank, b.rank))
        .map(({ type }) => type),
  };
}

function isOrBegins(name: string, begin: string): boolean {
  return name === begin || name.startsWith(`${begin}-`);
}

function compare(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((rank, index) => rank !== b[index]);
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0);
}
