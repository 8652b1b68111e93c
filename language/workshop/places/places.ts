/** Where things lie: the plate, the cavity or neither, for a part and for a lug. */
import {
  lugById,
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type LugId,
  type Part,
  type PartId,
} from '../../circuit/model.js';
import { placeIndexOf } from './place-index.js';

/** A place of work: a plate at the bench, or a cavity of the body. An instrument that names neither has two: its controls and its body. */
export interface Area {
  /** Unique among the areas: `plate control`, `cavity control-rout`. */
  readonly key: string;
  readonly kind: 'plate' | 'cavity' | 'controls' | 'body';
  readonly name: string;
  /** Cavity that it lies in or is. */
  readonly cavity?: string;
}

/** What is not said to lie anywhere. */
export const CONTROLS: Area = { key: 'controls', kind: 'controls', name: 'controls' };
export const BODY: Area = { key: 'body', kind: 'body', name: 'body' };

/** True for an area that is worked on at the bench, off the body. */
export function isBench(area: Area): boolean {
  return area.kind === 'plate' || area.kind === 'controls';
}

/** The part that carries the solder: a two-lead part that is soldered in place stands where its first lead is soldered. */
export function hostOf(circuit: AnalysedCircuit, id: PartId): Part {
  const seen = new Set<PartId>();
  let part = partById(circuit, id);
  while (part.inPlace && part.plate === undefined && part.cavity === undefined && !seen.has(part.id)) {
    seen.add(part.id);
    const joint = placeIndexOf(circuit).firstSolder.get(part.id);
    if (joint === undefined) break;
    const other = lugById(circuit, joint.a).part === part.id ? joint.b : joint.a;
    part = partOfLug(circuit, other);
  }
  return part;
}

/** Where a part lies. A plate's or cavity's own metal lies there itself. */
export function areaOfPart(circuit: AnalysedCircuit, id: PartId): Area {
  const part = hostOf(circuit, id);
  if (part.family === 'plate') return plateArea(circuit, part.name);
  if (part.family === 'cavity') return cavityArea(part.name);
  if (part.plate !== undefined) return plateArea(circuit, part.plate);
  if (part.cavity !== undefined) return cavityArea(part.cavity);
  const isInBody = part.family === 'pickup' || part.ancestry.includes('bridge-ground') || part.ancestry.includes('battery');
  return isInBody ? BODY : CONTROLS;
}

export function areaOfLug(circuit: AnalysedCircuit, lug: LugId): Area {
  return areaOfPart(circuit, lugById(circuit, lug).part);
}

/** Cavity in which an area opens; `undefined` where none is said. */
function plateArea(circuit: AnalysedCircuit, name: string): Area {
  const { plates, cavities } = placeIndexOf(circuit);
  const cavity = plates.get(name)?.cavity;
  const isKnown = cavity !== undefined && cavities.has(cavity);
  return { key: `plate ${name}`, kind: 'plate', name, ...(isKnown ? { cavity } : {}) };
}

export function cavityArea(name: string): Area {
  return { key: `cavity ${name}`, kind: 'cavity', name, cavity: name };
}

/** A pickup's own lead (or a clip's): declared so, or a wire of which nothing is said from a pickup that declares no lead at all, or from its cable's shield. */
export function isOwnLead(circuit: Circuit, joint: Circuit['joints'][number]): boolean {
  if (joint.kind !== 'wire') return false;
  if (joint.ownLead) return true;
  const isPlain = joint.colour === undefined && joint.gauge === undefined && joint.length === undefined && !joint.shielded;
  return isPlain && leadEnd(circuit, joint) !== undefined;
}

/** The end of a wire at which it is the part's own: the pickup's or clip's side. */
export function leadEnd(circuit: Circuit, joint: Circuit['joints'][number]): LugId | undefined {
  return [joint.a, joint.b].find((lug) => {
    const part = partOfLug(circuit, lug);
    if (part.leads?.some((lead) => lead.lug === lug) === true) return true;
    if (part.family !== 'pickup' || joint.ownLead) return false;
    // The shield of a pickup's cable comes with the cable, whether the text declares a lead for it or not.
    return (part.leads ?? []).length === 0 || lugById(circuit, lug).name === 'shield';
  });
}
