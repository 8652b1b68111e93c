/** The soldering of one stage: things are brought to their lugs one by one, and each lug is soldered when its last wire has arrived. No heat takes more than hands can hold. */
import { farEnd, type LugId, type Part } from '../../circuit/model.js';
import { append, firstOf, groupBy } from '../../collections.js';
import type { OrderPreferences } from '../build-settings.js';
import type { Build } from '../build.js';
import { piecesOf } from './sleeves.js';
import { foilLug } from '../places/parts-fit.js';
import { itemName, lengthText, pieceMark, wireKind } from '../wording.js';
import { type Assignment, hiddenBy } from './assign.js';
import type { RoughStep } from './order-frame.js';
import { REASONS, type RuleName } from './order-reasons.js';
import type { End, Item, Spot, SpotId } from './work.js';
import { listed } from '../../words.js';

/** What is hooked or laid on each spot and not soldered yet, and how much of the spot is done: kept through all stages. */
export interface Progress {
  /** By spot, in the order in which they came. */
  readonly waiting: Map<SpotId, End[]>;
  /** Ends brought to each spot so far. */
  readonly brought: Map<SpotId, number>;
}

export function freshProgress(): Progress {
  return { waiting: new Map(), brought: new Map() };
}

/**
 * Steps for the ends that come in this stage; `begun` holds the items of which another end is on already. A wire on a case is tacked at once where it lies,
 * for it can't be hooked there; a lug is soldered when its last wire has come, or when it holds as many as one heat takes.
 */
export function solderSteps(
  build: Build,
  ends: readonly End[],
  assignment: Assignment,
  { begun, progress }: { readonly begun: ReadonlyMap<number, 'cut' | 'on'>; readonly progress: Progress },
): readonly RoughStep[] {
  const { work, preferences } = build;
  const order = [...groupBy(ends, (end) => end.item)]
    .map(([id, mine]) => ({ item: work.item(id), mine }))
    .sort(({ item: a }, { item: b }) => rank(a, assignment, preferences) - rank(b, assignment, preferences) || a.id - b.id);
  const steps: RoughStep[] = [];
  /** Lugs that are ready for the iron. */
  const pending: Spot[] = [];
  let last: number | undefined;
  /** Lugs of a switch spoil under long heat, so that a second one of the same switch does not follow at once. */
  const isWarm = (spot: Spot): boolean => {
    const { part } = build.lug(spot.lug);
    return part === last && build.part(part).family === 'switch';
  };
  const waitingAt = (spot: Spot): End[] => progress.waiting.get(spot.id) ?? [];
  const heat = (spot: Spot): void => {
    if (pending.includes(spot)) pending.splice(pending.indexOf(spot), 1);
    const most = mostAt(build, spot);
    for (let left = waitingAt(spot); left.length > 0; left = left.slice(most)) {
      steps.push(
        heatStep(build, spot, left.slice(0, most), { cool: isWarm(spot), isLast: left.length <= most && isComplete(spot) }),
      );
      last = build.lug(spot.lug).part;
    }
    progress.waiting.delete(spot.id);
  };
  const isComplete = ({ id }: Spot): boolean => progress.brought.get(id) === work.endsAt(id).length;
  /** Solders what is whole; a lug of the part that was heated just now waits while others can be taken. */
  const drain = (whole: boolean): void => {
    for (;;) {
      const next = pending.find((spot) => !isWarm(spot)) ?? (whole ? pending[0] : undefined);
      if (next === undefined) return;
      heat(next);
    }
  };
  const bring = (end: End, later: readonly End[]): void => {
    const spot = work.spot(end.spot);
    append(progress.waiting, spot.id, end);
    progress.brought.set(spot.id, (progress.brought.get(spot.id) ?? 0) + 1);
    const isReady = spot.flat
      ? later.every((other) => other.spot !== spot.id)
      : isComplete(spot) || waitingAt(spot).length >= mostAt(build, spot);
    if (isReady && !pending.includes(spot)) pending.push(spot);
  };
  for (const [i, { item, mine }] of order.entries()) {
    if (!item.inside && order[i - 1]?.item.inside === true) drain(true);
    const hidden = hiddenBy(build, item);
    for (const spot of hidden.length === 0 ? [] : [...pending]) if (spot.lugs.some((lug) => hidden.includes(lug))) heat(spot);
    steps.push(attachStep(build, item, mine, begun.get(item.id)));
    for (const [k, end] of mine.entries()) bring(end, mine.slice(k + 1));
    for (const spot of pending.filter(({ flat }) => flat)) heat(spot);
    drain(false);
  }
  drain(true);
  return steps;
}

/** How many ends one heat takes there. */
function mostAt({ settings }: Build, spot: Spot): number {
  return spot.flat ? settings['case-ends'] : settings.ends;
}

/** Inside before what leaves; in each, ground before signal unless the shop prefers it the other way, bent lugs and wires before small parts. */
function rank(item: Item, assignment: Assignment, { first, leads }: OrderPreferences): number {
  // A small part that waited for the body stage waits there, too, for the wires of the lugs that it covers.
  if (item.inside && item.kind === 'part' && item.ends.some((end) => assignment.phaseOf(end) === 'body')) return 16;
  const kind = item.kind === 'bend' ? 0 : item.kind === 'part' ? 4 : item.ground === (first === 'ground') ? 1 : 2;
  if (item.kind === 'lead' && leads !== 'with') return (leads === 'first' ? 7 : 11) + kind / 8;
  return (item.inside ? 0 : 8) + (item.kind === 'bend' && !item.ground ? 2 : kind);
}

function heatStep(
  build: Build,
  spot: Spot,
  here: readonly End[],
  { cool, isLast }: { readonly cool: boolean; readonly isLast: boolean },
): RoughStep {
  const { work } = build;
  const names = listed([...new Set(here.map((end) => itemName(build, work.item(end.item))))]);
  const solder = cool ? 'Let it cool, then solder' : 'Solder';
  const label = build.label(spot.lug);
  const rule: RuleName = spot.flat ? 'flat-together' : 'one-heat';
  const [onto = spot.lug, other] = new Set(here.map((end) => metalUnder(work.item(end.item), end)));
  return {
    kind: 'heat',
    key: `solder ${label}: ${comingTo(build, here)}`,
    spot: spot.id,
    soldered: here,
    rule,
    text: spot.flat
      ? `${solder} ${names} to ${other === undefined ? build.label(onto) : label}.`
      : `${solder} ${label}: ${names}${isLast ? '' : '; more come later'}.`,
    because: REASONS[rule],
    ...(cool ? { cool: true } : {}),
  };
}

/** The lug on which an end is laid: of a lug that is bent, the one under it. */
function metalUnder({ kind, joints }: Item, { lug }: End): LugId {
  return kind === 'bend' ? firstOf(joints).b : lug;
}

/** What comes to a lug, by the other ends: numbers of wires move when a line is put in before them, so a key has none. */
function comingTo(build: Build, here: readonly End[]): string {
  const { work } = build;
  const names = here.map(({ item, lug }) => {
    const { run, part } = work.item(item);
    if (run !== undefined) return build.label(farEnd(run.joint, lug));
    return part === undefined ? 'bent' : build.part(part).name;
  });
  return names.sort().join(' ');
}

/** Where the marked lead goes, for a capacitor of which it is said. */
function foilAt(build: Build, part: Part, { joints }: Item, ends: readonly End[]): string | undefined {
  const foil = foilLug(build, part);
  const end = ends.find(({ lug }) => joints.some(({ a, b }) => (a === foil && b === lug) || (b === foil && a === lug)));
  return foil === undefined || end === undefined ? undefined : build.label(end.lug);
}

function attachStep(build: Build, item: Item, ends: readonly End[], before: 'cut' | 'on' | undefined): RoughStep {
  const rule = ruleOf(build, item, before);
  const common = { kind: 'attach' as const, item: item.id, ends, rule, because: REASONS[rule] };
  if (item.kind === 'bend') return { ...common, ...bendWords(build, item, ends) };
  const { key, what, places, minding } =
    item.kind === 'part' ? partWords(build, item, ends, before) : wireWords(build, item, ends, before);
  return { ...common, key, what, minding: minding.join(' '), text: [`${what}: ${places}.`, ...minding].join(' ') };
}

/** What is said of a step, piece by piece. */
interface StepWords {
  readonly key: string;
  readonly what: string;
  readonly places: string;
  /** Sentences. */
  readonly minding: readonly string[];
}

function bendWords(build: Build, { joints }: Item, ends: readonly End[]): Pick<RoughStep, 'key' | 'text'> {
  const { a, b } = firstOf(joints);
  const [bent, onto] = [build.label(a), build.label(b)];
  const isMetal = ends.every((end) => build.work.spot(end.spot).area.kind === 'pickup');
  const text = isMetal ? `Scrape ${bent} and ${onto} where they meet.` : `Bend ${bent} onto ${onto}.`;
  return { key: `bend ${bent} ${onto}`, text };
}

function sleeveWords(build: Build, item: Item, before: 'cut' | 'on' | undefined): readonly string[] {
  const count = before === 'on' ? 0 : piecesOf(build, item).length;
  return count === 0 ? [] : [`Slide on ${count} × sleeve first.`];
}

function partWords(
  build: Build,
  item: Item & { readonly kind: 'part' },
  ends: readonly End[],
  before: 'cut' | 'on' | undefined,
): StepWords {
  const part = build.part(item.part);
  const at = ends.map((end) => build.label(end.lug));
  const away = before === 'on' ? undefined : item.ends.find((end) => !ends.includes(end));
  const foil = foilAt(build, part, item, ends);
  return {
    key: `part ${part.name} ${at.join(' ')}`,
    what: part.name,
    places: `${before === 'on' || ends.length === 1 ? 'lead' : 'leads'} to ${listed(at)}`,
    minding: [
      ...(foil === undefined ? [] : [`The marked lead (outer foil) goes to ${foil}.`]),
      ...(away === undefined ? [] : [`The other lead waits for ${build.label(away.lug)}.`]),
      ...sleeveWords(build, item, before),
    ],
  };
}

function wireWords(
  build: Build,
  item: Item & { readonly kind: 'wire' | 'lead' },
  ends: readonly End[],
  before: 'cut' | 'on' | undefined,
): StepWords {
  const { run, runs } = item;
  const [kind, mark, length] = [wireKind(build, run), pieceMark(runs), lengthText(runs)];
  const main = ends.filter(({ side }) => side !== 'screen');
  const ties = ends.filter(({ side }) => side === 'screen').map((end) => build.label(end.lug));
  const at = ends.map((end) => build.label(end.lug)).join(' ');
  const from = main[0] === undefined ? build.label(run.joint.a) : build.label(farEnd(run.joint, main[0].lug));
  const key = `wire ${build.label(run.joint.a)} ${build.label(run.joint.b)} ${at} ${kind} ${length}`;
  const tie = ties.length === 0 ? '' : `its screen to ${listed(ties)}`;
  const places = [placesOf(build, main), tie].filter((word) => word !== '').join(', ');
  const shields = shieldWords(build, ends);
  if (item.kind === 'lead') {
    const words = [kind, main[0] === undefined ? '' : `lead of ${from}`].filter((word) => word !== '');
    return { key, what: `${mark} (${words.join(' ')})`, places, minding: shields };
  }
  if (before === 'cut') return { key, what: `${mark} (${kind}, cut before)`, places, minding: shields };
  if (before === 'on') return { key, what: `${mark} (${kind}, from ${from})`, places, minding: shields };
  const other = item.ends.filter((end) => !ends.includes(end) && end.side !== 'screen').map((end) => build.label(end.lug));
  const out = other.length === 0 ? [] : [`Tag the free end “${mark} ${other.join(' ')}”.`];
  return {
    key,
    what: `${mark} ${kind}, ${length}`,
    places: `tin, ${places}`,
    minding: [...out, ...sleeveWords(build, item, before), ...shields],
  };
}

/** Conductive paint takes no solder, and the text does not say whether a shield is paint or foil. */
function shieldWords(build: Build, ends: readonly End[]): readonly string[] {
  const shields = ends
    .filter(({ lug }) => build.part(build.lug(lug).part).family === 'cavity')
    .map(({ lug }) => build.label(lug));
  return shields.map(
    (name) =>
      `On paint, ${name} takes the wire on a solder lug under a screw in its wall; on copper foil, solder it to the foil.`,
  );
}

/** `hook into circuit.B2 and volume.3`, `lay on volume.case`. */
function placesOf(build: Build, ends: readonly End[]): string {
  const { spot } = build.work;
  const named = (flat: boolean): string =>
    listed(ends.filter((end) => spot(end.spot).flat === flat).map((end) => build.label(end.lug)));
  const [hooked, laid] = [named(false), named(true)];
  return [hooked === '' ? '' : `hook into ${hooked}`, laid === '' ? '' : `lay on ${laid}`]
    .filter((word) => word !== '')
    .join(', ');
}

function ruleOf(build: Build, item: Item, before: 'cut' | 'on' | undefined): RuleName {
  if (item.kind === 'part') return 'cover-last';
  if (item.kind === 'lead') return 'lead-when-open';
  if (before === 'on') return 'second-end';
  if (item.ground && build.preferences.first === 'ground') return 'ground-first';
  return item.inside ? 'inside-first' : 'leaving-after';
}
