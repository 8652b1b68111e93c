/** What a cavity, a plate, an assembly or the sheet itself holds, set out inside it: declared places first, the rest as its family has it. */
import { channelBands } from '../channels.js';
import type { Diagram, DiagramGroup, DiagramPart } from '../diagram/diagram.js';
import { leadedKinds } from '../diagram/part-kind.js';
import { type Box, grid, grow, snap, snapUp } from '../geometry.js';
import type { LayoutFunction } from '../layout.js';
import { symbolOf } from '../symbols/index.js';
import { joinByChannels } from './cavities.js';
import { fitTogether, placeDeclared } from './declared.js';
import { familyOf, turnOf, type Family } from './families.js';
import { setOutLoose } from './loose.js';
import { outlineAround } from './outline.js';
import { joinPieces, movePiece, pieceOf, type Piece } from './piece.js';
import { a4, setOut, type Page, type Spans } from './rows.js';
import { anchorsOf, boxesOf, hostsOf, placeBetween, type Anchors } from './satellites.js';
import { stationsOf, type Station } from './stations.js';

/** What is known of all parts before any has a place. */
interface Plan {
  readonly diagram: Diagram;
  readonly anchors: ReadonlyMap<DiagramPart, Anchors>;
  /** By small parts, the part at which they lie. */
  readonly hosts: ReadonlyMap<DiagramPart, DiagramPart>;
  readonly layout: LayoutFunction;
  readonly pages: readonly Page[];
  /** Called with the reason where the plain layout is used. */
  readonly report: (reason: string) => void;
}

/** All parts of a diagram at their places, ground marks last, so that they move nothing. */
export async function placeAll(diagram: Diagram, layout: LayoutFunction, report: (reason: string) => void): Promise<Piece> {
  const anchors = anchorsOf(diagram);
  const plan = { diagram, anchors, hosts: hostsOf(diagram, anchors), layout, pages: a4, report };
  const piece = (await inside(plan, undefined)) ?? pieceOf('', []);
  const marks = diagram.parts.filter((part) => part.kind === 'mark');
  return withBetween(plan, withOwnLugs(diagram, piece), marks);
}

/** A plate's or cavity's own lug is drawn only where something is soldered to it. */
function isOwnLug({ kind, id, group }: DiagramPart): boolean {
  return kind === 'terminal' && group !== undefined && group.slice(group.indexOf(':')) === id.slice(id.indexOf(':'));
}

/** Adds those lugs where there is room inside their outlines, clear of names and of the mouths of channels, when all else has its place. */
function withOwnLugs(diagram: Diagram, piece: Piece): Piece {
  const symbols = [...piece.symbols];
  const mouths = channelBands(diagram, piece.outlines, new Map()).flatMap(({ openings }) =>
    openings.map((box) => grow(box, 8 * grid)),
  );
  for (const part of diagram.parts.filter(isOwnLug)) {
    const outline = piece.outlines.get(part.group ?? '');
    const taken = [...boxesOf(symbols), ...namesOf(piece)];
    const inside = outline === undefined ? undefined : grow(outline, -2 * grid);
    symbols.push(placeBetween(part, new Map(), { symbols, taken: [...taken, ...mouths] }, inside));
  }
  return { ...piece, symbols };
}

/** Where the names of groups stand, at the head of each outline. */
function namesOf({ outlines }: Piece): Box[] {
  return [...outlines.values()].map((box) => ({ ...box, height: 3 * grid }));
}

/** What a group holds; none where that is nothing. */
async function inside(plan: Plan, group: DiagramGroup | undefined): Promise<Piece | undefined> {
  const own = setOf(plan, group?.id);
  const plates = group === undefined ? [] : platesOver(plan, group, own);
  const floor = placeDeclared([...own.pieces, ...plates.flatMap(({ set }) => set.pieces)]);
  const rest = await setOutRest(plan, group, own, { lids: plates, left: floor.left });
  const placed = floor.placed.length === 0 ? undefined : joinPieces('', outlined(plan, floor.placed, plates));
  const parts = [placed, rest === undefined || placed === undefined ? rest : below(rest, placed)].flatMap((piece) => piece ?? []);
  const between = [...own.between, ...plates.flatMap(({ set }) => set.between)];
  if (parts.length === 0 && between.length === 0) return undefined;
  return withBetween(plan, joinPieces(group?.name ?? '', parts), between);
}

/** What has no declared place, and the inner groups that are not drawn over this one's floor, as the family has them. */
async function setOutRest(
  plan: Plan,
  group: DiagramGroup | undefined,
  own: PartSet,
  declared: { readonly lids: readonly Lid[]; readonly left: readonly Piece[] },
): Promise<Piece | undefined> {
  const byStation = new Map<Station, Piece[]>();
  const put = (station: Station, piece: Piece): void => void byStation.set(station, [...(byStation.get(station) ?? []), piece]);
  const onLids = declared.lids.flatMap(({ set }) => set.pieces);
  const free = [
    ...own.pieces.filter(([, part]) => part.at === undefined),
    ...[...own.pieces, ...onLids].filter(([piece]) => declared.left.includes(piece)),
  ];
  for (const [piece, part] of free) put(own.stations.get(part) ?? 'other', piece);
  const loose = byStation.get('other');
  if (loose !== undefined) byStation.set('other', [await setOutLoose(loose, plan.layout, plan.report)]);
  const lids = new Set(declared.lids.map(({ plate }) => plate.id));
  const groups: Piece[] = [];
  for (const inner of plan.diagram.groups)
    if (inner.parent === group?.id && !lids.has(inner.id)) groups.push(await groupPiece(plan, inner));
  for (const piece of joinByChannels(plan.diagram, groups)) put(holdsPickupsOnly(piece) ? 'pickup' : 'group', piece);
  return setOut(group?.name ?? '', own.family, byStation, {
    spans: spansOf(plan, own.between),
    pages: plan.pages,
  });
}

/** Between which parts the small ones lie. */
function spansOf({ diagram, anchors }: Plan, between: readonly DiagramPart[]): Spans {
  const owner = new Map(diagram.parts.flatMap((part) => part.lugs.map((lug) => [lug.id, part.id] as const)));
  return between.map((part) => {
    const [one = '', other = ''] = [...(anchors.get(part)?.values() ?? [])].map((lug) => owner.get(lug) ?? '');
    return [one, other] as const;
  });
}

function holdsPickupsOnly({ symbols }: Piece): boolean {
  return symbols.length > 0 && symbols.every(({ part }) => ['pickup', 'humbucker', 'terminal'].includes(part.kind));
}

/** The parts of one group: those with a place each, with the small ones beside them, and those between others. */
interface PartSet {
  readonly pieces: readonly (readonly [Piece, DiagramPart])[];
  readonly stations: ReadonlyMap<DiagramPart, Station>;
  readonly family: Family;
  readonly between: readonly DiagramPart[];
}

function setOf(plan: Plan, group: string | undefined): PartSet {
  const { diagram, anchors, hosts } = plan;
  const own = diagram.parts.filter((part) => part.group === group && part.kind !== 'mark' && !isOwnLug(part));
  const between = own.filter(
    (part) => !hosts.has(part) && part.at === undefined && leadedKinds.has(part.kind) && anchors.has(part),
  );
  const standing = own.filter((part) => !hosts.has(part) && !between.includes(part));
  const stations = stationsOf(standing);
  const family = familyOf([...stations.values()]);
  const pieces = standing.map((part): readonly [Piece, DiagramPart] => [
    clusterOf(plan, part, stations.get(part) ?? 'other', family, own),
    part,
  ]);
  return { pieces, stations, family, between };
}

interface Lid {
  readonly plate: DiagramGroup;
  readonly set: PartSet;
}

/** The plates of a cavity that are drawn where they lie over its floor: places are declared on both, and no two parts are in each other's way. */
function platesOver(plan: Plan, cavity: DiagramGroup, floor: PartSet): Lid[] {
  const isDeclared = ({ pieces }: PartSet): boolean => pieces.some(([, { at }]) => at !== undefined);
  if (!isDeclared(floor)) return [];
  const lids = plan.diagram.groups
    .filter(({ parent, kind }) => parent === cavity.id && kind === 'plate')
    .map((plate) => ({ plate, set: setOf(plan, plate.id) }))
    .filter(({ set }) => isDeclared(set) && set.pieces.every(([, { at }]) => at !== undefined));
  const sets = [floor.pieces, ...lids.map(({ set }) => set.pieces)];
  return fitTogether(sets) && placeDeclared(sets.flat()).left.length === 0 ? lids : [];
}

/** Pieces as they lie, with the outlines of the plates around their own. */
function outlined({ diagram }: Plan, placed: readonly Piece[], lids: readonly Lid[]): Piece[] {
  const all = [...placed];
  for (const { plate, set } of lids) {
    const parts = new Set(set.pieces.map(([, part]) => part));
    const own = placed.filter(({ symbols }) => symbols.some(({ part }) => parts.has(part)));
    const { box } = outlineAround(diagram, plate, joinPieces('', own).box);
    all.push({ ...joinPieces(plate.name, own), symbols: [], outlines: new Map([[plate.id, box]]), box });
  }
  return all;
}

async function groupPiece(plan: Plan, group: DiagramGroup): Promise<Piece> {
  const content = await inside(plan, group);
  const { box, label } = outlineAround(plan.diagram, group, content?.box);
  return {
    name: group.name,
    symbols: content?.symbols ?? [],
    outlines: new Map([...(content?.outlines ?? []), [group.id, box]]),
    box: { ...box, width: Math.max(box.width, label) },
    centre: { x: snap(box.x + box.width / 2), y: snap(box.y + box.height / 2) },
  };
}

/** A part with the small ones that lie at it. */
function clusterOf(plan: Plan, part: DiagramPart, station: Station, family: Family, own: readonly DiagramPart[]): Piece {
  const placed = [{ part, symbol: symbolOf(part, turnOf(family, station)), x: 0, y: 0 }];
  for (const small of own.filter((other) => plan.hosts.get(other) === part)) {
    placed.push(placeBetween(small, plan.anchors.get(small) ?? new Map(), { symbols: placed, taken: boxesOf(placed) }));
  }
  return pieceOf(part.name, placed);
}

/** Adds parts that lie between others; one that hangs on another comes after it. */
function withBetween({ anchors }: Plan, piece: Piece, parts: readonly DiagramPart[]): Piece {
  const symbols = [...piece.symbols];
  const waiting = new Set(parts);
  const own = new Map(parts.flatMap((part) => part.lugs.map((lug) => [lug.id, part] as const)));
  while (waiting.size > 0) {
    const isReady = (part: DiagramPart): boolean =>
      [...(anchors.get(part)?.values() ?? [])].some((lug) => {
        const other = own.get(lug);
        return other === undefined || !waiting.has(other);
      });
    const [first] = waiting;
    const next = [...waiting].find(isReady) ?? first;
    if (next === undefined) break;
    waiting.delete(next);
    const taken = [...boxesOf(symbols), ...namesOf(piece)];
    symbols.push(placeBetween(next, anchors.get(next) ?? new Map(), { symbols, taken }));
  }
  const all = pieceOf(piece.name, symbols);
  return { ...piece, symbols, box: symbols.length === 0 ? piece.box : joinPieces('', [piece, all]).box };
}

function below(rest: Piece, { box }: Piece): Piece {
  return movePiece(rest, { x: snap(box.x - rest.box.x), y: snapUp(box.y + box.height + 5 * grid - rest.box.y) });
}
