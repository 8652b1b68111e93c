/** The stages in their order: plates at the bench, channels, cavities from the farthest to the jack, the test with plates off, closing. */
import type { PartId } from '../../circuit/model.js';
import type { Build } from '../build.js';
import { CONTROLS, type Area } from '../places/areas.js';
import { distancesFrom } from '../places/routes.js';

/** Bench areas, farthest from the jack first. */
export function benchAreas(build: Build): readonly Area[] {
  const areas = new Map<string, Area>();
  for (const plate of build.plates) {
    const area = areaOfAny(build, plate.carries, plate.name);
    areas.set(area.key, area);
  }
  if (build.work.spots.some((spot) => spot.area.kind === 'controls')) areas.set(CONTROLS.key, CONTROLS);
  return fromFarthest(build, [...areas.values()], (area) => area.cavity);
}

/** Cavities in which something is soldered, farthest first; `undefined` stands for the body of an instrument that names no cavity. */
export function bodyCavities(build: Build): readonly (string | undefined)[] {
  const names = new Set(build.work.spots.map((spot) => spot.area.cavity));
  const all = build.cavities.filter(({ name }) => names.has(name)).map(({ name }): string | undefined => name);
  return fromFarthest(build, names.has(undefined) ? [...all, undefined] : all, (name) => name);
}

/** The cavity that holds the jack; `undefined` where it is not said. */
export function jackCavity(build: Build): string | undefined {
  return build.jack === undefined ? undefined : build.areaOfPart(build.jack.part).cavity;
}

/** Sorts by distance from the jack along the channels, farthest first (nearest where the shop says `from jack`); what no way leads to comes before all, what has no cavity last. */
export function fromFarthest<T>(build: Build, things: readonly T[], cavityOf: (thing: T) => string | undefined): T[] {
  const jack = jackCavity(build);
  const distances = jack === undefined ? new Map<string, number>() : distancesFrom(build, jack);
  const far = (thing: T): number => {
    const cavity = cavityOf(thing);
    return cavity === undefined ? -1 : (distances.get(cavity) ?? Infinity);
  };
  const turned = build.preferences.from === 'jack';
  const after = (a: number, b: number): number => (turned && a >= 0 && b >= 0 ? a - b : b - a);
  return things
    .map((thing, i) => ({ thing, i, far: far(thing) }))
    .sort((a, b) => (a.far === b.far ? a.i - b.i : after(a.far, b.far)))
    .map(({ thing }) => thing);
}

function areaOfAny(build: Build, carries: readonly PartId[], name: string): Area {
  const [first] = carries;
  if (first !== undefined) return build.areaOfPart(first);
  return { key: `plate ${name}`, kind: 'plate', name };
}
