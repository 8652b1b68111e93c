/** The soldering of one stage: things are brought to their lugs one by one, and each lug is soldered when its last wire has arrived. */
import type { Part } from '../../circuit/model.js';
import { firstOf, groupBy, valueFor } from '../../collections.js';
import type { OrderPreferences } from '../build-settings.js';
import type { Build } from '../build.js';
import { piecesOf } from './sleeves.js';
import { foilLug } from '../places/parts-fit.js';
import { farEnd, runLength, wireKind } from '../wording.js';
import { type Assignment, hiddenBy } from './assign.js';
import type { RoughStep } from './order-frame.js';
import { REASONS, type RuleName } from './order-reasons.js';
import type { End, Item, Spot, SpotId } from './work.js';
import { listed } from '../../words.js';

/** Steps for the ends that come in this stage; `begun` holds the items of which another end is on already. */
export function solderSteps(
  build: Build,
  ends: readonly End[],
  assignment: Assignment,
  begun: ReadonlyMap<number, 'cut' | 'on'>,
): readonly RoughStep[] {
  const { work, preferences } = build;
  const order = [...groupBy(ends, (end) => end.item)]
    .map(([id, mine]) => ({ item: work.item(id), mine }))
    .sort(({ item: a }, { item: b }) => rank(a, assignment, preferences) - rank(b, assignment, preferences) || a.id - b.id);
  const here = new Set(ends);
  const left = new Map<SpotId, number>();
  for (const end of ends) left.set(end.spot, (left.get(end.spot) ?? 0) + 1);
  const isComplete = (spot: Spot): boolean =>
    left.get(spot.id) === 0 && (spot.flat || work.endsAt(spot.id).every((end) => here.has(end) || isEarlier(end)));
  const isEarlier = (end: End): boolean => assignment.phaseOf(end) === 'bench' && begun.has(end.item);
  const steps: RoughStep[] = [];
  const pending: Spot[] = [];
  let last: number | undefined;
  /** Lugs of a switch spoil under long heat, so that a second one of the same switch does not follow at once. */
  const isWarm = (spot: Spot): boolean => {
    const { part } = build.lug(spot.lug);
    return part === last && build.part(part).family === 'switch';
  };
  const heat = (spot: Spot): void => {
    pending.splice(pending.indexOf(spot), 1);
    const part = build.lug(spot.lug).part;
    steps.push(heatStep(build, spot, ends, isWarm(spot)));
    last = part;
  };
  /** Solders what is whole; a lug of the part that was heated just now waits while others can be taken. */
  const drain = (whole: boolean): void => {
    for (;;) {
      const next = pending.find((spot) => !isWarm(spot)) ?? (whole ? pending[0] : undefined);
      if (next === undefined) return;
      heat(next);
    }
  };
  for (const [i, { item, mine }] of order.entries()) {
    if (!item.inside && order[i - 1]?.item.inside === true) drain(true);
    const hidden = hiddenBy(build, item);
    for (const spot of hidden.length === 0 ? [] : [...pending]) if (spot.lugs.some((lug) => hidden.includes(lug))) heat(spot);
    steps.push(attachStep(build, item, mine, begun.get(item.id)));
    for (const end of mine) {
      left.set(end.spot, valueFor(left, end.spot) - 1);
      const spot = work.spot(end.spot);
      if (isComplete(spot) && !pending.includes(spot)) pending.push(spot);
    }
    drain(false);
  }
  drain(true);
  return steps;
}

/** Inside before what leaves; in each, ground before signal unless the shop prefers it the other way, bent lugs and wires before small parts. */
function rank(item: Item, assignment: Assignment, { first, leads }: OrderPreferences): number {
  // A small part that waited for the body stage waits there, too, for the wires of the lugs that it covers.
  if (item.inside && item.kind === 'part' && item.ends.some((end) => assignment.phaseOf(end) === 'body')) return 16;
  const kind = item.kind === 'bend' ? 0 : item.kind === 'part' ? 4 : item.ground === (first === 'ground') ? 1 : 2;
  if (item.kind === 'lead' && leads !== 'with') return (leads === 'first' ? 7 : 11) + kind / 8;
  return (item.inside ? 0 : 8) + (item.kind === 'bend' && !item.ground ? 2 : kind);
}

function heatStep(build: Build, spot: Spot, ends: readonly End[], cool: boolean): RoughStep {
  const { work } = build;
  const here = spot.flat ? ends.filter((end) => end.spot === spot.id) : work.endsAt(spot.id);
  const names = [...new Set(here.map((end) => endName(build, work.item(end.item))))];
  const count = spot.flat && names.length > 1 ? ` together` : '';
  const others = spot.lugs.filter((lug) => lug !== spot.lug && build.partAt(lug).inPlace === false);
  const bent = others.length === 0 ? '' : ` with ${listed(others.map((lug) => build.label(lug)))} bent onto it`;
  return {
    kind: 'heat',
    key: `solder ${build.label(spot.lug)}: ${comingTo(build, here)}`,
    spot: spot.id,
    rule: spot.flat ? 'flat-together' : 'one-heat',
    text: `${cool ? 'Let it cool, then solder' : 'Solder'} ${build.label(spot.lug)}${bent}: ${listed(names)}${count}.`,
    because: REASONS[spot.flat ? 'flat-together' : 'one-heat'],
    ...(cool ? { cool: true } : {}),
  };
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
function foilAt(build: Build, part: Part, { joints }: Item, ends: readonly End[]): string {
  const foil = foilLug(build, part);
  const end = ends.find(({ lug }) => joints.some(({ a, b }) => (a === foil && b === lug) || (b === foil && a === lug)));
  return foil === undefined || end === undefined ? '' : ` The marked lead (outer foil) goes to ${build.label(end.lug)}.`;
}

function endName(build: Build, item: Item): string {
  if (item.run !== undefined) return item.run.mark;
  return item.part === undefined ? 'the bent lug' : build.part(item.part).name;
}

function attachStep(build: Build, item: Item, ends: readonly End[], before: 'cut' | 'on' | undefined): RoughStep {
  const second = before === 'on';
  const rule = ruleOf(build, item, before);
  const common = { kind: 'attach' as const, item: item.id, ends, rule, because: REASONS[rule] };
  const at = ends.map((end) => build.label(end.lug));
  if (item.kind === 'bend') {
    const { a, b } = firstOf(item.joints);
    const [bent, onto] = [build.label(a), build.label(b)];
    return { ...common, key: `bend ${bent} ${onto}`, text: `Bend ${bent} onto ${onto}.` };
  }
  const sleeves = piecesOf(build, item);
  const sleeve = second || sleeves.length === 0 ? '' : ` Slide on ${sleeves.length} × sleeve first.`;
  if (item.kind === 'part') {
    const part = build.part(item.part);
    const { name } = part;
    const away = item.ends.find((end) => !ends.includes(end));
    const rest = away === undefined || second ? '' : ` The other lead waits for ${build.label(away.lug)}.`;
    const lead = second || ends.length === 1 ? 'lead' : 'leads';
    return {
      ...common,
      key: `part ${name} ${at.join(' ')}`,
      text: `${name}: ${lead} to ${listed(at)}.${foilAt(build, part, item, ends)}${rest}${sleeve}`,
    };
  }
  const { run } = item;
  const kind = wireKind(build, run);
  const main = ends.filter(({ side }) => side !== 'screen');
  const ties = ends.filter(({ side }) => side === 'screen');
  const tie = ties.length === 0 ? '' : ` Its screen to ${listed(ties.map((end) => build.label(end.lug)))}.`;
  const key = `wire ${build.label(run.joint.a)} ${build.label(run.joint.b)} ${at.join(' ')} ${kind} ${runLength(run)}`;
  const places = placesOf(build, main);
  if (item.kind === 'lead') {
    const from = main[0] === undefined ? '' : build.label(farEnd(run.joint, main[0].lug));
    return {
      ...common,
      key,
      text: `${run.mark} (${[kind, `lead of ${from}`].filter((word) => word !== '').join(' ')}): ${places}.${tie}`,
    };
  }
  if (before === 'cut') return { ...common, key, text: `${run.mark} (${kind}, cut before): ${places}.${tie}` };
  if (second) {
    const from = main[0] === undefined ? build.label(run.joint.a) : build.label(farEnd(run.joint, main[0].lug));
    return { ...common, key, text: `${run.mark} (${kind}, from ${from}): ${places || 'its screen'}.${tie}` };
  }
  const other = item.ends.filter((end) => !ends.includes(end) && end.side !== 'screen').map((end) => build.label(end.lug));
  const out = other.length === 0 ? '' : ` Tag the free end “${run.mark} ${other.join(' ')}”.`;
  const text = `${run.mark} ${kind}, ${runLength(run)}: tin, ${places}.${tie}${out}${sleeve}`;
  return { ...common, key, text };
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
