/** Where the things of an instrument lie: its parts and lugs, the plates and cavities that hold them, the channels between. */
import {
  lugById,
  partById,
  partOfLug,
  type Cavity,
  type Channel,
  type Circuit,
  type Joint,
  type Lug,
  type LugId,
  type Part,
  type PartId,
  type Plate,
} from '../../circuit/model.js';
import { buildSettings, type BuildSettings } from '../build-settings.js';
import { BODY, cavityArea, CONTROLS, type Area } from './areas.js';
import { placeIndex } from './place-index.js';

/** The instrument as it lies on the bench. Lists are in the order of the text; where a name is given twice the first one counts. */
export interface Places {
  /** The shop's measures, for what the text does not give. */
  readonly settings: BuildSettings;
  readonly parts: readonly Part[];
  readonly lugs: readonly Lug[];
  readonly joints: readonly Joint[];
  readonly plates: readonly Plate[];
  readonly cavities: readonly Cavity[];
  readonly channels: readonly Channel[];
  part(this: void, id: PartId): Part;
  lug(this: void, id: LugId): Lug;
  /** The part that a lug is on. */
  partAt(this: void, lug: LugId): Part;
  /** A lug as the text writes it: `volume.3`. */
  label(this: void, lug: LugId): string;
  plate(this: void, name: string): Plate | undefined;
  /** Metres; `undefined` where the text does not say it, or the cavity is not there. */
  depthOf(this: void, cavity: string | undefined): number | undefined;
  /** The channels that open into a cavity. */
  channelsAt(this: void, cavity: string): readonly Channel[];
  /** The way across a cavity in metres, where its places are not measured one by one. */
  widthOf(this: void, cavity: string): number;
  /** The part that carries the solder: a two-lead part that is soldered in place stands where its first lead is soldered. */
  hostOf(this: void, part: PartId): Part;
  /** Where a part lies. A plate's or cavity's own metal lies there itself. */
  areaOfPart(this: void, part: PartId): Area;
  areaOf(this: void, lug: LugId): Area;
}

/** The places of a circuit. */
export function placesOf(circuit: Circuit): Places {
  const { parts, lugs, joints, plates, cavities, channels } = circuit;
  const settings = buildSettings(circuit);
  const index = placeIndex(circuit);
  const lug = (id: LugId): Lug => lugById(circuit, id);
  return {
    settings,
    parts,
    lugs,
    joints,
    plates,
    cavities,
    channels,
    part: (id) => partById(circuit, id),
    lug,
    partAt: (id) => partOfLug(circuit, id),
    label: (id) => lug(id).label,
    plate: (name) => index.plates.get(name),
    depthOf: (cavity) => (cavity === undefined ? undefined : index.cavities.get(cavity)?.depth),
    channelsAt: (cavity) => index.channels.get(cavity) ?? [],
    // Less than the setting would say that the parts lie close, not that the cavity is small.
    widthOf: (cavity) => Math.max(index.extents.get(cavity) ?? 0, settings.crossing),
    hostOf,
    areaOfPart,
    areaOf: (id) => areaOfPart(lug(id).part),
  };

  function hostOf(id: PartId): Part {
    const seen = new Set<PartId>();
    let part = partById(circuit, id);
    while (part.inPlace && part.plate === undefined && part.cavity === undefined && !seen.has(part.id)) {
      seen.add(part.id);
      const joint = index.firstSolder.get(part.id);
      if (joint === undefined) break;
      const other = lug(joint.a).part === part.id ? joint.b : joint.a;
      part = partOfLug(circuit, other);
    }
    return part;
  }

  function areaOfPart(id: PartId): Area {
    const part = hostOf(id);
    if (part.family === 'plate') return plateArea(part.name);
    if (part.family === 'cavity') return cavityArea(part.name);
    if (part.plate !== undefined) return plateArea(part.plate);
    if (part.cavity !== undefined) return cavityArea(part.cavity);
    const isInBody = part.family === 'pickup' || part.ancestry.includes('bridge-ground') || part.ancestry.includes('battery');
    return isInBody ? BODY : CONTROLS;
  }

  /** A plate lies in the cavity that it covers, where the text declares that one. */
  function plateArea(name: string): Area {
    const cavity = index.plates.get(name)?.cavity;
    const isKnown = cavity !== undefined && index.cavities.has(cavity);
    return { key: `plate ${name}`, kind: 'plate', name, ...(isKnown ? { cavity } : {}) };
  }
}
