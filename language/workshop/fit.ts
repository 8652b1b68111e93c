/** Whether bodies have room: small parts between the parts that they join, what stands on a plate or in a cavity, wires under a pickup. */
import { figure } from '../claim.js';
import { millimetres } from '../checks/index.js';
import { type AnalysedCircuit, lugLabel, partOfLug, type Part } from '../circuit/model.js';
import { append } from '../collections.js';
import type { Report, TightFitClaim } from '../checks/index.js';
import { buildSettings } from './build-settings.js';
import { placeIndexOf } from './places/place-index.js';
import { runsOf, type Run } from './places/runs.js';
import { runDiameter } from './places/wire-sizes.js';
import { workOf } from './plan/work.js';

/** Length of one lead of a small part as it comes, metres; common practice. */
const LEAD = 0.03;

/** What has no room, where the text gives the measures. */
export function tightFits(circuit: AnalysedCircuit): readonly Report<TightFitClaim>[] {
  return [...between(circuit), ...deep(circuit), ...under(circuit)];
}

/** The body as the text gives it; a type's default is for the picture, not for a fit. */
function bodyOf(part: Part): number | undefined {
  const body = part.properties.body;
  return body !== undefined && 'value' in body && body.known && body.range !== undefined ? body.value : undefined;
}

function between(circuit: AnalysedCircuit): Report<TightFitClaim>[] {
  return workOf(circuit).items.flatMap((item): Report<TightFitClaim>[] => {
    const part = item.part === undefined ? undefined : circuit.parts[item.part];
    const body = part === undefined ? undefined : bodyOf(part);
    const [a, b] = item.ends;
    if (part === undefined || body === undefined || a === undefined || b === undefined) return [];
    const [from, to] = [partOfLug(circuit, a.lug), partOfLug(circuit, b.lug)];
    if (from === to || from.at === undefined || to.at === undefined || from.plate === undefined || from.plate !== to.plate)
      return [];
    const distance = Math.hypot(from.at.x - to.at.x, from.at.y - to.at.y);
    const common = { range: part.nameRange, subjects: [part.name] };
    const subjects = { part: part.name, between: [lugLabel(circuit, a.lug), lugLabel(circuit, b.lug)] as const };
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
function deep(circuit: AnalysedCircuit): Report<TightFitClaim>[] {
  return circuit.parts.flatMap((part) => {
    const [body, depth] = [bodyOf(part), depthOf(circuit, part)];
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
function under(circuit: AnalysedCircuit): Report<TightFitClaim>[] {
  const settings = buildSettings(circuit);
  const crossings = runsThrough(circuit);
  return circuit.parts.flatMap((part) => {
    const [body, depth] = [bodyOf(part), depthOf(circuit, part)];
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

function depthOf(circuit: AnalysedCircuit, part: Part): number | undefined {
  return part.cavity === undefined ? undefined : placeIndexOf(circuit).cavities.get(part.cavity)?.depth;
}

/** By cavity, the wires that come into it through one channel and leave it through another. */
function runsThrough(circuit: AnalysedCircuit): ReadonlyMap<string, readonly Run[]> {
  const through = new Map<string, Run[]>();
  for (const run of runsOf(circuit)) {
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
