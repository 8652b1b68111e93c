/** Whether bodies have room: small parts between the parts that they join, what stands on a plate or in a cavity, wires under a pickup. */
import { figure } from '../claim.js';
import { millimetres } from '../checks/index.js';
import type { Part } from '../circuit/model.js';
import { append } from '../collections.js';
import type { Report, TightFitClaim } from '../checks/index.js';
import type { Build } from './build.js';
import type { Run } from './places/runs.js';
import { runDiameter } from './places/wire-sizes.js';

/** Length of one lead of a small part as it comes, metres; common practice. */
const LEAD = 0.03;

/** What has no room, where the text gives the measures. */
export function tightFits(build: Build): readonly Report<TightFitClaim>[] {
  return [...between(build), ...deep(build), ...under(build)];
}

/** The body as the text gives it; a type's default is for the picture, not for a fit. */
function bodyOf(part: Part): number | undefined {
  const body = part.properties.body;
  return body !== undefined && 'value' in body && body.known && body.range !== undefined ? body.value : undefined;
}

function between(build: Build): Report<TightFitClaim>[] {
  return build.work.items.flatMap((item): Report<TightFitClaim>[] => {
    const part = item.part === undefined ? undefined : build.parts[item.part];
    const body = part === undefined ? undefined : bodyOf(part);
    const [a, b] = item.ends;
    if (part === undefined || body === undefined || a === undefined || b === undefined) return [];
    const [from, to] = [build.partAt(a.lug), build.partAt(b.lug)];
    if (from === to || from.at === undefined || to.at === undefined || from.plate === undefined || from.plate !== to.plate)
      return [];
    const distance = Math.hypot(from.at.x - to.at.x, from.at.y - to.at.y);
    const common = { range: part.nameRange, subjects: [part.name] };
    const subjects = { part: part.name, between: [build.label(a.lug), build.label(b.lug)] as const };
    if (body > distance)
      return [
        {
          ...common,
          claim: { kind: 'too-long', subjects, figures: sizes(body, distance) },
          why: 'Stand it on end, use a smaller one, or solder it over the back of one pot.',
        },
      ];
    if (body + 2 * LEAD < distance)
      return [
        {
          ...common,
          claim: { kind: 'too-short', subjects, figures: sizes(body + 2 * LEAD, distance) },
          why: 'Lengthen one lead with sleeved wire, or solder it to nearer lugs.',
        },
      ];
    return [];
  });
}

/** A body deeper than its cavity. */
function deep(build: Build): Report<TightFitClaim>[] {
  return build.parts.flatMap((part) => {
    const [body, depth] = [bodyOf(part), build.depthOf(part.cavity)];
    if (part.inPlace || body === undefined || depth === undefined || body <= depth) return [];
    const subjects = { part: part.name, cavity: part.cavity ?? '' };
    return [
      {
        claim: { kind: 'too-deep', subjects, figures: sizes(body, depth) },
        why: 'Deepen the cavity, or use a shallower part.',
        range: part.nameRange,
        subjects: [part.name],
      },
    ];
  });
}

/** Wires that cross a pickup's cavity from channel to channel, under the pickup. */
function under(build: Build): Report<TightFitClaim>[] {
  const { settings } = build;
  const crossings = runsThrough(build);
  return build.parts.flatMap((part) => {
    const [body, depth] = [bodyOf(part), build.depthOf(part.cavity)];
    if (part.family !== 'pickup' || body === undefined || depth === undefined || body > depth) return [];
    const crossing = crossings.get(part.cavity ?? '') ?? [];
    const thick = Math.max(0, ...crossing.map((run) => runDiameter({ ...run.joint, ownLead: run.ownLead }, settings)));
    if (thick <= depth - body) return [];
    return [
      {
        claim: {
          kind: 'wires-under',
          subjects: { part: part.name },
          figures: { ...sizes(thick, depth - body), wires: figure(crossing.length, 'count') },
        },
        why: `${part.cavity} is ${millimetres(depth)} deep and ${part.name} ${millimetres(body)}. Rout a channel in the floor, or route the wires round the side.`,
        range: part.nameRange,
        subjects: [part.name],
      },
    ];
  });
}

/** By cavity, the wires that come into it through one channel and leave it through another. */
function runsThrough(build: Build): ReadonlyMap<string, readonly Run[]> {
  const through = new Map<string, Run[]>();
  for (const run of build.runs) {
    const mouths = new Map<string, number>();
    for (const { from, to } of run.route.channels)
      for (const cavity of new Set([from, to])) mouths.set(cavity, (mouths.get(cavity) ?? 0) + 1);
    for (const [cavity, count] of mouths) if (count > 1) append(through, cavity, run);
  }
  return through;
}

function sizes(needed: number, available: number): Pick<TightFitClaim['figures'], 'needed' | 'available'> {
  return { needed: figure(needed, 'metre'), available: figure(available, 'metre') };
}
