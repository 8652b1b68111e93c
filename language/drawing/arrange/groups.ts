/** What a cavity, a plate, an assembly or the sheet itself holds, set out inside it: declared places first, the rest as its family has it. */
import { itemAt } from '../../collections.js';
import type { Diagram, DiagramGroup, DiagramPart } from '../diagram/diagram.js';
import { leadedKinds } from '../diagram/part-kind.js';
import { grid, snap, snapUp } from '../geometry.js';
import type { LayoutFunction } from '../layout.js';
import { symbolsOf } from '../symbols/index.js';
import { joinByChannels } from './cavities.js';
import { placeDeclared } from './declared.js';
import { familyOf, turnOf, type Family } from './families.js';
import { setOutLoose } from './loose.js';
import { outlineAround } from './outline.js';
import { joinPieces, movePiece, pieceOf, type Piece } from './piece.js';
import { setOut } from './rows.js';
import { anchorsOf, boxesOf, hostsOf, placeBetween, type Anchors } from './satellites.js';
import { stationsOf, type Station } from './stations.js';

/** What is known of all parts before any has a place. */
interface Plan {
  readonly diagram: Diagram;
  readonly anchors: ReadonlyMap<DiagramPart, Anchors>;
  /** By small parts, the part at which they lie. */
  readonly hosts: ReadonlyMap<DiagramPart, DiagramPart>;
  readonly layout: LayoutFunction;
  /** Is told why the plain layout was taken. */
  readonly report: (reason: string) => void;
}

/** All parts of a diagram at their places, ground marks last, so that they move nothing. */
export async function placeAll(diagram: Diagram, layout: LayoutFunction, report: (reason: string) => void): Promise<Piece> {
  const anchors = anchorsOf(diagram);
  const plan = { diagram, anchors, hosts: hostsOf(diagram, anchors), layout, report };
  const piece = await inside(plan, undefined);
  const marks = diagram.parts.filter((part) => part.kind === 'mark');
  return withBetween(plan, piece ?? pieceOf('', []), marks);
}

/** What a group holds; none where that is nothing. */
async function inside(plan: Plan, group: DiagramGroup | undefined): Promise<Piece | undefined> {
  const { diagram, anchors, hosts } = plan;
  const own = diagram.parts.filter((part) => part.group === group?.id && part.kind !== 'mark');
  const between = own.filter((part) => !hosts.has(part) && part.at === undefined && leadedKinds.has(part.kind) && anchors.has(part));
  const standing = own.filter((part) => !hosts.has(part) && !between.includes(part));
  const stations = stationsOf(standing);
  const family = familyOf([...stations.values()]);
  const pieces = standing.map((part): readonly [Piece, DiagramPart] => [
    clusterOf(plan, part, stations.get(part) ?? 'other', family, own),
    part,
  ]);
  const { placed, left } = placeDeclared(pieces);
  const free = pieces.filter(([piece, part]) => part.at === undefined || left.includes(piece));

  const byStation = new Map<Station, Piece[]>();
  const put = (station: Station, piece: Piece): void => void byStation.set(station, [...(byStation.get(station) ?? []), piece]);
  const loose: Piece[] = [];
  for (const [piece, part] of free) {
    const station = stations.get(part) ?? 'other';
    if (station === 'other') loose.push(piece);
    else put(station, piece);
  }
  if (loose.length > 0) put('other', await setOutLoose(loose, plan.layout, plan.report));
  const groups: Piece[] = [];
  for (const inner of diagram.groups.filter(({ parent }) => parent === group?.id)) groups.push(await groupPiece(plan, inner));
  for (const piece of joinByChannels(diagram, groups)) {
    const holdsPickups = piece.symbols.every(({ part }) => ['pickup', 'humbucker', 'terminal'].includes(part.kind));
    put(holdsPickups && piece.symbols.length > 0 ? 'pickup' : 'group', piece);
  }
  const rest = setOut(group?.name ?? '', family, byStation);
  const parts = [...placed, ...(rest === undefined ? [] : [placed.length === 0 ? rest : below(rest, placed)])];
  if (parts.length === 0 && between.length === 0) return undefined;
  return withBetween(plan, joinPieces(group?.name ?? '', parts), between);
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
  const symbols = symbolsOf(part);
  const turned = turnOf(family, station) === 2 && symbols.length > 1 ? 1 : 0;
  const placed = [{ part, symbol: itemAt(symbols, turned), x: 0, y: 0 }];
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
    const next = [...waiting].find(isReady) ?? (first as DiagramPart);
    waiting.delete(next);
    symbols.push(placeBetween(next, anchors.get(next) ?? new Map(), { symbols, taken: boxesOf(symbols) }));
  }
  const all = pieceOf(piece.name, symbols);
  return { ...piece, symbols, box: symbols.length === 0 ? piece.box : joinPieces('', [piece, all]).box };
}

function below(rest: Piece, placed: readonly Piece[]): Piece {
  const { box } = joinPieces('', placed);
  return movePiece(rest, { x: snap(box.x - rest.box.x), y: snapUp(box.y + box.height + 5 * grid - rest.box.y) });
}
