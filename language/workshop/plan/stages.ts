/** The stages in their order: plates at the bench, channels, cavities from the farthest to the jack, the test with plates off, closing. */
import type { AnalysedCircuit, PartId } from '../../circuit/model.js';
import { buildSettings, orderPreferences } from '../build-settings.js';
import { areaOfPart, CONTROLS, type Area } from '../places/places.js';
import { distancesFrom } from '../places/routes.js';
import { workOf } from './work.js';

/** Bench areas, farthest from the jack first. */
export function benchAreas(circuit: AnalysedCircuit): readonly Area[] {
  const areas = new Map<string, Area>();
  for (const plate of circuit.plates) {
    const area = areaOfAny(circuit, plate.carries, plate.name);
    areas.set(area.key, area);
  }
  if (workOf(circuit).spots.some((spot) => spot.area.kind === 'controls')) areas.set(CONTROLS.key, CONTROLS);
  return fromFarthest(circuit, [...areas.values()], (area) => area.cavity);
}

/** Cavities in which something is soldered, farthest first; `undefined` stands for the body of an instrument that names no cavity. */
export function bodyCavities(circuit: AnalysedCircuit): readonly (string | undefined)[] {
  const names = new Set(workOf(circuit).spots.map((spot) => spot.area.cavity));
  const all = circuit.cavities.filter(({ name }) => names.has(name)).map(({ name }): string | undefined => name);
  return fromFarthest(circuit, names.has(undefined) ? [...all, undefined] : all, (name) => name);
}

/** The cavity that holds the jack; `undefined` where it is not said. */
export function jackCavity(circuit: AnalysedCircuit): string | undefined {
  return circuit.output === undefined ? undefined : areaOfPart(circuit, circuit.output.part).cavity;
}

/** Sorts by distance from the jack along the channels, farthest first (nearest where the shop says `from jack`); what no way leads to comes before all, what has no cavity last. */
export function fromFarthest<T>(circuit: AnalysedCircuit, things: readonly T[], cavityOf: (thing: T) => string | undefined): T[] {
  const jack = jackCavity(circuit);
  const distances = jack === undefined ? new Map<string, number>() : distancesFrom(circuit, buildSettings(circuit), jack);
  const far = (thing: T): number => {
    const cavity = cavityOf(thing);
    return cavity === undefined ? -1 : (distances.get(cavity) ?? Infinity);
  };
  const turned = orderPreferences(circuit).from === 'jack';
  const after = (a: number, b: number): number => (turned && a >= 0 && b >= 0 ? a - b : b - a);
  return things
    .map((thing, i) => ({ thing, i, far: far(thing) }))
    .sort((a, b) => (a.far === b.far ? a.i - b.i : after(a.far, b.far)))
    .map(({ thing }) => thing);
}

function areaOfAny(circuit: AnalysedCircuit, carries: readonly PartId[], name: string): Area {
  const [first] = carries;
  if (first !== undefined) return areaOfPart(circuit, first);
  return { key: `plate ${name}`, kind: 'plate', name };
}
