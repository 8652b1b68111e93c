/** Composes a circuit by independent choices, from the pickups to the jack, so that every kind of one thing meets every kind of another. */
import {
  addBassCut,
  addOwnControls,
  addSharedTones,
  addTone,
  addToneSwitch,
  addVolume,
  addBleed,
  type OwnControls,
} from './controls.js';
import { join, node, type Draft, type Node } from './draft.js';
import { addBuffer, addBypass, addJack, addKill, addMute, addStandby, type Ending } from './endings.js';
import { addFront } from './fronts.js';
import { addCover, addPickup, pickupLabels, pickupNames, type PickupKind, type Source } from './pickups.js';
import { placeIn, planSelection, type Plan } from './plans.js';
import { addPot } from './pots.js';
import { select } from './selecting.js';
import type { Selected } from './stages.js';
import { addTwoWay, type Pole } from './switches.js';
import { positionIn } from './voice.js';

export function compose(draft: Draft, count: number): void {
  const { dice } = draft;
  const labels = pickupLabels(draft, count);
  const names = pickupNames(draft, labels);
  const kinds = pickupKinds(draft, count);
  const isAlternating = dice.percent(60);
  // Two circuits that share nothing but ground have a jack each.
  const first = count > 1 && dice.percent(7) ? dice.whole(1, count - 1) : count;
  draft.families.add(first < count ? 'two jacks' : `${count} pickup${count > 1 ? 's' : ''}`);
  for (const [from, to] of [[0, first] as const, [first, count] as const]) {
    if (from === to) continue;
    const plan = planSelection(draft, to - from);
    const sources = names.slice(from, to).map((name, index) => {
      const pickup = addPickup(draft, name, kinds[from + index]!, from + index, isAlternating && (from + index) % 2 === 1);
      return addFront(draft, pickup, labels[from + index]!, placeIn(plan, index));
    });
    addChannel(draft, plan, sources, from === 0);
  }
}

/** Mostly of one kind, as bought in a set. */
function pickupKinds({ dice }: Draft, count: number): readonly PickupKind[] {
  const kinds = ['single-coil', 'humbucker', 'humbucker-4', 'single-coil', 'humbucker-4', 'single-coil-tapped'] as const;
  const usual = dice.pick(kinds);
  return Array.from({ length: count }, () => (dice.percent(75) ? usual : dice.pick(kinds)));
}

/** Everything from some pickups to their jack. */
function addChannel(draft: Draft, plan: Plan, sources: readonly Source[], isFirst: boolean): void {
  const { dice } = draft;
  const isTogether = plan.way === 'four ways' || plan.way === 'series or parallel' || plan.way === 'blend';
  const preset = !isTogether && isFirst && dice.percent(10) ? addPreset(draft, dice.pick(sources)) : undefined;
  const own = ownControls(draft, plan, sources.length, isTogether);
  const selected = select(
    draft,
    plan,
    sources.map((source) => addOwnControls(draft, source, own)),
  );
  const main = addMaster(draft, selected, own);
  const active = isFirst && dice.percent(15) ? addBuffer(draft, main) : undefined;
  let ending: Ending = { hot: active?.hot ?? main, sounds: selected.sounds };
  if (preset !== undefined) ending = preset(ending);
  if (dice.percent(8)) ending = addMute(draft, ending);
  else if (dice.percent(7)) ending = addStandby(draft, ending);
  if (dice.percent(13)) ending = addKill(draft, ending);
  const tip = addJack(draft, ending.hot, active?.minus);
  const { states, selecting, turned = [] } = selected;
  draft.outputs.push({ tip, isFirst, sounds: ending.sounds, states, selecting, turned });
  sources.forEach((source) => addReturn(draft, source));
}

function addReturn(draft: Draft, { pickup, cold }: Source): void {
  const isPlain = pickup.kind === 'single-coil' || pickup.kind === 'humbucker';
  addCover(draft, pickup, cold !== undefined);
  if (cold === undefined) return;
  if (isPlain && draft.dice.percent(12)) {
    draft.families.add('braided lead');
    draft.braids.push({ hot: pickup.hot, cold });
  } else draft.returns.push(cold);
}

function ownControls({ dice }: Draft, plan: Plan, count: number, isTogether: boolean): OwnControls {
  const isMany = count > 1 && !isTogether;
  const volume = isMany && (plan.way === 'always' || dice.percent(35)) ? dice.pick(['end', 'wiper'] as const) : 'none';
  return {
    volume,
    tone: volume === 'none' ? 'none' : dice.pick(['none', 'input', 'input', 'output'] as const),
    isStacked: dice.percent(20),
    bleed: dice.percent(20),
  };
}

/** Bass cut, volume, bleed and tones behind the selecting switch; returns what goes on. */
function addMaster(draft: Draft, { hot, spare }: Selected, own: OwnControls): Node {
  const { dice } = draft;
  const isBare = own.volume === 'none';
  if (!isBare && dice.percent(70)) return hot;
  const stage = (given: Node): Node => {
    const start = dice.percent(7) ? addBassCut(draft, given) : given;
    const out = addVolume(draft, addPot(draft, 'master'), start, 'end');
    if (dice.percent(25)) addBleed(draft, start, out);
    if (isBare && dice.percent(75)) addMasterTone(draft, start, out, spare);
    return out;
  };
  return dice.percent(8) ? addBypass(draft, hot, stage) : stage(hot);
}

function addMasterTone(draft: Draft, hot: Node, out: Node, spare: Pole | undefined): void {
  const { dice } = draft;
  if (spare !== undefined && dice.percent(50)) return addSharedTones(draft, hot, spare);
  if (dice.percent(12)) return addToneSwitch(draft, hot);
  addTone(draft, dice.percent(75) ? hot : out);
}

/** A second circuit for one pickup with a volume, and perhaps a tone, that are set once. Pole B sends the pickup to one circuit, pole A fetches the output from it. */
function addPreset(draft: Draft, source: Source): (main: Ending) => Ending {
  const { part, poles } = addTwoWay(draft, 'circuit', 2, ['main', 'preset'], { isPot: false });
  const [a, b] = poles as readonly [Pole, Pole];
  draft.families.add('two circuits');
  join(source.hot, b.common);
  source.hot = node(draft, b.throws[0]!);
  const hot = node(draft, b.throws[1]!);
  const out = addVolume(draft, addPot(draft, 'volume', 'preset'), hot, 'end');
  if (draft.dice.percent(60)) addTone(draft, hot, 'preset');
  join(out, a.throws[1]!);
  return (main) => {
    join(main.hot, a.throws[0]!);
    return {
      hot: node(draft, a.common),
      sounds: (state) => (positionIn(state, part) === 1 ? source.sounds(state) : main.sounds(state)),
    };
  };
}
