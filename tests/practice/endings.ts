/** What lies between the controls and the jack: a buffer, a mute, a standby, a kill button, and the jack itself. */
import { addPart, join, lug, node, type Draft, type Lug, type Node } from './draft.js';
import { addDevice, addTwoWay, namePositions, type Pole } from './switches.js';
import { positionIn, type Sound } from './voice.js';

export interface Ending {
  readonly hot: Node;
  readonly sounds: Sound;
}

/** The jack of an output; the ring of a stereo jack carries the battery's minus, so that the plug switches it on. */
export function addJack(draft: Draft, hot: Node, batteryMinus: Lug | undefined): Lug {
  const isShorting = batteryMinus === undefined && draft.dice.percent(10);
  const part = addPart(draft, 'jack', {
    type: batteryMinus !== undefined ? 'jack-stereo' : isShorting ? 'jack-switched' : 'jack',
  });
  if (batteryMinus !== undefined) node(draft, lug(part, 'ring'), batteryMinus);
  if (isShorting) draft.returns.push(lug(part, 'tip-switch'));
  const tip = lug(part, 'tip');
  join(hot, tip);
  return tip;
}

/** A buffer with its battery. Returns what goes on and the battery's minus, which belongs on the jack. */
export function addBuffer(draft: Draft, hot: Node): { readonly hot: Node; readonly minus: Lug } {
  const { dice } = draft;
  draft.families.add('active');
  const stage = addPart(draft, 'buffer', { type: 'buffer' });
  const battery = addPart(draft, 'battery', { type: 'battery', values: ['9V'], reach: 'leads' });
  join(hot, lug(stage, 'in'));
  const plus = node(draft, lug(stage, 'plus'), lug(battery, 'plus'));
  draft.returns.push(lug(stage, 'minus'));
  if (dice.percent(50)) {
    const reservoir = addPart(draft, 'reservoir', { type: 'electrolytic', values: ['10uF'], reach: 'leads' });
    join(plus, lug(reservoir, 'plus'));
    draft.returns.push(lug(reservoir, 'minus'));
  }
  const out = node(draft, lug(stage, 'out'));
  const minus = lug(battery, 'minus');
  if (dice.percent(50)) return { hot: out, minus };
  const [coupling, load] = [
    addPart(draft, 'out-cap', { type: 'capacitor', values: ['1uF'], reach: 'leads' }),
    addPart(draft, 'out-load', { type: 'resistor', values: ['100k'], reach: 'leads' }),
  ];
  join(out, lug(coupling, 'a'));
  draft.returns.push(lug(load, 'b'));
  return { hot: node(draft, lug(coupling, 'b'), lug(load, 'a')), minus };
}

/** A switch that passes the signal or lays the output on ground. */
export function addMute(draft: Draft, { hot, sounds }: Ending): Ending {
  const { part, poles } = addTwoWay(draft, 'mute', 1, ['play', 'mute'], { mustName: true });
  const [pole] = poles as readonly [Pole];
  draft.families.add('mute');
  join(hot, pole.throws[0]!);
  draft.returns.push(pole.throws[1]!);
  return { hot: node(draft, pole.common), sounds: silentAt(part, 1, sounds) };
}

/** A switch in the signal that opens it. */
export function addStandby(draft: Draft, { hot, sounds }: Ending): Ending {
  const part = addPart(draft, 'standby', { type: 'spst' });
  draft.families.add('standby');
  draft.metal.push(lug(part, 'frame'));
  addDevice(draft, part, namePositions(draft, part, ['play', 'standby'], true));
  join(hot, lug(part, 'A0'));
  return { hot: node(draft, lug(part, 'A1')), sounds: silentAt(part, 1, sounds) };
}

/** A button that lays the tip on the sleeve while it is pressed, or that opens the signal. */
export function addKill(draft: Draft, { hot, sounds }: Ending): Ending {
  const opens = draft.dice.percent(40);
  const part = addPart(draft, 'kill', { type: opens ? 'push-off' : 'push-on' });
  draft.families.add('kill');
  draft.metal.push(lug(part, 'frame'));
  addDevice(draft, part, ['rest', 'pressed'], true);
  join(hot, lug(part, 'A0'));
  if (opens) return { hot: node(draft, lug(part, 'A1')), sounds: silentAt(part, 1, sounds) };
  draft.returns.push(lug(part, 'A1'));
  return { hot, sounds: silentAt(part, 1, sounds) };
}

function silentAt(part: object, position: number, sounds: Sound): Sound {
  return (state) => (positionIn(state, part) === position ? 'silent' : sounds(state));
}

/** Takes the signal past what `stage` adds to it, both ends switched so that nothing of it stays on. */
export function addBypass(draft: Draft, hot: Node, stage: (hot: Node) => Node): Node {
  const { poles } = addTwoWay(
    draft,
    'straight',
    2,
    draft.dice.pick([['controls', 'straight'] as const, ['normal', 'direct'] as const]),
  );
  const [a, b] = poles as readonly [Pole, Pole];
  draft.families.add('bypass');
  join(hot, a.common);
  join(stage(node(draft, a.throws[0]!)), b.throws[0]!);
  node(draft, a.throws[1]!, b.throws[1]!);
  return node(draft, b.common);
}
