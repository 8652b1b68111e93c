/** Pickups: what they are called, how they are wound, their values, and the two ends that the circuit sees. */
import { createDice } from '../harness/dice.js';
import { addNamed, lug, type Draft, type Lug, type Node, type Part } from './draft.js';
import type { Sound } from './voice.js';

export type PickupKind = 'single-coil' | 'humbucker' | 'humbucker-4' | 'single-coil-tapped';

export interface Pickup {
  readonly part: Part;
  readonly kind: PickupKind;
  /** The end that leads to the controls and the one on ground; of a tapped pickup and of one with four leads the usual ones. */
  readonly hot: Lug;
  readonly cold: Lug;
}

/** A pickup with all that is switched at its own leads: what the rest of the circuit is joined to. */
export interface Source {
  readonly pickup: Pickup;
  hot: Node;
  /** The ground lead, where nothing else has taken it. */
  cold?: Lug;
  readonly sounds: Sound;
  /** What position names call it. */
  readonly label: string;
}

const places: readonly (readonly string[])[] = [
  ['bridge'],
  ['bridge', 'neck'],
  ['bridge', 'middle', 'neck'],
  ['bridge', 'rear-middle', 'front-middle', 'neck'],
];

const otherPlaces: readonly (readonly string[])[] = [
  ['neck'],
  ['treble', 'rhythm'],
  ['rear', 'centre', 'front'],
  ['rear-outer', 'rear-inner', 'front-inner', 'front-outer'],
];

/** Labels from the bridge to the neck. */
export function pickupLabels(draft: Draft, count: number): readonly string[] {
  return draft.dice.pick([places, places, otherPlaces])[count - 1]!;
}

/** The names of the parts, in one manner. */
export function pickupNames(draft: Draft, labels: readonly string[]): readonly string[] {
  const manner = draft.dice.pick<(label: string, index: number) => string>([
    (label) => label,
    (label) => label,
    (label) => `${label}-pickup`,
    (label) => `${label}-pu`,
    (_, index) => `p${index + 1}`,
    (_, index) => `pickup${index + 1}`,
  ]);
  return labels.map((label, index) => draft.names.take(manner(label, index)));
}

/** `isOdd` for one that is wound and magnetised against its neighbours, so that two of them cancel hum. */
export function addPickup(draft: Draft, name: string, kind: PickupKind, index: number, isOdd: boolean): Pickup {
  const { dice } = draft;
  const isSingle = kind === 'single-coil' || kind === 'single-coil-tapped';
  const base = isSingle ? 5600 : 7200;
  // Steps of a tenth of the value between the pickups: no two positions read alike.
  const ohms = base + 600 * index + dice.whole(0, 4) * 100;
  const henries = (isSingle ? 2.1 : 3.6) + 0.3 * index + dice.whole(0, 2) / 10;
  const values = [resistance(draft, ohms), `${henries.toFixed(1)}H`, `${dice.whole(9, 15)}0pF`];
  const isOwn = kind === 'single-coil' && dice.percent(8);
  if (isOwn) addOwnPickup(draft);
  const part = addNamed(draft, name, {
    type: isOwn ? 'shop-coil' : kind,
    values: dice.percent(85) || isOwn ? values : values.slice(0, 1),
    properties: [
      ...(isOdd && isSingle ? ['wound reverse', 'magnet south'] : []),
      ...ownLeads(draft, kind),
      ...(isOwn ? [] : losses(ohms)),
    ],
    reach: 'pickup',
  });
  const hot = lug(part, kind === 'humbucker-4' ? 'north-start' : 'hot');
  const cold = lug(part, kind === 'humbucker-4' ? 'south-start' : 'ground');
  if (kind === 'humbucker-4') draft.metal.push(lug(part, 'shield'));
  draft.families.add(kind);
  return { part, kind, hot, cold };
}

/** What core and cover lose, given by few; by dice of their own, so that the circuits stay the same. */
function losses(ohms: number): string[] {
  const dice = createDice(ohms);
  if (dice.percent(85)) return [];
  const eddy = ['eddy-inductance 20%', `eddy-resistance ${dice.whole(2, 6)}0k`];
  return dice.pick([
    [`loss ${dice.whole(3, 9)}00k`],
    [`loss-exponent 0.9${dice.whole(3, 8)}`],
    eddy,
    [...eddy, 'cover-shading 30%'],
  ]);
}

function resistance({ dice }: Draft, ohms: number): string {
  const kilo = (ohms / 1000).toFixed(1);
  return dice.percent(15) ? kilo.replace('.', 'k') : `${kilo}k`;
}

/** The pickup's own leads, described by some and not by others. */
function ownLeads({ dice }: Draft, kind: PickupKind): string[] {
  if (dice.percent(60)) return [];
  const length = `${dice.whole(20, 40)}0mm`;
  const leads =
    kind === 'humbucker-4'
      ? ['north-start violet', 'north-finish grey', 'south-start blue', 'south-finish pink']
      : kind === 'single-coil-tapped'
        ? ['hot white', 'tap yellow', 'ground black']
        : ['hot white', 'ground black'];
  return leads.map((lead) => `lead ${lead} ${length}`);
}

function addOwnPickup(draft: Draft): void {
  draft.families.add('own pickup');
  draft.types.set(
    'shop-coil',
    [
      '/** The single-coil that is wound in this workshop. */',
      'type shop-coil : pickup {',
      '  lugs hot ground',
      '  optional cover',
      '  metal cover',
      '  rows hot ground',
      '  takes resistance 6.1k, inductance 2.5H, capacitance 100pF, wound forward|reverse, magnet north|south',
      '  coil main from ground to hot { resistance resistance, inductance inductance, capacitance capacitance }',
      '}',
    ].join('\n'),
  );
}

/** A metal cover, soldered to the ground lead or on a separate lead: where that lead moves, only the second is right. */
export function addCover(draft: Draft, { part, kind }: Pickup, isColdOnGround: boolean): void {
  if (kind === 'single-coil-tapped' || draft.dice.percent(70)) return;
  const cover = lug(part, 'cover');
  if (isColdOnGround && draft.dice.percent(60))
    draft.nodes.push({ lugs: [cover, lug(part, kind === 'humbucker-4' ? 'shield' : 'ground')] });
  else draft.metal.push(cover);
}
