/** The path of the signal in one setting: from each heard coil to the tip, and back from the sleeve, lug by lug. */
import { append } from '../../collections.js';
import { describeSound, nets, settingLabel, type Nets, type Setting } from '../../electrics/index.js';
import {
  type AnalysedCircuit,
  elementById,
  lugById,
  partById,
  type Circuit,
  type Element,
  type LugId,
} from '../../circuit/model.js';
import { finished, type Steps } from '../../steps.js';
import { contactId } from './create-diagram.js';
import type { Diagram } from './diagram.js';
import type { Highlight, HighlightState } from '../highlight.js';

/**
 * What to light for a setting. Closed contacts of every switch are `closed`; wires, lugs, contacts and parts on the path of a heard coil
 * are `lit` towards the tip and `return` towards the sleeve; what hangs on no net of theirs is `idle`; a coil whose two ends are one net
 * is `shorted`, and so is the jack where tip and sleeve are one.
 */
export function highlightOf(circuit: AnalysedCircuit, diagram: Diagram, setting: Setting): Highlight {
  return finished(highlightSteps(circuit, diagram, setting));
}

/** The same in steps of one path each. */
export function* highlightSteps(circuit: AnalysedCircuit, diagram: Diagram, setting: Setting): Steps<Highlight> {
  const sound = describeSound(circuit, setting);
  yield;
  const folded = nets(circuit, setting.positions);
  const links = linksOf(circuit, setting);
  const states = new Map<string, Set<HighlightState>>();
  const add = (id: string, state: HighlightState): void => void states.set(id, (states.get(id) ?? new Set()).add(state));

  const live = new Set<LugId>();
  const used = { lit: new Set<Link>(), return: new Set<Link>() };
  const heard = new Set(sound.heard.map(({ coil }) => coil));
  for (const id of heard) {
    const coil = elementById(circuit, id);
    const paths = yield* pathsOf(circuit, coil, links, folded);
    paths?.lit.forEach((link) => used.lit.add(link));
    paths?.return.forEach((link) => used.return.add(link));
    live.add(coil.a).add(coil.b);
  }
  for (const { a, b } of [...used.lit, ...used.return]) live.add(a).add(b);
  const liveNets = new Set([...live].map((lug) => folded.of[lug]));
  const isLive = (lug: LugId): boolean => liveNets.has(folded.of[lug]);

  for (const state of ['return', 'lit'] as const) {
    for (const link of used[state]) {
      if (link.contact !== undefined) add(link.contact, state);
      for (const lug of [link.a, link.b]) add(`lug:${lugById(circuit, lug).label}`, state);
    }
  }
  yield;
  markRuns(circuit, diagram, used, isLive, add);
  for (const link of links) if (link.contact !== undefined) add(link.contact, 'closed');
  markParts(circuit, heard, folded.of, isLive, add);
  if (circuit.output && folded.tip === folded.ground) add(`part:${partById(circuit, circuit.output.part).name}`, 'shorted');

  const label = settingLabel(circuit, setting);
  const hum = sound.hum === 'none' ? '' : `, hum ${sound.hum}`;
  return {
    states: Object.fromEntries([...states].map(([id, set]) => [id, [...set].sort()])),
    says: `${label === '' ? 'Default' : label}: ${sound.silent ? 'silent' : `sounds ${sound.text}${hum}`}`,
  };
}

function markRuns(
  circuit: Circuit,
  diagram: Diagram,
  used: Readonly<Record<'lit' | 'return', ReadonlySet<Link>>>,
  isLive: (lug: LugId) => boolean,
  add: (id: string, state: HighlightState) => void,
): void {
  const jointsOf = (side: ReadonlySet<Link>): ReadonlySet<number | undefined> => new Set([...side].map(({ joint }) => joint));
  const [lit, back] = [jointsOf(used.lit), jointsOf(used.return)];
  const live = new Set(circuit.joints.flatMap(({ id, a }) => (isLive(a) ? [id] : [])));
  for (const { id, joints } of diagram.runs) {
    const isOn = (side: ReadonlySet<number | undefined>): boolean => joints.some((joint) => side.has(joint));
    if (isOn(lit)) add(id, 'lit');
    else if (isOn(back)) add(id, 'return');
    else if (!isOn(live)) add(id, 'idle');
  }
}

function markParts(
  circuit: Circuit,
  heard: ReadonlySet<number>,
  netOf: Int32Array,
  isLive: (lug: LugId) => boolean,
  add: (id: string, state: HighlightState) => void,
): void {
  for (const part of circuit.parts) {
    const id = `part:${part.name}`;
    const coils = part.elements.map((element) => elementById(circuit, element)).filter((element) => element.kind === 'coil');
    const isShorted = coils.length > 0 && coils.every((coil) => netOf[coil.a] === netOf[coil.b]);
    if (coils.some((coil) => heard.has(coil.id))) add(id, 'lit');
    else if (isShorted) add(id, 'shorted');
    else if (coils.length > 0 || (part.lugs.length > 0 && !part.lugs.some(isLive))) add(id, 'idle');
  }
}

/** A joint, a closed contact or an element between two lugs, with what it costs to go that way. */
interface Link {
  readonly a: LugId;
  readonly b: LugId;
  readonly cost: number;
  readonly joint?: number;
  readonly contact?: string;
  readonly element?: number;
}

/** Joints and contacts cost a step, so the shortest path along metal is taken; elements cost by how unlike a wire they are. */
function linksOf(circuit: Circuit, setting: Setting): Link[] {
  const links: Link[] = circuit.joints.map(({ id, a, b }) => ({ a, b, cost: 1, joint: id }));
  for (const device of circuit.switches) {
    for (const group of device.positions[setting.positions[device.id] ?? -1]?.joins ?? []) {
      const contact = contactId(circuit, partById(circuit, device.part), group);
      group.forEach((a, index) => links.push(...group.slice(index + 1).map((b) => ({ a, b, cost: 1, contact }))));
    }
  }
  return [...links, ...circuit.elements.flatMap((element) => elementLinks(circuit, element, setting))];
}

function elementLinks(circuit: Circuit, element: Element, setting: Setting): Link[] {
  const { a, b, id } = element;
  switch (element.kind) {
    case 'track': {
      const rotation = setting.rotations[element.shaft] ?? 10;
      const share = Math.min(1, Math.max(0, (rotation - element.empty) / (element.full - element.empty)));
      return [
        { a, b: element.wiper, cost: 2 + 200 * share, element: id },
        { a: element.wiper, b, cost: 2 + 200 * (1 - share), element: id },
      ];
    }
    case 'coil':
      return [{ a, b, cost: 20, element: id }];
    case 'gain':
      return [a, ...(element.inverting === undefined ? [] : [element.inverting])].map((from) => ({
        a: from,
        b,
        cost: 20,
        element: id,
      }));
    case 'battery':
      return [];
    case 'inductor': {
      // From one winding of a transformer to the other the signal goes without a wire.
      const others = partById(circuit, element.part).elements.filter((other) => other !== id && (element.coupling ?? 0) !== 0);
      const across = others.map((other) => ({ a, b: elementById(circuit, other).a, cost: 20, element: id }));
      return [{ a, b, cost: 100, element: id }, ...across];
    }
    case 'diode':
    case 'resistor':
    case 'capacitor':
      return [{ a, b, cost: 100, element: id }];
  }
}

/** From one end of the coil to the tip and from the other to the sleeve, whichever way round is shorter in all. */
function* pathsOf(
  circuit: Circuit,
  coil: Element,
  links: readonly Link[],
  { of: netOf, tip, ground }: Nets,
): Steps<{ readonly lit: readonly Link[]; readonly return: readonly Link[] } | undefined> {
  const { output } = circuit;
  if (!output) return undefined;
  const others = links.filter((link) => link.element !== coil.id);
  const around = new Map<LugId, Link[]>();
  for (const link of others) for (const lug of [link.a, link.b]) append(around, lug, link);
  const both: { readonly lit: readonly Link[]; readonly return: readonly Link[]; readonly cost: number }[] = [];
  for (const [hot, cold] of [
    [coil.a, coil.b],
    [coil.b, coil.a],
  ] as const) {
    yield;
    const lit = shortest(around, hot, output.tip, (lug) => netOf[lug] !== ground);
    yield;
    const back = shortest(around, cold, output.sleeve, (lug) => netOf[lug] !== tip);
    if (lit && back) both.push({ lit: lit.links, return: back.links, cost: lit.cost + back.cost });
  }
  return both.sort((a, b) => a.cost - b.cost)[0];
}

/** The cheapest chain of links between two lugs through lugs that are open to it; `around` has the links of each lug. */
function shortest(
  around: ReadonlyMap<LugId, readonly Link[]>,
  from: LugId,
  to: LugId,
  isOpen: (lug: LugId) => boolean,
): { readonly links: Link[]; readonly cost: number } | undefined {
  if (!isOpen(from) || !isOpen(to)) return undefined;
  const costs = new Map([[from, 0]]);
  const costOf = (lug: LugId): number => costs.get(lug) ?? Infinity;
  const by = new Map<LugId, Link>();
  const waiting = new Set([from]);
  while (waiting.size > 0) {
    const lug = [...waiting].reduce((best, other) => (costOf(other) < costOf(best) ? other : best));
    waiting.delete(lug);
    if (lug === to) break;
    for (const link of around.get(lug) ?? []) {
      const next = link.a === lug ? link.b : link.a;
      const cost = costOf(lug) + link.cost;
      if (!isOpen(next) || cost >= costOf(next)) continue;
      costs.set(next, cost);
      by.set(next, link);
      waiting.add(next);
    }
  }
  const cost = costs.get(to);
  if (cost === undefined) return undefined;
  const chain: Link[] = [];
  for (let lug = to, link = by.get(to); link !== undefined && lug !== from; link = by.get(lug)) {
    chain.push(link);
    lug = link.a === lug ? link.b : link.a;
  }
  return { links: chain.reverse(), cost };
}
