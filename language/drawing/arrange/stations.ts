/** Where a part belongs in an instrument, by the evidence that does not come from wires: its kind, its type and its name. */
import { rolesNamed, tokensOf } from '../../roles/index.js';
import type { DiagramPart } from '../diagram/diagram.js';
import { leadedKinds, type PartKind } from '../diagram/part-kind.js';

/** What a family of arrangement has a place for. */
export type Station =
  | 'pickup'
  | 'strings'
  | 'selector'
  | 'toggle'
  | 'slide'
  | 'switch'
  | 'volume'
  | 'blend'
  | 'tone'
  | 'knob'
  | 'stage'
  | 'battery'
  | 'ground'
  | 'small'
  | 'jack'
  | 'other'
  /** A cavity, a plate or an assembly with all that it holds. */
  | 'group';

const byKind: Readonly<Partial<Record<PartKind, Station>>> = {
  pickup: 'pickup',
  humbucker: 'pickup',
  piezo: 'pickup',
  bridge: 'strings',
  jack: 'jack',
  amplifier: 'stage',
  transistor: 'stage',
  battery: 'battery',
  star: 'ground',
  rotary: 'selector',
};

/** The stations of parts that are drawn side by side; the largest switch selects where none is called so. */
export function stationsOf(parts: readonly DiagramPart[]): ReadonlyMap<DiagramPart, Station> {
  const stations = new Map(parts.map((part) => [part, stationOf(part)]));
  if (![...stations.values()].some((station) => station === 'selector' || station === 'toggle')) {
    const switches = parts.filter((part) => stations.get(part) === 'switch');
    const [largest] = switches.sort((a, b) => b.lugs.length - a.lugs.length);
    if (largest !== undefined && largest.lugs.length > 6) stations.set(largest, 'selector');
  }
  return stations;
}

function stationOf(part: DiagramPart): Station {
  const known = byKind[part.kind];
  if (known !== undefined) return known;
  if (part.kind === 'switch') return switchStation(part);
  if (part.kind === 'pot' || part.kind === 'pot-dual' || part.kind === 'pot-switch') {
    const [role] = rolesNamed('pot', part.name);
    return role === 'volume' || role === 'blend' || role === 'tone' ? role : 'knob';
  }
  return leadedKinds.has(part.kind) ? 'small' : 'other';
}

/** Lever and toggle switches select unless their name says otherwise; any other switch does where it is called a selector. */
function switchStation({ name, type, lugs }: DiagramPart): Station {
  const [role] = rolesNamed('switch', name);
  const [make] = type.split('-');
  if (make === 'slide') return 'slide';
  const selects = role === 'selector' || (role === undefined && (make === 'lever' || make === 'toggle'));
  if (!selects) return 'switch';
  return make === 'toggle' && lugs.length <= 7 ? 'toggle' : 'selector';
}

const seats: readonly (readonly string[])[] = [
  ['neck', 'front'],
  ['middle', 'mid', 'centre', 'center'],
  ['bridge', 'rear', 'back'],
];
const middle = 1;
/** How much nearer to the middle an inner one of two is. */
const inward = 0.3;

/** From the neck to the bridge, then by name, numbers by their size; never by the order of statements. */
export function byPlace(a: string, b: string): number {
  return seatOf(a) - seatOf(b) || a.localeCompare(b, 'en', { numeric: true }) || (a < b ? -1 : 1);
}

/** `front-middle` is half way between; what names no place stands behind the middle one. */
function seatOf(name: string): number {
  const tokens = tokensOf(name);
  const named = seats.flatMap((words, seat) => (words.some((word) => tokens.includes(word)) ? [seat] : []));
  if (named.length === 0) return 1.2;
  const seat = named.reduce((sum, one) => sum + one, 0) / named.length;
  return tokens.includes('inner') ? seat + Math.sign(middle - seat) * inward : seat;
}

/** True where a part bears the name of another with a word more: `neck-tone-cap` is named after `neck-tone`. */
export function isCalledAfter(name: string, other: string): boolean {
  const [own, words] = [tokensOf(name), tokensOf(other)];
  return words.length > 0 && own.length > words.length && words.every((word, index) => own[index] === word);
}
