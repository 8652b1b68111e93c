/** The rules of the order as they can be checked on a finished plan: each tells where it is broken. */
import type { Build } from '../build.js';
import { hiddenBy } from './assign.js';
import { isStringSpot } from './order-frame.js';
import { isBench } from '../places/areas.js';
import type { Plan, Step } from './plan.js';
import { piecesOf } from './sleeves.js';
import type { End, Item } from './work.js';

/** A plan that keeps every rule gives no line; otherwise a sentence for each breach. The proof that an order is feasible. */
export function orderBreaches(build: Build, plan: Plan): readonly string[] {
  const view = viewOf(build, plan);
  return CHECKS.flatMap((check) => check(view));
}

interface View {
  readonly build: Build;
  readonly plan: Plan;
  readonly steps: readonly Step[];
  readonly attached: ReadonlyMap<End, number>;
  /** Step in which an end is soldered. */
  readonly soldered: ReadonlyMap<End, number>;
}

function viewOf(build: Build, plan: Plan): View {
  const steps = plan.stages.flatMap((stage) => stage.steps);
  const attached = new Map<End, number>();
  const soldered = new Map<End, number>();
  for (const step of steps) {
    for (const end of step.ends ?? []) attached.set(end, step.number);
    if (step.kind !== 'heat' && step.kind !== 'lay') continue;
    for (const [end] of attached) if (end.spot === step.spot && !soldered.has(end)) soldered.set(end, step.number);
  }
  return { build, plan, steps, attached, soldered };
}

const CHECKS: readonly ((view: View) => string[])[] = [
  everyEnd,
  oneHeat,
  insideFirst,
  coverLast,
  stringGround,
  closeLast,
  throughFirst,
  countedHeats,
  sleevesFirst,
];

/** Every end is brought and soldered, once. */
function everyEnd({ build, attached, soldered }: View): string[] {
  const ends = build.work.items.flatMap((item) => item.ends);
  return ends.filter((end) => !attached.has(end) || !soldered.has(end)).map((end) => `${name(build, end)} is never soldered`);
}

/** A lug with an eyelet is heated once; no heat finds nothing to solder. */
function oneHeat({ build, steps }: View): string[] {
  const { spots } = build.work;
  return spots.flatMap((spot) => {
    const heats = steps.filter((step) => step.kind === 'heat' && step.spot === spot.id).length;
    const most = spot.flat ? 2 : 1;
    return heats > most ? [`${build.label(spot.lug)} is heated ${heats} times`] : [];
  });
}

/** In one stage no end of what stays inside comes after one of what leaves. */
function insideFirst({ build, plan }: View): string[] {
  const { item: itemOf } = build.work;
  const itemIn = (step: Step): Item | undefined =>
    step.kind !== 'attach' || step.item === undefined ? undefined : itemOf(step.item);
  return plan.stages
    .filter(({ kind }) => kind === 'bench')
    .flatMap(({ steps }) => {
      const leaving = steps.findIndex((step) => itemIn(step)?.inside === false);
      if (leaving < 0) return [];
      return steps
        .slice(leaving)
        .filter((step) => itemIn(step)?.inside === true)
        .map((step) => `step ${step.number} stays inside but follows a wire that leaves`);
    });
}

/** What a small part hides is soldered before the part is set. */
function coverLast({ build, attached, soldered }: View): string[] {
  const { items, spot } = build.work;
  return items.flatMap((item) => {
    const hidden = hiddenBy(build, item);
    const set = Math.min(...item.ends.map((end) => attached.get(end) ?? Infinity));
    const late = items
      .flatMap((other) => (other === item ? [] : other.ends))
      .filter((end) => spot(end.spot).lugs.some((lug) => hidden.includes(lug)) && (soldered.get(end) ?? 0) > set);
    return late.map((end) => `${name(build, end)} is hidden before it is soldered`);
  });
}

/** The string wire lies before bridge or posts are fitted. */
function stringGround({ build, steps, attached }: View): string[] {
  const { spot } = build.work;
  const fitted = steps.find((step) => step.key === 'seat bridge')?.number ?? Infinity;
  return [...attached]
    .filter(([end, at]) => isStringSpot(build, spot(end.spot)) && at > fitted)
    .map(([end]) => `${name(build, end)} comes after the bridge is fitted`);
}

/** Nothing is soldered once a pickup is seated or a plate is screwed down; plates are last. */
function closeLast({ steps }: View): string[] {
  const closed = steps.find((step) => step.kind === 'seat' || step.kind === 'close')?.number ?? Infinity;
  const plate = steps.find((step) => step.kind === 'close')?.number ?? Infinity;
  const after = steps.filter(
    (step) => step.number > closed && (step.kind === 'heat' || step.kind === 'attach' || step.kind === 'thread'),
  );
  const seats = steps.filter((step) => step.number > plate && step.kind === 'seat');
  return [...after, ...seats].map((step) => `step ${step.number} comes after the body is closed`);
}

/** A wire through a channel has one end soldered at most when it is pulled, and the other comes after. */
function throughFirst({ build, steps, attached }: View): string[] {
  const { items, spot } = build.work;
  return items.flatMap(({ run, ends }) => {
    if (run === undefined) return [];
    const { channels } = run.route;
    const pulled = steps
      .filter(({ kind, channel }) => kind === 'thread' && channel !== undefined && channels.includes(channel))
      .map(({ number }) => number);
    const main = ends.filter(({ side }) => side !== 'screen');
    const before = main.filter((end) => pulled.some((number) => (attached.get(end) ?? 0) < number));
    const missing = pulled.length < channels.length ? [`${run.mark} is not pulled through`] : [];
    const onPlates = before.filter((end) => isBench(spot(end.spot).area));
    return before.length > 1 || onPlates.length < before.length
      ? [...missing, `${run.mark} is soldered before it is pulled through`]
      : missing;
  });
}

/** The plan's own count of second heats is what its steps do. */
function countedHeats({ build, plan, steps }: View): string[] {
  const { spots } = build.work;
  const twice = spots.filter((spot) => steps.filter((step) => step.kind === 'heat' && step.spot === spot.id).length > 1).length;
  const wrong = plan.reheats === twice ? [] : [`${twice} spots are heated twice, ${plan.reheats} are reported`];
  return plan.bound > plan.reheats ? [...wrong, 'the plan gives fewer second heats than are possible'] : wrong;
}

/** Heat-shrink is slid on in the step of the first end. */
function sleevesFirst({ build, steps }: View): string[] {
  return build.work.items.flatMap((item) => {
    if (piecesOf(build, item).length === 0) return [];
    const first = steps.find(
      (step) => step.item === item.id && (step.kind === 'attach' || step.kind === 'cut' || step.kind === 'lay'),
    );
    return first?.text.includes('sleeve') === true ? [] : [`no sleeve is slid on item ${item.id} before its second end`];
  });
}

function name(build: Build, end: End): string {
  return `${build.work.item(end.item).run?.mark ?? 'an end'} at ${build.label(end.lug)}`;
}
