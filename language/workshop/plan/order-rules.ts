/** The rules of the order as they can be checked on a finished plan: each tells where it is broken. */
import type { Build } from '../build.js';
import { hiddenBy } from './assign.js';
import { isStringSpot } from './order-frame.js';
import { isBench } from '../places/areas.js';
import type { Plan, Step } from './plan.js';
import { spliceLength } from '../places/runs.js';
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
    const done = step.kind === 'lay' ? [...attached.keys()].filter((end) => end.spot === step.spot) : (step.soldered ?? []);
    for (const end of done) if (attached.has(end) && !soldered.has(end)) soldered.set(end, step.number);
  }
  return { build, plan, steps, attached, soldered };
}

const CHECKS: readonly ((view: View) => string[])[] = [
  everyEnd,
  oneHeat,
  handful,
  tackedAtOnce,
  pickupsFirst,
  insideFirst,
  coverLast,
  stringGround,
  closeLast,
  splicedFirst,
  throughFirst,
  countedHeats,
  sleevesFirst,
];

/** Every end is brought and soldered, once. */
function everyEnd({ build, attached, soldered }: View): string[] {
  const ends = build.work.items.flatMap((item) => item.ends);
  return ends.filter((end) => !attached.has(end) || !soldered.has(end)).map((end) => `${name(build, end)} is never soldered`);
}

/** A lug with an eyelet is heated no more often than its ends make groups; no heat finds nothing to solder. */
function oneHeat({ build, steps }: View): string[] {
  const { spots, endsAt } = build.work;
  return spots.flatMap((spot) => {
    const heats = steps.filter((step) => step.kind === 'heat' && step.spot === spot.id);
    const idle = heats.filter(({ soldered }) => soldered === undefined || soldered.length === 0);
    const most = Math.ceil(endsAt(spot.id).length / build.settings.ends);
    const often = !spot.flat && heats.length > most ? [`${build.label(spot.lug)} is heated ${heats.length} times`] : [];
    return [...often, ...idle.map((step) => `step ${step.number} finds nothing to solder`)];
  });
}

/** No heat takes more ends than hands hold. */
function handful({ build, steps }: View): string[] {
  const { settings, work } = build;
  return steps.flatMap((step) => {
    if (step.spot === undefined || step.soldered === undefined) return [];
    const most = work.spot(step.spot).flat ? settings['case-ends'] : settings.ends;
    return step.soldered.length > most ? [`step ${step.number} solders ${step.soldered.length} ends in one heat`] : [];
  });
}

/** What lies on a case is tacked before anything else is brought. */
function tackedAtOnce({ build, steps, attached, soldered }: View): string[] {
  const brings = steps.filter(({ kind }) => kind === 'attach').map(({ number }) => number);
  return [...attached].flatMap(([end, at]) => {
    if (!build.work.spot(end.spot).flat) return [];
    const between = brings.filter((number) => number > at && number < (soldered.get(end) ?? Infinity)).length;
    return between > 0 ? [`${name(build, end)} lies loose on its case while ${between} others are brought`] : [];
  });
}

/** Covers and bases are soldered before the body is worked in. */
function pickupsFirst({ build, plan, soldered }: View): string[] {
  const { item, spot } = build.work;
  const body = plan.stages.find(({ kind }) => kind !== 'bench')?.steps[0]?.number ?? Infinity;
  return [...soldered]
    .filter(([end, at]) => spot(end.spot).area.kind === 'pickup' && item(end.item).inside && at >= body)
    .map(([end]) => `${name(build, end)} is soldered when the pickup is in the body`);
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

/** The plan's own count of cases that are heated in both stages is what its steps do. */
function countedHeats({ build, plan }: View): string[] {
  const heated = (isBench: boolean): Set<number | undefined> => {
    const stages = plan.stages.filter(({ kind }) => (kind === 'bench') === isBench);
    return new Set(stages.flatMap(({ steps }) => steps.filter(({ kind }) => kind === 'heat').map(({ spot }) => spot)));
  };
  const [bench, body] = [heated(true), heated(false)];
  const twice = build.work.spots.filter(({ id, flat }) => flat && bench.has(id) && body.has(id)).length;
  const wrong = plan.reheats === twice ? [] : [`${twice} cases are heated in both stages, ${plan.reheats} are reported`];
  return plan.bound > plan.reheats ? [...wrong, 'the plan gives fewer second heats than are possible'] : wrong;
}

/** A lead that is too short is made longer before it is pulled through or soldered. */
function splicedFirst({ build, steps }: View): string[] {
  return build.work.items.flatMap(({ id, run }) => {
    if (run === undefined || spliceLength(build, run) === undefined) return [];
    const at = steps.findIndex(({ kind, item }) => kind === 'splice' && item === id);
    const { channels } = run.route;
    const used = steps.findIndex(
      ({ kind, item, channel }) =>
        (kind === 'attach' && item === id) || (kind === 'thread' && channel !== undefined && channels.includes(channel)),
    );
    return at < 0 || (used >= 0 && used < at) ? [`${run.mark} is too short and is not spliced first`] : [];
  });
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
