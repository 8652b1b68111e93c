/** Usual practice: how the lugs of a pot are wired in each role, and in which way a pot departs from that. */
import { type AnalysedCircuit, derivation, derive, type LugId, shaftById, type Track } from '../circuit/model.js';
import { getOrCreate } from '../collections.js';
import { PRACTICE } from './generated/practice.js';
import type { TrackPattern, TrackSides } from './practice-table.js';
import type { RoleWord, Unit } from './role.js';
import { isDeadEnd } from './spread.js';
import { surroundingsOf, tracksOfShaft, type Side } from './surroundings.js';

/** How a track compares with the usual way that it is nearest to. */
export interface TrackMatch {
  readonly track: Track;
  readonly sides: TrackSides;
  readonly pattern: TrackPattern;
  /** Its lugs that are soldered to something else than in the pattern. */
  readonly departs: readonly { readonly lug: LugId; readonly is: Side; readonly usually: Side }[];
}

/** Each track of a pot in a role, with the nearest pattern; the first of the table where several are equally near. Several rules ask it of every pot, so it is kept. */
export function matchTracks(circuit: AnalysedCircuit, unit: Unit, role: RoleWord): readonly TrackMatch[] {
  if (unit.kind !== 'pot') return [];
  return getOrCreate(derive(circuit, matches), `${unit.shaft} ${role}`, () => makeMatches(circuit, unit, role));
}

const matches = derivation(['text'], () => new Map<string, readonly TrackMatch[]>());

function makeMatches(circuit: AnalysedCircuit, unit: Unit, role: RoleWord): readonly TrackMatch[] {
  const patterns = PRACTICE.tracks.filter((pattern) => pattern.role === role);
  return tracksOf(circuit, unit).flatMap((track) => {
    const sides = sidesOfTrack(circuit, track);
    const isDirected = role === 'volume';
    const dead = isDirected ? deadEndOf(circuit, track, sides) : undefined;
    const compared = patterns.map((pattern): TrackMatch => {
      const departs = departuresOf(track, sides, pattern, isDirected, dead);
      return { track, sides, pattern, departs };
    });
    const [nearest] = compared.sort((a, b) => a.departs.length - b.departs.length);
    return nearest === undefined ? [] : [nearest];
  });
}

/** The tracks that a unit turns; none for what is no pot. */
export function tracksOf(circuit: AnalysedCircuit, unit: Unit): readonly Track[] {
  return unit.kind === 'pot' ? tracksOfShaft(circuit, shaftById(circuit, unit.shaft)) : [];
}

export function sidesOfTrack(circuit: AnalysedCircuit, track: Track): TrackSides {
  const { sideOf } = surroundingsOf(circuit);
  const { cold, wiper, hot } = lugsOfTrack(track);
  return { cold: sideOf(cold), wiper: sideOf(wiper), hot: sideOf(hot) };
}

/** The lugs of a track by what the wiper reaches at each end of the turn; a track that is full before the end of the travel, as in a blend, is not mirrored. */
export function lugsOfTrack({ a, b, wiper, leavesTo, empty, full }: Track): { readonly [end in keyof TrackSides]: LugId } {
  const far = leavesTo ?? b;
  const isMirrored = empty === 10 && full === 0;
  return !isMirrored ? { cold: a, wiper, hot: far } : { cold: far, wiper, hot: a };
}

function departuresOf(
  track: Track,
  sides: TrackSides,
  pattern: TrackPattern,
  isDirected: boolean,
  dead: LugId | undefined,
): TrackMatch['departs'] {
  const lugs = lugsOfTrack(track);
  return (['cold', 'wiper', 'hot'] as const).flatMap((end) =>
    isLike(sides[end], pattern[end], isDirected) && lugs[end] !== dead
      ? []
      : [{ lug: lugs[end], is: sides[end], usually: pattern[end] }],
  );
}

/** The lug that leads to other parts, and from there to no signal, where pickups and output share the other lug of a volume. */
function deadEndOf(circuit: AnalysedCircuit, track: Track, sides: TrackSides): LugId | undefined {
  const { cold, wiper, hot } = lugsOfTrack(track);
  const isBeside = (one: Side, other: Side): boolean => one === 'controls' && other === 'signal';
  const lug = isBeside(sides.wiper, sides.hot) ? wiper : isBeside(sides.hot, sides.wiper) ? hot : undefined;
  const others = [cold, wiper, hot].filter((other) => other !== lug);
  return lug !== undefined && isDeadEnd(circuit, lug, others) ? lug : undefined;
}

/**
 * Where pickups and output lead to one lug, it can't be seen which way the signal goes, so `signal` is like input and output; where the way doesn't
 * matter, all three are alike. What lies behind other controls may be any of them, or a capacitor.
 */
export function isLike(is: Side, usually: Side, isDirected: boolean): boolean {
  const isSignal = (side: Side): boolean => side === 'signal' || side === 'input' || side === 'output';
  const all = [is, usually];
  if (all.includes('controls')) return !all.includes('bare') && !all.includes('ground');
  return is === usually || (isSignal(is) && isSignal(usually) && (!isDirected || is === 'signal' || usually === 'signal'));
}
