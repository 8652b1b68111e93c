/** From places and routes to a scene: wires with their labels, joints, lacing, outlines, all moved to the sheet. */
import type { Arrangement } from '../arrange/arrange.js';
import { firstOf, lastOf, valueFor } from '../../collections.js';
import { placedPads, type PlacedSymbol } from '../placed.js';
import type { Diagram, DiagramPart } from '../diagram/diagram.js';
import { type Box, boxAround, grow, joinBoxes, moved, type Point, overlaps } from '../geometry.js';
import { byId } from '../diagram/order.js';
import { isSmall } from '../router/field.js';
import { wiresOf, type RoutedWire } from '../router/wires.js';
import type { Picture, SceneChannel, SceneContact, SceneJoint, SceneMark, ScenePart, SceneWire } from '../scene.js';
import { pillBox, type Label, type Shape } from '../shape.js';
import { moveShape, shapeBox } from '../symbols/symbol.js';
import { textHeight, textWidth } from '../text-measure.js';
import { flattened, strokeBoxes } from '../wire-path.js';
import { shifted } from './transform.js';
import { laceBundles } from './lacing.js';
import { placePills } from './pills.js';

export function compose(
  diagram: Diagram,
  arrangement: Arrangement,
  before?: Point,
): {
  readonly picture: Picture;
  readonly origin: Point;
  readonly crowded: readonly string[];
  readonly astray: readonly string[];
  /** Wires for whose label there was no room. */
  readonly unlabelled: readonly string[];
} {
  const { placed, groups, bands } = arrangement;
  const [parts, marks] = partsAndMarks(placed);
  const labels = groups.flatMap((group) => group.labels);
  const { wires: routed, crowded, astray } = wiresOf(diagram, arrangement.session, placed, labels);
  const joints = jointsOf(routed, placed);
  const taken: Box[] = [
    ...[...parts, ...marks, ...groups].flatMap((item) => item.labels.map((label) => grow<Box>(label, 1))),
    ...parts.flatMap(lugBoxes),
    ...joints.map((joint) => grow({ x: joint.x, y: joint.y, width: 0, height: 0 }, joint.radius + 1)),
  ];
  const outlines = [...groups, ...bands].flatMap((item) => item.shapes.flatMap(outlineBoxes));
  const bodies = placed.flatMap((symbol) => symbol.symbol.covers.filter(isSmall).map((box) => moved(box, symbol)));
  const pills = placePills(routed, ({ run }) => arrangement.session.isThroughChannel(run.id), taken, [...outlines, ...bodies]);
  const wires = routed.map(({ run, points }): SceneWire => {
    const { id, kind, from, to, colours, bare, twisted, shielded, says } = run;
    const leader = pills.leaders.get(id);
    const labels = pills.labels.get(id) ?? [];
    const drawn = { id, kind, from, to, colours, bare, twisted, shielded, says, points, labels };
    return leader === undefined ? drawn : { ...drawn, leader };
  });
  taken.push(...wires.flatMap((wire) => wire.labels.map((label) => grow(pillBox(label), 1))));
  const lacings = laceBundles(routed, (id) => arrangement.session.bundle(id), taken);
  const lines = [...wires.flatMap((wire) => segmentBoxes(wire.points)), ...outlines];
  const channels = bands.map(({ channel, shapes, spots }): SceneChannel => {
    const labels = channelLabels(channel.texts, spots, [...taken, ...lines]);
    taken.push(...labels);
    return { id: channel.id, says: channel.says, shapes, labels };
  });
  const picture = {
    groups,
    channels,
    parts,
    wires: wires.sort(byId),
    lacings,
    joints,
    marks,
    contacts: contactsOf(placed),
  };
  return { ...onSheet(picture, before), crowded, astray, unlabelled: pills.missing };
}

function partsAndMarks(placed: readonly PlacedSymbol[]): readonly [ScenePart[], SceneMark[]] {
  const parts = placed.filter(({ part }) => part.kind !== 'mark').map(scenePart);
  const marks = placed.filter(({ part }) => part.kind === 'mark').map(sceneMark);
  return [parts.sort(byId), marks.sort(byId)];
}

function contactsOf(placed: readonly PlacedSymbol[]): SceneContact[] {
  const contacts = placed.flatMap(({ part, symbol, x, y }) =>
    symbol.contacts.map(({ id, lines }): SceneContact => ({
      id,
      part: part.id,
      lines: lines.map((line) => line.map((point) => moved(point, { x, y }))),
    })),
  );
  return contacts.sort(byId);
}

/** What each round lug covers. */
function lugBoxes({ lugs }: ScenePart): Box[] {
  return lugs.filter((lug) => lug.look === 'lug').map((lug) => grow({ x: lug.x, y: lug.y, width: 0, height: 0 }, lug.radius + 1));
}

function scenePart(placed: PlacedSymbol): ScenePart {
  const { part, symbol, x, y } = placed;
  const by = { x, y };
  const labels = new Map([...part.lugs, ...(part.inner ?? []).flatMap((inner) => inner.lugs)].map((lug) => [lug.id, lug.label]));
  return {
    id: part.id,
    name: part.name,
    type: part.type,
    says: partSays(part),
    box: { x, y, width: symbol.width, height: symbol.height },
    shapes: symbol.shapes.map((shape) => moveShape(shape, by)),
    labels: symbol.labels.map((label) => moved(label, by)),
    lugs: placedPads(placed)
      .map((pad) => ({
        id: pad.lug,
        label: valueFor(labels, pad.lug),
        x: pad.x,
        y: pad.y,
        radius: pad.radius,
        look: pad.look === 'spot' ? ('spot' as const) : ('lug' as const),
      }))
      .sort(byId),
  };
}

function sceneMark({ part, symbol, x, y }: PlacedSymbol): SceneMark {
  return {
    id: part.id,
    lug: `lug:${part.name}`,
    says: `${part.type} at ${part.name}: ${part.values.join(', ')}`,
    shapes: symbol.shapes.map((shape) => moveShape(shape, { x, y })),
    labels: symbol.labels.map((label) => moved(label, { x, y })),
  };
}

function partSays(part: DiagramPart): string {
  return [part.name, part.type === part.name ? '' : part.type, ...part.values.filter((value) => value !== part.type)]
    .filter((text) => text !== '')
    .join(', ');
}

/** One blob where one or more runs are soldered to a lug; each has its own on a larger piece of metal. */
function jointsOf(wires: readonly RoutedWire[], placed: readonly PlacedSymbol[]): SceneJoint[] {
  const looks = new Map(placed.flatMap((symbol) => placedPads(symbol).map((pad) => [pad.lug, pad] as const)));
  const joints = new Map<string, SceneJoint>();
  for (const { run, points } of wires) {
    for (const [lug, point] of [
      [run.from, firstOf(points)],
      [run.to, lastOf(points)],
    ] as const) {
      const pad = looks.get(lug);
      if (pad?.look === 'none') continue;
      const isLug = pad?.look === 'lug' && pad.x === point.x && pad.y === point.y;
      const id = isLug ? `joint:${lug.slice(4)}` : `joint:${run.id}@${pad ? lug.slice(4) : 'screen'}`;
      joints.set(id, { id, lug: pad ? lug : run.to, ...point, radius: pad ? Math.min(5, pad.radius - 1) : 3.5 });
    }
  }
  return [...joints.values()].sort(byId);
}

/** The lines of a channel's text, one below the other, at the first place along it where they touch nothing. */
function channelLabels(texts: readonly string[], spots: readonly Point[], taken: readonly Box[]): Label[] {
  const style = { size: 11 };
  const pitch = 13;
  const width = Math.max(...texts.map((text) => textWidth(text, style)));
  const height = pitch * texts.length;
  const box = spots
    .map((spot) => ({ x: spot.x - width / 2, y: spot.y - height / 2, width, height }))
    .find((candidate) => {
      const room = grow(candidate, 2);
      return !taken.some((other) => overlaps(room, other));
    });
  if (!box) return [];
  return texts.map((text, index): Label => {
    const own = { width: textWidth(text, style), height: textHeight(text, style) };
    const place = { x: box.x + (width - own.width) / 2, y: box.y + index * pitch };
    return { ...place, ...own, text, size: style.size, bold: false, role: 'note', upright: false };
  });
}

/** The lines of an outline, not what it encloses. */
function outlineBoxes(shape: Shape): Box[] {
  if (shape.kind === 'path') return strokeBoxes(shape.points, 2);
  const { x, y, width, height } = shapeBox(shape);
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
    { x, y },
  ];
  return strokeBoxes(corners, 2);
}

/** What a painted wire covers. */
export function segmentBoxes(points: readonly Point[]): Box[] {
  return strokeBoxes(flattened(points), 2);
}

/** Moves everything so that the picture begins at the sheet's margin, or keeps it where the picture before it was, as long as that fits. */
function onSheet(
  picture: Omit<Picture, 'width' | 'height'>,
  before: Point | undefined,
): { readonly picture: Picture; readonly origin: Point } {
  const sheetMargin = 8;
  const least = 4;
  const most = 72;
  const standing = [
    ...picture.parts.map((part) => part.box),
    ...[...picture.groups, ...picture.channels].flatMap((group) => [...group.shapes.map(shapeBox), ...group.labels]),
  ];
  // A wire that goes round the outermost part does not move the sheet.
  const room = grow(joinBoxes(standing.length === 0 ? [{ x: 0, y: 0, width: 240, height: 120 }] : standing), 44);
  const box = joinBoxes([
    room,
    ...picture.wires.flatMap((wire) => [boxAround(wire.points), ...wire.labels.map(pillBox)]),
    ...picture.marks.flatMap((mark) => [...mark.shapes.map(shapeBox), ...mark.labels]),
  ]);
  const along = (start: number, old: number | undefined): number => {
    const margin = old === undefined ? sheetMargin : start + old;
    return old !== undefined && margin >= least && margin <= most ? old : Math.round(sheetMargin - start);
  };
  const by = { x: along(box.x, before?.x), y: along(box.y, before?.y) };
  const sheet = {
    width: Math.ceil(box.x + by.x + box.width + sheetMargin),
    height: Math.ceil(box.y + by.y + box.height + sheetMargin),
  };
  return { picture: shifted({ ...picture, ...sheet }, by), origin: by };
}
