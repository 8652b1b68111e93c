/** A picture moved, or seen from the other side: everything changes place, texts stay readable. */
import { moved, type Box, type Point } from '../geometry.js';
import type { Picture } from '../scene.js';
import type { Label, Shape } from '../shape.js';

/** Everything mirrored about the sheet's upright middle. */
export function mirrored(picture: Picture): Picture {
  const { width } = picture;
  return mapped(picture, {
    point: (at) => ({ ...at, x: width - at.x }),
    box: (area) => ({ ...area, x: width - area.x - area.width }),
  });
}

export function shifted(picture: Picture, by: Point): Picture {
  return mapped(picture, { point: (at) => moved(at, by), box: (area) => moved(area, by) });
}

interface Mapping {
  point<T extends Point>(this: void, at: T): T;
  box<T extends Box>(this: void, area: T): T;
}

function mapped(picture: Picture, { point, box }: Mapping): Picture {
  const line = (points: readonly Point[]): Point[] => points.map(point);
  const shape = (outline: Shape): Shape => {
    if (outline.kind === 'path') return { ...outline, points: line(outline.points) };
    return outline.kind === 'box' ? box(outline) : point(outline);
  };
  const outline = <T extends { readonly shapes: readonly Shape[]; readonly labels: readonly Label[] }>(item: T): T => ({
    ...item,
    shapes: item.shapes.map(shape),
    labels: item.labels.map(box),
  });
  return {
    ...picture,
    groups: picture.groups.map(outline),
    channels: picture.channels.map(outline),
    parts: picture.parts.map((part) => ({ ...outline(part), box: box(part.box), lugs: part.lugs.map(point) })),
    wires: picture.wires.map((wire) => ({
      ...wire,
      points: line(wire.points),
      labels: wire.labels.map(box),
      ...(wire.leader === undefined ? {} : { leader: [point(wire.leader[0]), point(wire.leader[1])] as const }),
    })),
    lacings: picture.lacings.map(({ id, points: [a, b] }) => ({ id, points: [point(a), point(b)] as const })),
    joints: picture.joints.map(point),
    marks: picture.marks.map(outline),
    contacts: picture.contacts.map((contact) => ({ ...contact, lines: contact.lines.map(line) })),
  };
}
