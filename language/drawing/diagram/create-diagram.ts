/** From a circuit to its diagram: parts, runs and groups with stable names, in an order that no statement's place changes. */
import { lugById, partById, partOfLug, type AnalysedCircuit, type Circuit, type LugId, type Part } from '../../circuit/model.js';
import type { Diagram, DiagramChannel, DiagramGroup, DiagramLug, DiagramPart } from './diagram.js';
import { cropped } from './crop.js';
import { byId, compareText } from './order.js';
import { networkOf } from './network.js';
import { partKind, switchForm, type PartKind } from './part-kind.js';
import { groundsAsMarks } from './ground-marks.js';
import { bentLug, createRuns } from './runs.js';
import { finished, type Steps } from '../../steps.js';
import { partValues } from './value-text.js';

export interface DiagramOptions {
  /** Ground wires are drawn, or shown by a mark at each end. `auto` takes marks where more wires than `clutter` would run to ground. */
  readonly grounds?: 'wires' | 'marks' | 'auto';
  /** Only what is on the plate, or in the cavity, of this name; one of `placeNames`. */
  readonly plate?: string;
}

/** Up to so many, ground wires cost a few crossings and show what is soldered where; beyond that they hide the signal. */
const clutter = 12;

export function createDiagram(circuit: AnalysedCircuit, options: DiagramOptions = {}): Diagram {
  return finished(createDiagramSteps(circuit, options));
}

/** The same in steps: each joint, mark of ground and part is one, and so is what sorts them. */
export function* createDiagramSteps(circuit: AnalysedCircuit, options: DiagramOptions = {}): Steps<Diagram> {
  const runs = yield* createRuns(circuit);
  yield;
  const groundWires = runs.filter((run) => run.ground && run.kind === 'wire').length;
  const choice = options.grounds ?? 'auto';
  const grounds = choice === 'auto' ? (groundWires > clutter ? 'marks' : 'wires') : choice;
  const groupsOfParts: (string | undefined)[] = [];
  for (const part of circuit.parts) {
    groupsOfParts.push(groupOf(circuit, part));
    yield;
  }
  const groups = new Map(circuit.lugs.map((lug) => [`lug:${lug.label}`, groupsOfParts[lug.part]]));
  const grounded = grounds === 'marks' ? yield* groundsAsMarks(circuit, runs, (lug) => groups.get(lug)) : { runs, marks: [] };
  yield;

  const ends = new Map<string, number>();
  const count = (lug: string): void => void ends.set(lug, (ends.get(lug) ?? 0) + 1);
  for (const run of grounded.runs) {
    if (run.kind !== 'screen') count(run.from);
    count(run.to);
  }

  const parts: DiagramPart[] = [];
  for (const part of circuit.parts) {
    parts.push(...drawnParts(circuit, part, groupsOfParts[part.id], ends));
    yield;
  }
  parts.push(...grounded.marks);
  parts.sort(byId);
  yield;
  const sorted = [...grounded.runs].sort(byId);
  yield;
  const diagram: Diagram = {
    title: circuit.title ?? '',
    subtitle: firstSentence(circuit.doc ?? ''),
    ...(circuit.record?.date === undefined ? {} : { date: circuit.record.date }),
    parts,
    runs: sorted,
    groups: createGroups(circuit, parts),
    channels: circuit.channels.map(createChannel).sort(byId),
    grounds,
  };
  return options.plate === undefined ? diagram : cropped(diagram, options.plate);
}

/** Of a comment's first paragraph; without its full stop, as a heading. */
function firstSentence(doc: string): string {
  const [paragraph = ''] = doc.trim().split(/\n\s*\n/u);
  const text = paragraph.replace(/\s+/gu, ' ').trim();
  return (/^.*?[.!?](?=\s|$)/u.exec(text)?.[0] ?? text).replace(/\.$/u, '');
}

/** A part as drawn: itself; nothing for a screen, which is drawn on its wire; an assembly's lugs one by one, its outline being a group. */
function drawnParts(
  circuit: AnalysedCircuit,
  part: Part,
  group: string | undefined,
  ends: ReadonlyMap<string, number>,
): DiagramPart[] {
  if (part.family === 'screen') return [];
  const lugs = part.lugs.map((id) => drawnLug(circuit, id, ends));
  const kind = partKind(circuit, part);
  const base = {
    type: part.type,
    kind,
    contacts: [],
    rows: [],
    bent: [],
    inPlace: false,
    ...(group === undefined ? {} : { group }),
  };
  if (kind === 'terminal') {
    if (lugs.every((lug) => lug.ends === 0)) return [];
    return [{ ...base, id: `part:${part.name}`, name: part.name, values: [], lugs, group: `${part.family}:${part.name}` }];
  }
  if (part.parent !== undefined && networkOf(circuit, partById(circuit, part.parent))) return [];
  const network = networkOf(circuit, part);
  if (network) {
    const inner = network.map((member) => ({
      name: localName(circuit, member.part),
      kind: partKind(circuit, member.part),
      values: partValues(circuit, member.part),
      lugs: member.lugs.map((lug) => drawnLug(circuit, lug, ends)) as [DiagramLug, DiagramLug],
    }));
    return [
      { ...base, id: `part:${part.name}`, name: localName(circuit, part), kind: 'network', values: [part.type], lugs, inner },
    ];
  }
  if (isAssembly(circuit, part)) {
    return lugs.map((lug) => ({
      ...base,
      id: `part:${lug.label}`,
      name: lug.name,
      kind: 'terminal' as const,
      values: [],
      lugs: [lug],
      group: `assembly:${part.name}`,
    }));
  }
  return [{ ...base, ...arrangedLugs(circuit, part, kind), id: `part:${part.name}`, name: localName(circuit, part), lugs }];
}

/** What the outline of a part shows of its values and of its lugs: their rows, contacts, which are bent. */
function arrangedLugs(
  circuit: Circuit,
  part: Part,
  kind: PartKind,
): Pick<DiagramPart, 'values' | 'rows' | 'contacts' | 'inPlace' | 'bent' | 'form' | 'handle' | 'at'> {
  const index = new Map(part.lugs.map((id, at) => [id, at]));
  return {
    values: partValues(circuit, part),
    rows: part.rows.map((row) => row.map((id) => (id === null ? null : (index.get(id) ?? null)))),
    contacts: contactsOf(circuit, part, index),
    inPlace: part.inPlace,
    bent: bentLugs(circuit, part),
    ...switchLooks(circuit, part, kind),
    ...(part.at === undefined ? {} : { at: part.at }),
  };
}

/** Lugs soldered directly to a metal lug of the same part, where the part is drawn with its lugs as tabs. */
function bentLugs(circuit: Circuit, part: Part): string[] {
  return circuit.joints.flatMap((joint) => {
    const bent = bentLug(circuit, joint);
    return bent?.part === part.id ? [`lug:${bent.label}`] : [];
  });
}

function switchLooks(circuit: Circuit, part: Part, kind: PartKind): Pick<DiagramPart, 'form' | 'handle'> {
  if (kind !== 'switch') return {};
  const form = switchForm(part);
  const handle = form === 'lever' ? handleOf(circuit, part) : undefined;
  return { form, ...(handle === undefined ? {} : { handle }) };
}

/** A lever pivots between its handle and its contacts, so the handle is at the end away from the throw (common practice). */
function handleOf(circuit: Circuit, part: Part): DiagramPart['handle'] {
  const device = circuit.switches.find((one) => one.part === part.id);
  const count = device?.positions.length ?? 0;
  if (device === undefined || count < 2) return undefined;
  const along = (position: number): number => {
    const places = part.rows
      .slice(0, 1)
      .flatMap((row) =>
        (device.positions[position]?.joins ?? []).flatMap((group) =>
          group.filter((lug) => !isCommon(device, lug)).flatMap((lug) => (row.includes(lug) ? [row.indexOf(lug)] : [])),
        ),
      );
    return places.length === 0 ? NaN : places.reduce((sum, place) => sum + place, 0) / places.length;
  };
  const [first, last] = [along(0), along(count - 1)];
  if (first === last || Number.isNaN(first + last)) return undefined;
  return first < last ? { begin: count, end: 1 } : { begin: 1, end: count };
}

/** Joined in every position. */
function isCommon({ positions }: Circuit['switches'][number], lug: LugId): boolean {
  return positions.every(({ joins }) => joins.some((group) => group.includes(lug)));
}

/** The name within the assembly that is drawn around it. */
function localName(circuit: Circuit, part: Part): string {
  return part.parent === undefined ? part.name : part.name.slice(partById(circuit, part.parent).name.length + 1);
}

function drawnLug(circuit: Circuit, id: LugId, ends: ReadonlyMap<string, number>): DiagramLug {
  const lug = lugById(circuit, id);
  const name = `lug:${lug.label}`;
  return { id: name, name: lug.name, label: lug.label, metal: lug.metal, ends: ends.get(name) ?? 0 };
}

function contactsOf(circuit: Circuit, part: Part, index: ReadonlyMap<number, number>): DiagramPart['contacts'] {
  const contacts = new Map<string, readonly number[]>();
  for (const device of circuit.switches) {
    if (device.part !== part.id) continue;
    for (const { joins } of device.positions) for (const group of joins) contacts.set(contactId(circuit, part, group), group);
  }
  return [...contacts].map(([id, group]) => ({ id, lugs: group.flatMap((lug) => index.get(lug) ?? []) })).sort(byId);
}

/** `contact:selector:A0+A1`; the same for the same lugs in whatever order a position names them. */
export function contactId(circuit: Circuit, part: Part, group: readonly LugId[]): string {
  const names = group.map((id) => lugById(circuit, id).name).sort(compareText);
  return `contact:${part.name}:${names.join('+')}`;
}

function isAssembly(circuit: Circuit, part: Part): boolean {
  return circuit.parts.some((other) => other.parent === part.id);
}

function groupOf(circuit: Circuit, part: Part): string | undefined {
  if (part.parent !== undefined) return `assembly:${partById(circuit, part.parent).name}`;
  if (part.plate !== undefined) return `plate:${part.plate}`;
  if (part.cavity !== undefined) return `cavity:${part.cavity}`;
  return part.inPlace ? groupBetween(circuit, part) : undefined;
}

/** A part that lies between other parts' lugs lies where they do: on their plate, or in the cavity that holds both. */
function groupBetween(circuit: Circuit, part: Part): string | undefined {
  const own = new Set(part.lugs);
  const others = circuit.joints
    .filter((joint) => own.has(joint.a) !== own.has(joint.b))
    .map((joint) => partOfLug(circuit, own.has(joint.a) ? joint.b : joint.a))
    .filter((other) => other !== part && !other.inPlace);
  const plates = new Set(others.map((other) => other.plate));
  const cavities = new Set(others.map((other) => other.cavity));
  const [plate] = plates;
  const [cavity] = cavities;
  if (plates.size === 1 && plate !== undefined) return `plate:${plate}`;
  return cavities.size === 1 && cavity !== undefined ? `cavity:${cavity}` : undefined;
}

/** Groups that hold something, and those around them. */
function createGroups(circuit: AnalysedCircuit, parts: readonly DiagramPart[]): DiagramGroup[] {
  const all = new Map<string, DiagramGroup>();
  for (const cavity of circuit.cavities) {
    const notes = cavity.shielded ? ['shielded'] : [];
    all.set(`cavity:${cavity.name}`, { id: `cavity:${cavity.name}`, name: cavity.name, kind: 'cavity', notes });
  }
  for (const plate of circuit.plates) {
    const notes = [...(plate.metal ? ['metal'] : []), ...(plate.shielded ? ['shielded'] : [])];
    const parent = all.has(`cavity:${plate.cavity}`) ? { parent: `cavity:${plate.cavity}` } : {};
    all.set(`plate:${plate.name}`, { id: `plate:${plate.name}`, name: plate.name, kind: 'plate', notes, ...parent });
  }
  for (const part of circuit.parts) {
    if (!isAssembly(circuit, part) || networkOf(circuit, part)) continue;
    const parent = groupOf(circuit, part);
    const own = `assembly:${part.name}`;
    all.set(own, { id: own, name: part.name, kind: 'assembly', notes: [part.type], ...(parent === undefined ? {} : { parent }) });
  }
  const needed = new Set<string>();
  const need = (id: string | undefined): void => {
    if (id === undefined || needed.has(id)) return;
    needed.add(id);
    need(all.get(id)?.parent);
  };
  for (const part of parts) need(part.group);
  for (const { from, to } of circuit.channels) [from, to].forEach((name) => need(`cavity:${name}`));
  return [...all.values()].filter((group) => needed.has(group.id)).sort(byId);
}

function createChannel(channel: Circuit['channels'][number]): DiagramChannel {
  const [from, to] = [channel.from, channel.to].sort(compareText) as [string, string];
  const millimetres = (metres: number): string => `${Number((metres * 1000).toPrecision(3))} mm`;
  const texts = [
    ...(channel.length === undefined ? [] : [millimetres(channel.length)]),
    ...(channel.bore === undefined ? [] : [`bore ${millimetres(channel.bore)}`]),
  ];
  return { id: `channel:${from}~${to}`, from: `cavity:${from}`, to: `cavity:${to}`, texts };
}
