/** What a lug is soldered to, seen from its part: ground, the pickups' side, the output's side, a capacitor, nothing. */
import {
  type AnalysedCircuit,
  type Circuit,
  derivation,
  derive,
  elementById,
  type Element,
  lugById,
  type LugId,
  partById,
  type PartId,
  type Shaft,
  type SwitchId,
  type Track,
} from '../circuit/model.js';
import { append, valueFor } from '../collections.js';
import { jointClasses, netOf, polesOf } from '../electrics/index.js';

/**
 * `input`: pickups lead there and the output doesn't. `output`: the other way round. `signal`: both. `controls`: neither, other parts lie between.
 * `capacitor`: nothing but a capacitor to ground, or several. `ground`: the sleeve's net, or metal that is not on it yet. `bare`: nothing.
 */
export type Side = 'input' | 'output' | 'signal' | 'controls' | 'capacitor' | 'ground' | 'bare';

export interface Surroundings {
  /** Equal for lugs that joints alone fold together. */
  classOf(lug: LugId): number;
  readonly ground: number;
  readonly tip: number;
  members(classId: number): readonly LugId[];
  /** Elements that end on a class, tracks by their ends and wipers. */
  elementsOn(classId: number): readonly Element[];
  /** The contacts of one switch may be left out. */
  sideOf(lug: LugId, without?: SwitchId): Side;
  /** True for a class to which a lead of a battery leads through contacts; those of one switch may be left out. */
  isSupplied(classId: number, without?: SwitchId): boolean;
  /** Pickups that lead to a class through contacts alone, no pole passed from throw to throw. */
  pickupsAt(classId: number): ReadonlySet<PartId>;
}

/** The surroundings in a circuit, made once. */
export function surroundingsOf(circuit: AnalysedCircuit): Surroundings {
  return derive(circuit, surroundings);
}

const surroundings = derivation(['joints', 'contacts', 'elements', 'output'], createSurroundings);

function createSurroundings(circuit: AnalysedCircuit): Surroundings {
  const classes = jointClasses(circuit);
  const classOf = (lug: LugId): number => netOf(classes, lug);
  const members = new Map<number, LugId[]>();
  for (const { id } of circuit.lugs) append(members, classOf(id), id);
  const elements = new Map<number, Element[]>();
  for (const element of circuit.elements)
    for (const classId of new Set(lugsOf(element).map(classOf))) append(elements, classId, element);
  const [ground, tip] = circuit.output === undefined ? [-1, -1] : [classOf(circuit.output.sleeve), classOf(circuit.output.tip)];
  const reach = createReach(circuit, classOf, ground);
  const elementsOn = (classId: number): readonly Element[] => elements.get(classId) ?? [];
  const isMetalAlone = (classId: number): boolean => {
    const others = valueFor(members, classId);
    return others.length > 1 && others.some((lug) => lugById(circuit, lug).metal);
  };
  const isGround = (classId: number): boolean =>
    classId === ground || (isMetalAlone(classId) && reach(classId).pickups.size === 0 && !reach(classId).output);
  const sideOf = (lug: LugId, without?: SwitchId): Side => {
    const classId = classOf(lug);
    const { part } = lugById(circuit, lug);
    if (classId === ground) return 'ground';
    const others = valueFor(members, classId).filter((other) => lugById(circuit, other).part !== part);
    if (others.length === 0 && !isMetalAlone(classId)) {
      const isJoined = valueFor(members, classId).some((other) => other !== lug && lugById(circuit, other).part === part);
      return isJoined ? 'controls' : 'bare';
    }
    const families = others.map((other) => partById(circuit, lugById(circuit, other).part).family);
    const ends = elementsOn(classId).filter((element) => element.part !== part);
    const isAlone = ends.length > 0 && ends.every(({ kind }) => kind === 'capacitor');
    const leadsToGround = ({ a, b }: Element): boolean => isGround(classOf(classOf(a) === classId ? b : a));
    if (isAlone && ends.some(leadsToGround) && families.every((family) => family === 'passive' || family === 'metal'))
      return 'capacitor';
    const reached = reach(classId, without);
    if (reached.pickups.size > 0 && !reached.output) return 'input';
    if (reached.output && reached.pickups.size === 0) return 'output';
    if (reached.output) return 'signal';
    return isMetalAlone(classId) ? 'ground' : 'controls';
  };
  return {
    classOf,
    ground,
    tip,
    members: (classId) => members.get(classId) ?? [],
    elementsOn,
    sideOf,
    isSupplied: (classId, without) => reach(classId, without).supply,
    pickupsAt: (classId) => reach(classId).pickups,
  };
}

/** Lugs at which an element ends. */
export function lugsOf(element: Element): readonly LugId[] {
  return element.kind === 'track' ? [element.a, element.wiper, element.leavesTo ?? element.b] : [element.a, element.b];
}

interface Reached {
  readonly pickups: ReadonlySet<PartId>;
  readonly output: boolean;
  readonly supply: boolean;
}

/** What contacts lead to from a class: from a throw to its common and from a common to its throws, each switch once. */
function createReach(circuit: AnalysedCircuit, classOf: (lug: LugId) => number, ground: number) {
  const steps = new Map<number, { readonly to: number; readonly by: SwitchId }[]>();
  const link = (a: LugId, b: LugId, by: SwitchId): void => {
    append(steps, classOf(a), { to: classOf(b), by });
    append(steps, classOf(b), { to: classOf(a), by });
  };
  for (const { device, common, throws, contacts } of polesOf(circuit)) {
    const [first, ...others] = common === undefined ? throws : [common, ...throws];
    if (first === undefined || contacts.length === 0) continue;
    for (const other of others) link(first, other, device.id);
  }
  const sources = new Map<number, PartId[]>();
  for (const { kind, part, a, b } of circuit.elements)
    if (kind === 'coil') for (const classId of new Set([classOf(a), classOf(b)])) append(sources, classId, part);
  const supplies = new Set(circuit.elements.flatMap(({ kind, a, b }) => (kind === 'battery' ? [classOf(a), classOf(b)] : [])));
  const tip = circuit.output === undefined ? -1 : classOf(circuit.output.tip);
  const kept = new Map<number, Reached>();
  return (start: number, without?: SwitchId): Reached => {
    const key = start * (circuit.switches.length + 1) + (without === undefined ? 0 : without + 1);
    const known = kept.get(key);
    if (known !== undefined) return known;
    const seen = new Set([start]);
    const queue: { readonly at: number; readonly by?: SwitchId }[] = [{ at: start }];
    const pickups = new Set<PartId>();
    let output = false;
    let supply = false;
    for (const { at, by } of queue) {
      if (at === ground) continue;
      output ||= at === tip;
      supply ||= supplies.has(at);
      for (const part of sources.get(at) ?? []) pickups.add(part);
      for (const step of steps.get(at) ?? []) {
        if (step.by === by || step.by === without || seen.has(step.to)) continue;
        seen.add(step.to);
        queue.push({ at: step.to, by: step.by });
      }
    }
    const found = { pickups, output, supply };
    kept.set(key, found);
    return found;
  };
}

/** The tracks of a shaft. */
export function tracksOfShaft(circuit: Circuit, { tracks }: Shaft): readonly Track[] {
  return tracks.flatMap((id) => {
    const element = elementById(circuit, id);
    return element.kind === 'track' ? [element] : [];
  });
}
