/** How ground is wired: every wire on one star, the cases in a chain, all on the jack, or a metal plate that joins what it carries. */
import { addPart, lug, written, type Draft, type Lug, type Part } from './draft.js';

const ways = ['star', 'chain', 'chain', 'sleeve', 'plate'] as const;

export interface Ground {
  /** Lines that join metal and returns. */
  readonly lines: readonly string[];
  /** Where a lead of this part finds ground: the case of the part's pot, or the nearest place. */
  readonly placeFor: (part?: Part) => Lug;
}

/** Has to be asked once all parts are there. `shielded` wires tie their screens where `placeFor` says. */
export function groundOf(draft: Draft): Ground {
  const { dice } = draft;
  const way = dice.pick(ways);
  draft.families.add(`ground: ${way}`);
  addStrings(draft);
  const sleeves = draft.outputs.map(({ tip }) => lug(tip.part, 'sleeve'));
  const cases = draft.metal.filter(({ part, name }) => name === 'case' && hasCase(part));
  const others = draft.metal.filter((metal) => !cases.includes(metal));
  const [sleeve] = sleeves as [Lug];
  const colour = dice.pick(['', ' black', ' black', ' green', ' bare']);
  const line = (from: Lug, to: Lug): string => `wire ${written(from)} to ${written(to)}${isLead(from) ? '' : colour}`;
  const centre = way === 'star' ? lug(addPart(draft, 'star', { type: 'star', reach: 'single' }), 'point') : sleeve;
  const near = way === 'chain' && cases.length > 0 ? cases : [centre];
  const placeFor = (part?: Part): Lug => cases.find((metal) => metal.part === part) ?? dice.pick(near);
  if (way === 'plate') return { lines: onPlate(draft, cases, others, sleeves, line), placeFor };
  const lines = [
    ...(way === 'chain'
      ? [chain([...cases, ...sleeves], colour)]
      : [...cases, ...sleeves].filter((metal) => metal !== centre).map((metal) => line(metal, centre))),
    ...others.map((metal) => line(metal, dice.pick(near))),
  ];
  return { lines, placeFor };
}

function addStrings(draft: Draft): void {
  const part = addPart(draft, 'saddle', { type: 'bridge-ground', reach: 'single' });
  draft.metal.push(lug(part, 'strings'));
}

function hasCase({ type }: Part): boolean {
  return type.startsWith('pot');
}

export function isLead({ part }: Lug): boolean {
  return part.reach === 'pickup' || part.reach === 'leads';
}

function chain(lugs: readonly Lug[], colour: string): string {
  return lugs.length < 2 ? '' : `wire ${lugs.map(written).join(' to ')}${colour}`;
}

/** Pots, switches and the jack ground one another over the plate; what it does not carry has a wire. */
function onPlate(
  draft: Draft,
  cases: readonly Lug[],
  others: readonly Lug[],
  sleeves: readonly Lug[],
  line: (from: Lug, to: Lug) => string,
): string[] {
  const carried = [...cases, ...others.filter(({ name }) => name === 'frame'), ...sleeves];
  const [rout, plate] = ['rout', 'control-plate'].map((name) => draft.names.take(name));
  draft.lines.push(`cavity ${rout}`, `plate ${plate} in ${rout} metal { ${carried.map(({ part }) => part.name).join(', ')} }`);
  return others.filter((metal) => !carried.includes(metal)).map((metal) => line(metal, draft.dice.pick([...cases, ...sleeves])));
}
