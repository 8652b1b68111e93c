/** The holes of a plate: where they are, how wide, and which of them cannot be drilled. */
import { figure } from '../../claim.js';
import type { MisplacedHoleClaim, Report } from '../../checks/index.js';
import type { Part, Plate } from '../../circuit/model.js';
import type { Build } from '../build.js';

/** A part that is mounted on a plate. Metres, from the plate's corner. */
export interface Hole {
  readonly part: Part;
  /** Absent where the text gives no place. */
  readonly at?: { readonly x: number; readonly y: number };
  /** Diameter; absent where the text gives none. */
  readonly diameter?: number;
}

/** What a plate carries; what is soldered in place between two lugs needs no hole. */
export function holesOf(build: Build, plate: Plate): readonly Hole[] {
  return plate.carries
    .map((id) => build.part(id))
    .filter((part) => !part.inPlace)
    .map((part) => {
      const { hole } = part.properties;
      const diameter = hole !== undefined && 'value' in hole && hole.known ? hole.value : undefined;
      return {
        part,
        ...(part.at === undefined ? {} : { at: part.at }),
        ...(diameter === undefined ? {} : { diameter }),
      };
    });
}

/** A hundredth of a micrometre: what two lengths may differ by through rounding. */
const HAIR = 1e-8;

/** Parts that are not on their plate, holes that break its edge, holes that run into each other. */
export function misplacedHoles(build: Build): readonly Report<MisplacedHoleClaim>[] {
  return build.plates.flatMap((plate) => {
    const holes = holesOf(build, plate);
    return [...holes.flatMap((hole) => overEdge(plate, hole)), ...overlaps(holes)];
  });
}

function overEdge({ name, size }: Plate, { part, at, diameter = 0 }: Hole): Report<MisplacedHoleClaim>[] {
  if (size === undefined || at === undefined) return [];
  const inside = Math.min(at.x, at.y, size.width - at.x, size.height - at.y);
  if (inside + HAIR >= diameter / 2) return [];
  const isOutside = inside < -HAIR;
  return [
    {
      claim: {
        kind: isOutside ? 'outside' : 'over-edge',
        subjects: { part: part.name, plate: name },
        figures: {
          x: figure(at.x, 'metre'),
          y: figure(at.y, 'metre'),
          width: figure(size.width, 'metre'),
          height: figure(size.height, 'metre'),
          ...(diameter === 0 ? {} : { hole: figure(diameter, 'metre') }),
        },
      },
      why: 'Measure its place and the plate again: X and Y count from one corner of the plate, X along its width.',
      range: part.nameRange,
      subjects: [part.name],
    },
  ];
}

function overlaps(holes: readonly Hole[]): Report<MisplacedHoleClaim>[] {
  return holes.flatMap((hole, index) =>
    holes.slice(index + 1).flatMap((other): Report<MisplacedHoleClaim>[] => {
      if (hole.at === undefined || other.at === undefined || hole.diameter === undefined || other.diameter === undefined)
        return [];
      const apart = Math.hypot(hole.at.x - other.at.x, hole.at.y - other.at.y);
      const needed = (hole.diameter + other.diameter) / 2;
      if (apart + HAIR >= needed) return [];
      return [
        {
          claim: {
            kind: 'overlap',
            subjects: { holes: [hole.part.name, other.part.name] },
            figures: { apart: figure(apart, 'metre'), needed: figure(needed, 'metre') },
          },
          why: 'Move one of them, or measure the holes again.',
          range: other.part.nameRange,
          subjects: [hole.part.name, other.part.name],
        },
      ];
    }),
  );
}
