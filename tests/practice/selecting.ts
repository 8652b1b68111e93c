/** The selecting switch of a circuit: wires the sources to it as planned and says what sounds in each of its positions. */
import { addPart, join, lug, merge, node, type Draft, type Lug, type Node, type Part } from './draft.js';
import type { Role } from './names.js';
import type { Group, Plan } from './plans.js';
import { addBlend } from './blends.js';
import type { Input, Selected } from './stages.js';
import { addDevice, addTwoWay, namePositions, type Pole } from './switches.js';
import { parallel, positionIn, series } from './voice.js';

export function select(draft: Draft, plan: Plan, inputs: readonly Input[]): Selected {
  draft.families.add(plan.way === 'one pole' || plan.way === 'pole each' || plan.way === 'toggle' ? plan.type : plan.way);
  switch (plan.way) {
    case 'one pole':
      return onePole(draft, plan, inputs);
    case 'pole each':
      return poleEach(draft, plan, inputs);
    case 'own':
      return ownSelector(draft, plan.groups, inputs);
    case 'toggle':
      return toggle(draft, plan.type, plan.groups, inputs);
    case 'on-on-on':
      return onOnOn(draft, plan.groups, inputs);
    case 'either':
      return either(draft, plan.groups, inputs);
    case 'four ways':
      return fourWays(draft, inputs);
    case 'series or parallel':
      return seriesOrParallel(draft, inputs);
    case 'on each':
      return onEach(draft, inputs);
    case 'toggle and one':
      return toggleAndOne(draft, inputs);
    case 'blend':
      return addBlend(draft, inputs);
    case 'always':
      return always(inputs);
  }
}

/** Names of the positions by what sounds in them. */
function positionNames({ dice }: Draft, groups: readonly Group[], inputs: readonly Input[]): string[] {
  const join = dice.pick([' and ', '+', ' + ', '/']);
  const isBoth = inputs.length === 2 && dice.percent(60);
  return groups.map((group) => {
    if (group.length === inputs.length && inputs.length > 1) return isBoth ? 'both' : inputs.length > 2 ? 'all' : labels(group);
    return labels(group);
  });
  function labels(group: Group): string {
    return group.map((index) => inputs[index]!.source.label).join(join);
  }
}

function byGroups(
  part: Part,
  groups: readonly Group[],
  inputs: readonly Input[],
): Pick<Selected, 'sounds' | 'selecting' | 'states'> {
  return {
    sounds: (state) => parallel(groups[positionIn(state, part)]!.map((index) => inputs[index]!.sounds(state))),
    selecting: [part],
    states: groups.map((_, position) => new Map([[part, position]])),
  };
}

function addSelector(draft: Draft, type: string, names: readonly string[], stop?: number): Part {
  const role: Role = type.startsWith('lever')
    ? 'lever'
    : type.startsWith('toggle')
      ? 'toggle'
      : type.startsWith('rotary')
        ? 'rotary'
        : 'selector';
  const part = addPart(draft, role, { type, properties: stop === undefined ? [] : [`stop ${stop}`] });
  draft.metal.push(lug(part, 'frame'));
  const isToggle = type.startsWith('toggle');
  const words = isToggle && draft.dice.percent(30) ? ['up', 'middle', 'down'] : namePositions(draft, part, names);
  addDevice(draft, part, words);
  return part;
}

/** Either pole of the two; the other is to spare. */
function onePole(draft: Draft, plan: Extract<Plan, { way: 'one pole' }>, inputs: readonly Input[]): Selected {
  const part = addSelector(draft, plan.type, positionNames(draft, plan.groups, inputs), plan.stop);
  const isRotary = plan.type === 'rotary-1x12';
  const [used, other] = isRotary || draft.dice.percent(75) ? ['A', 'B'] : ['B', 'A'];
  inputs.forEach(({ hot }, index) => join(hot, lug(part, `${used}${index + 1}`)));
  const spare = isRotary
    ? {}
    : { spare: { common: lug(part, `${other}0`), throws: inputs.map((_, index) => lug(part, `${other}${index + 1}`)) } };
  return { hot: node(draft, lug(part, `${used}0`)), ...byGroups(part, plan.groups, inputs), ...spare };
}

function poleEach(draft: Draft, plan: Extract<Plan, { way: 'pole each' }>, inputs: readonly Input[]): Selected {
  const part = addSelector(draft, plan.type, positionNames(draft, plan.groups, inputs), plan.stop);
  const letters = ['A', 'B', 'C', 'D'].slice(0, inputs.length);
  const poles = draft.dice.percent(70) ? letters : [...letters].reverse();
  const out = node(draft);
  inputs.forEach(({ hot }, index) => {
    plan.groups.forEach((group, position) => {
      if (group.includes(index)) join(hot, lug(part, `${poles[index]}${position + 1}`));
    });
  });
  join(out, ...letters.map((letter) => lug(part, `${letter}0`)));
  return { hot: out, ...byGroups(part, plan.groups, inputs) };
}

function ownSelector(draft: Draft, groups: readonly Group[], inputs: readonly Input[]): Selected {
  const lugs = inputs.map((_, index) => `in${index + 1}`);
  const name = draft.dice.pick(['shop-selector', 'wheel-switch']);
  draft.types.set(
    name,
    [
      '/** A switch with one deck, its contacts cut to order. */',
      `type ${name} : switch {`,
      `  lugs ${lugs.join(' ')} out frame`,
      `  rows ${lugs.join(' ')} out`,
      '  metal frame',
      `  positions ${groups.map((_, index) => index + 1).join(' ')}`,
      ...groups.map((group, index) => `  at ${index + 1} joins ${group.map((input) => lugs[input]).join(' ')} out`),
      '}',
    ].join('\n'),
  );
  draft.families.add('own switch');
  const part = addSelector(draft, name, positionNames(draft, groups, inputs));
  inputs.forEach(({ hot }, index) => join(hot, lug(part, lugs[index]!)));
  return { hot: node(draft, lug(part, 'out')), ...byGroups(part, groups, inputs) };
}

function toggle(draft: Draft, type: string, groups: readonly Group[], inputs: readonly Input[]): Selected {
  const part = addSelector(draft, type, positionNames(draft, groups, inputs));
  return { hot: toggleLugs(draft, part, inputs[0]!.hot, inputs[1]!.hot), ...byGroups(part, groups, inputs) };
}

function toggleLugs(draft: Draft, part: Part, up: Node, down: Node): Node {
  join(up, lug(part, 'A'));
  join(down, lug(part, 'B'));
  return node(draft, ...(part.type === 'toggle-3' ? [lug(part, 'out')] : [lug(part, 'outA'), lug(part, 'outB')]));
}

/** Pole A has not moved in the middle, pole B has: the first is heard in 1 and 2, the second in 2 and 3. */
function onOnOn(draft: Draft, groups: readonly Group[], inputs: readonly Input[]): Selected {
  const part = addSelector(draft, 'mini-dpdt-on', positionNames(draft, groups, inputs));
  join(inputs[0]!.hot, lug(part, 'A1'));
  join(inputs[1]!.hot, lug(part, 'B2'));
  return { hot: node(draft, lug(part, 'A0'), lug(part, 'B0')), ...byGroups(part, groups, inputs) };
}

function either(draft: Draft, groups: readonly Group[], inputs: readonly Input[]): Selected {
  const [first, second] = inputs.map(({ source }) => source.label) as [string, string];
  const { part, poles } = addTwoWay(draft, 'selector', 1, [first, second]);
  const [pole] = poles as readonly [Pole];
  inputs.forEach(({ hot }, index) => join(hot, pole.throws[index]!));
  return { hot: node(draft, pole.common), ...byGroups(part, groups, inputs) };
}

/**
 * Pole A adds the first in 1 and 2; the second's hot lead stays on the common. Pole B moves the second's ground lead: to its own hot lead in 1,
 * to ground in 2 and 3, to the first's hot lead in 4.
 */
function fourWays(draft: Draft, inputs: readonly Input[]): Selected {
  const [first, second] = inputs as readonly [Input, Input];
  const part = addSelector(draft, 'lever-4', [first.source.label, 'parallel', second.source.label, 'series']);
  const at = (name: string): Lug => lug(part, name);
  join(first.hot, at('A1'), at('A2'), at('B4'));
  join(second.hot, at('A0'), at('B1'));
  node(draft, freed(second), at('B0'));
  node(draft, at('B2'), at('B3')).isGround = true;
  draft.families.add('series');
  return {
    hot: second.hot,
    selecting: [part],
    states: [0, 1, 2, 3].map((position) => new Map([[part, position]])),
    sounds(state) {
      const [one, other] = [first.sounds(state), second.sounds(state)];
      return [one, parallel([one, other]), other, series([one, other])][positionIn(state, part)]!;
    },
  };
}

function seriesOrParallel(draft: Draft, inputs: readonly Input[]): Selected {
  const [upper, lower] = inputs as readonly [Input, Input];
  const { part, poles } = addTwoWay(draft, 'pair', 2, ['parallel', 'series']);
  const [a, b] = poles as readonly [Pole, Pole];
  // In parallel the upper one's ground lead is on ground and the lower one's hot lead on hot; in series both meet.
  node(draft, freed(upper), a.common);
  draft.returns.push(a.throws[0]!);
  join(lower.hot, b.common, a.throws[1]!);
  join(upper.hot, b.throws[0]!);
  draft.families.add('series');
  return {
    hot: upper.hot,
    selecting: [part],
    states: [0, 1].map((position) => new Map([[part, position]])),
    sounds: (state) => (positionIn(state, part) === 0 ? parallel : series)([upper.sounds(state), lower.sounds(state)]),
  };
}

/** The ground lead of a source, taken for the switch. */
function freed({ source }: Input): Lug {
  const { cold } = source;
  if (cold === undefined) throw new Error(`${source.label} has no ground lead that can move`);
  delete source.cold;
  return cold;
}

function onEach(draft: Draft, inputs: readonly Input[]): Selected {
  const out = node(draft);
  const parts = inputs.map(({ source, hot }) => {
    const part = addPart(draft, 'on', { type: 'spst' }, source.label);
    draft.metal.push(lug(part, 'frame'));
    addDevice(draft, part, ['on', 'off']);
    join(hot, lug(part, 'A0'));
    join(out, lug(part, 'A1'));
    return part;
  });
  const alone = parts.map((own) => new Map(parts.filter((part) => part !== own).map((part): [Part, number] => [part, 1])));
  return {
    hot: out,
    selecting: parts,
    states: [new Map(), ...alone],
    sounds: (state) =>
      parallel(inputs.map(({ sounds }, index) => (positionIn(state, parts[index]!) === 0 ? sounds(state) : 'silent'))),
  };
}

function toggleAndOne(draft: Draft, inputs: readonly Input[]): Selected {
  const [first, middle, last] = inputs as readonly [Input, Input, Input];
  const outer = [first, last];
  const part = addSelector(draft, 'toggle-3', positionNames(draft, [[0], [0, 1], [1]], outer));
  const out = toggleLugs(draft, part, first.hot, last.hot);
  const { part: on, poles } = addTwoWay(draft, 'on', 1, ['off', 'on'], { of: middle.source.label });
  const [pole] = poles as readonly [Pole];
  join(middle.hot, pole.throws[1]!);
  join(out, pole.common);
  const groups: readonly Group[] = [[0], [0, 1], [1]];
  return {
    hot: out,
    selecting: [part, on],
    states: groups.flatMap((_, position) => [
      new Map([[part, position]]),
      new Map([
        [part, position],
        [on, 1],
      ]),
    ]),
    sounds: (state) =>
      parallel([
        ...groups[positionIn(state, part)]!.map((index) => outer[index]!.sounds(state)),
        positionIn(state, on) === 1 ? middle.sounds(state) : 'silent',
      ]),
  };
}

function always(inputs: readonly Input[]): Selected {
  const [first, ...others] = inputs as readonly [Input, ...Input[]];
  others.forEach(({ hot }) => merge(first.hot, hot));
  return {
    hot: first.hot,
    selecting: [],
    states: [new Map()],
    sounds: (state) => parallel(inputs.map(({ sounds }) => sounds(state))),
  };
}
