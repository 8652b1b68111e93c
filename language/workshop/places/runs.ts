/** The wires of an instrument with their lengths: what is cut off the reel, and the leads that come with their parts. */
import { isOwnLead, statedLength, type Joint, type LugId } from '../../circuit/model.js';
import type { Steps } from '../../steps.js';
import type { Places } from './places.js';
import { routeBetween, type Route } from './routes.js';

/** One wire, with its number on the sheet. */
export interface Run {
  /** `W1` off the reel, `L1` for a part's own lead. */
  readonly mark: string;
  readonly joint: Joint;
  readonly ownLead: boolean;
  readonly route: Route;
  /** What the way takes with slack and, where a plate must open, its lift; strips at the ends that are soldered. Metres; absent where no way is known. */
  readonly needed?: number;
  /** The least that can reach: measured stretches and strips alone. */
  readonly least?: number;
  /** The same with what the settings assume for stretches that are not measured; without slack and lift. */
  readonly reach?: number;
  /** Length to cut: the declared one, else what is needed, rounded up; of an own lead what it has. Absent: measure in place. */
  readonly length?: number;
  /** True where the length is the text's own. */
  readonly declared: boolean;
  /** True where a setting stands in for a measure on the way, so that a thread should be laid along it before the wire is cut. */
  readonly assumed: boolean;
}

/** Rounds up to a whole number of steps; what lies a hair above one for want of binary digits is that one. */
export function roundedUp(metres: number, step: number): number {
  if (!(step > 0)) return metres;
  return Math.round(Math.ceil(metres / step - 1e-9) * step * 1e6) / 1e6;
}

/** Every wire in the order of the text, in steps of a few wires each. */
export function* measureRuns(places: Places): Steps<readonly Run[]> {
  const { settings } = places;
  const runs: Run[] = [];
  for (const joint of places.joints) {
    if (joint.kind !== 'wire' || isInside(places, joint)) continue;
    if (runs.length % 16 === 0) yield;
    const ownLead = isOwnLead(places, joint);
    const route = routeBetween(places, joint.a, joint.b);
    const ends = ownLead ? 1 : 2;
    const declared = statedLength(places, joint);
    const reach = route.known ? reachOf(places, route, ends) : undefined;
    const cut = reach === undefined || ownLead ? undefined : roundedUp(reach.needed, settings.step);
    const length = declared ?? cut;
    runs.push({
      mark: joint.mark ?? '',
      joint,
      ownLead,
      route,
      ...reach,
      ...(length === undefined ? {} : { length }),
      declared: declared !== undefined,
      assumed: route.known && declared === undefined && route.pieces.some((piece) => piece.assumed),
    });
  }
  return runs;
}

/** Wires inside an assembly that is one type are wires of the instrument all the same; only what the type makes inside a part is not. */
function isInside(places: Places, joint: Joint): boolean {
  const inner = (lug: LugId): boolean => places.lug(lug).inner === true;
  return inner(joint.a) || inner(joint.b);
}

function reachOf(
  { settings }: Places,
  route: Route & { readonly known: true },
  ends: number,
): Required<Pick<Run, 'needed' | 'least' | 'reach'>> {
  const strips = ends * settings.strip;
  const lifts = route.pieces.filter((piece) => piece.what.endsWith(' down')).length * settings.lift;
  const measured = route.pieces.reduce((sum, piece) => sum + (piece.assumed ? 0 : piece.metres), 0);
  // A sum of millimetres is compared with a length: what it lacks in its last binary digits is no shortness.
  const exact = (metres: number): number => Math.round(metres * 1e9) / 1e9;
  const reach = exact(route.metres + strips);
  return { needed: reach + lifts + settings.slack, least: exact(measured + strips), reach };
}

/**
 * Metres of wire that lengthen a part's own lead which is shorter than its way; absent where it reaches, or where one of both is not known.
 * The stripped ends of the splice lie side by side, so that one strip is lost.
 */
export function spliceLength({ settings: { strip, step } }: Pick<Places, 'settings'>, run: Run): number | undefined {
  const { ownLead, length, needed, reach } = run;
  if (!ownLead || length === undefined || needed === undefined || reach === undefined || length >= reach) return undefined;
  return roundedUp(needed - length + strip, step);
}
