/** What is done at a pickup's own leads: nothing, a split, series and parallel, phase, a tap. Each returns what the rest of the circuit is joined to. */
import { addPart, join, lug, node, type Draft, type Lug, type Node } from './draft.js';
import type { Pickup, Source } from './pickups.js';
import type { Place } from './plans.js';
import { addDevice, addTwoWay, namePositions, type Pole } from './switches.js';
import { one, parallel, positionIn, reversed, type Sound } from './voice.js';

export function addFront(draft: Draft, pickup: Pickup, label: string, { isCombined, isMoved }: Place): Source {
  const { dice } = draft;
  const isFourLead = pickup.kind === 'humbucker-4';
  if (isMoved) return isFourLead ? joined(draft, pickup, label) : whole(draft, pickup, label);
  if (pickup.kind === 'single-coil-tapped') return dice.percent(85) ? tapped(draft, pickup, label) : whole(draft, pickup, label);
  // Alone a pickup sounds the same either way round: phase is for those that sound beside another.
  if (!isFourLead) return isCombined && dice.percent(16) ? phased(draft, pickup, label) : whole(draft, pickup, label);
  const fronts = [split, split, split, threeWayCut, threeModes, seriesParallel, joined, ...(isCombined ? [joinedAndPhased] : [])];
  return dice.pick(fronts)(draft, pickup, label);
}

function whole(draft: Draft, pickup: Pickup, label: string): Source {
  const voice = one(pickup.part.name);
  return { pickup, label, hot: node(draft, pickup.hot), cold: pickup.cold, sounds: () => voice };
}

function joined(draft: Draft, pickup: Pickup, label: string): Source {
  node(draft, ...jointOf(pickup));
  return whole(draft, pickup, label);
}

function joinedAndPhased(draft: Draft, pickup: Pickup, label: string): Source {
  node(draft, ...jointOf(pickup));
  return phased(draft, pickup, label);
}

/** The series joint of a pickup with four leads. */
function jointOf({ part }: Pickup): readonly [Lug, Lug] {
  return [lug(part, 'north-finish'), lug(part, 'south-finish')];
}

/** Both leads through two poles, crossed in the second position; the leads on the commons or on the throws. */
function phased(draft: Draft, pickup: Pickup, label: string): Source {
  const { part, poles } = addTwoWay(
    draft,
    'phase',
    2,
    draft.dice.pick([['normal', 'reversed'] as const, ['in', 'out'] as const]),
    {
      of: label,
    },
  );
  const [a, b] = poles as readonly [Pole, Pole];
  draft.families.add('phase');
  // One side's first throws carry on what comes in at the other: the leads are on the throws and the commons go on, or the other way round.
  const [first, second] = [node(draft, a.throws[0]!, b.throws[1]!), node(draft, b.throws[0]!, a.throws[1]!)];
  const commons = [node(draft, a.common), node(draft, b.common)] as const;
  const [inside, outside] = draft.dice.percent(50) ? [[first, second] as const, commons] : [commons, [first, second] as const];
  inside[0].lugs.unshift(pickup.hot);
  inside[1].lugs.unshift(pickup.cold);
  outside[1].isGround = true;
  const voice = one(pickup.part.name);
  return { pickup, label, hot: outside[0], sounds: (state) => (positionIn(state, part) === 1 ? reversed(voice) : voice) };
}

/** The joint on ground, on hot, or on ground through a resistor, by a switch of one pole; two pickups may share one of two poles. */
function split(draft: Draft, pickup: Pickup, label: string): Source {
  const { dice } = draft;
  const shared = draft.openSplit;
  const poles = shared === undefined && dice.percent(40) ? 2 : 1;
  const made =
    shared ??
    addTwoWay(draft, 'split', poles, dice.pick([['full', 'split'] as const, ['humbucker', 'single'] as const]), {
      of: poles === 1 ? label : '',
    });
  const pole = shared === undefined ? made.poles[0]! : made.poles[1]!;
  draft.openSplit = shared === undefined && poles === 2 ? made : undefined;
  draft.families.add('split');
  node(draft, ...jointOf(pickup), pole.common);
  const hot = node(draft, pickup.hot);
  const sounds = splitTo(draft, pickup, pole.throws[1]!, hot);
  const { name } = pickup.part;
  return { pickup, label, hot, cold: pickup.cold, sounds: (state) => (positionIn(state, made.part) === 1 ? sounds : one(name)) };
}

/** Where the throw leads, and what is left then. */
function splitTo(draft: Draft, { part }: Pickup, end: Lug, hot: Node): ReturnType<Sound> {
  const way = draft.dice.pick(['ground', 'ground', 'hot', 'resistor'] as const);
  draft.families.add(`split to ${way}`);
  if (way === 'ground') {
    draft.returns.push(end);
    return one(`${part.name}.north`);
  }
  if (way === 'hot') {
    join(hot, end);
    return one(`${part.name}.south`);
  }
  const resistor = addPart(
    draft,
    'resistor',
    { type: 'resistor', values: [draft.dice.pick(['2.2k', '3.3k', '4.7k', '6.8k'])], reach: 'leads' },
    part.name,
  );
  node(draft, end, lug(resistor, 'a'));
  draft.returns.push(lug(resistor, 'b'));
  return 'unnamed';
}

/** An on-off-on toggle: the joint on ground, free, or on hot. */
function threeWayCut(draft: Draft, pickup: Pickup, label: string): Source {
  const part = addPart(draft, 'split', { type: 'mini-spdt-off' }, label);
  draft.families.add('split').add('mini or slide switch');
  draft.metal.push(lug(part, 'frame'));
  addDevice(draft, part, namePositions(draft, part, ['north', 'both', 'south']));
  node(draft, ...jointOf(pickup), lug(part, 'A0'));
  draft.returns.push(lug(part, 'A1'));
  const hot = node(draft, pickup.hot, lug(part, 'A2'));
  const { name } = pickup.part;
  const voices = [one(`${name}.north`), one(name), one(`${name}.south`)];
  return { pickup, label, hot, cold: pickup.cold, sounds: (state) => voices[positionIn(state, part)]! };
}

/** An on-on-on toggle of either kind: series, the north coil, parallel. */
function threeModes(draft: Draft, pickup: Pickup, label: string): Source {
  const isMirror = draft.dice.percent(30);
  const part = addPart(draft, 'mode', { type: isMirror ? 'mini-dpdt-on-mirror' : 'mini-dpdt-on' }, label);
  draft.families.add('series/parallel').add('mini or slide switch');
  draft.metal.push(lug(part, 'frame'));
  addDevice(draft, part, namePositions(draft, part, ['series', 'single', 'parallel']));
  // The north finish moves to ground first, whichever pole that is: the coil that is left out then hangs from ground, not from hot.
  const hot = movedFinishes(draft, pickup, poleOf(part, isMirror ? 'B' : 'A'), poleOf(part, isMirror ? 'A' : 'B'));
  const { name } = pickup.part;
  const [north, south] = [one(`${name}.north`), one(`${name}.south`)];
  const voices = [one(name), north, parallel([north, south])];
  return { pickup, label, hot, cold: pickup.cold, sounds: (state) => voices[positionIn(state, part)]! };
}

function poleOf(part: Lug['part'], letter: string): Pole {
  return { common: lug(part, `${letter}0`), throws: [lug(part, `${letter}1`), lug(part, `${letter}2`)] };
}

function seriesParallel(draft: Draft, pickup: Pickup, label: string): Source {
  const { part, poles } = addTwoWay(draft, 'mode', 2, ['series', 'parallel'], { of: label });
  draft.families.add('series/parallel');
  const hot = movedFinishes(draft, pickup, poles[0]!, poles[1]!);
  const { name } = pickup.part;
  const both = parallel([one(`${name}.north`), one(`${name}.south`)]);
  return { pickup, label, hot, cold: pickup.cold, sounds: (state) => (positionIn(state, part) === 1 ? both : one(name)) };
}

/** The south finish on one pole and the north finish on the other: joined at the first throws, on hot and on ground at the second. */
function movedFinishes(draft: Draft, pickup: Pickup, south: Pole, north: Pole): Node {
  const [northFinish, southFinish] = jointOf(pickup);
  node(draft, southFinish, south.common);
  node(draft, northFinish, north.common);
  node(draft, south.throws[0]!, north.throws[0]!);
  draft.returns.push(north.throws[1]!);
  return node(draft, pickup.hot, south.throws[1]!);
}

/** One throw takes the whole winding, the other the inner part of it. */
function tapped(draft: Draft, pickup: Pickup, label: string): Source {
  const { part, poles } = addTwoWay(draft, 'tap', 1, draft.dice.pick([['whole', 'inner'] as const, ['full', 'tap'] as const]), {
    of: label,
  });
  draft.families.add('tap');
  const [pole] = poles as readonly [Pole];
  node(draft, pickup.hot, pole.throws[0]!);
  node(draft, lug(pickup.part, 'tap'), pole.throws[1]!);
  const { name } = pickup.part;
  const voices = [one(name), one(`${name}.inner`)];
  return { pickup, label, hot: node(draft, pole.common), cold: pickup.cold, sounds: (state) => voices[positionIn(state, part)]! };
}
