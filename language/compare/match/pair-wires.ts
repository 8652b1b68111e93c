/** Which run of one circuit is which of the other: the same ends, else one end in common. */
import { isOwnLead, leadEnd, lugById, type AnalysedCircuit, type Circuit, type Joint, type LugId } from '../../circuit/model.js';
import { buildOf } from '../../workshop/index.js';
import { append, groupBy } from '../../collections.js';
import { neighbours, type Match } from './match.js';

export interface WirePairs {
  /** The same ends. */
  readonly same: readonly (readonly [Joint, Joint])[];
  /** One end in common; the other went elsewhere. */
  readonly moved: readonly Moved[];
  readonly gone: readonly Joint[];
  readonly added: readonly Joint[];
}

export interface Moved {
  readonly before: Joint;
  readonly after: Joint;
  /** The end that stays, and the one that moves, in the old circuit. */
  readonly keeps: LugId;
  readonly leaves: LugId;
  /** The lug it moves to, in the new circuit. */
  readonly arrives: LugId;
}

/** What is soldered: wires, lugs bent onto lugs, leads of parts in place, ties of screens. */
const soldered: ReadonlySet<Joint['kind']> = new Set<Joint['kind']>(['wire', 'solder', 'screen']);

export function pairWires(before: AnalysedCircuit, after: AnalysedCircuit, match: Match): WirePairs {
  const as = (lug: LugId): number => match.lugs.to.get(lug) ?? -1;
  const left = {
    before: before.joints.filter((joint) => isCounted(before, joint)),
    after: after.joints.filter((joint) => isCounted(after, joint)),
  };
  const same: [Joint, Joint][] = [];
  // Of several wires between the same lugs those that look alike are one.
  for (const alike of [(a: Joint, b: Joint) => looksKey(a) === looksKey(b), () => true]) {
    const open = groupBy(left.after, ({ kind, a, b }) => endsKey(kind, a, b));
    const found = new Set<Joint>();
    for (const joint of left.before) {
      const candidates = (open.get(endsKey(joint.kind, as(joint.a), as(joint.b))) ?? []).filter((now) => !found.has(now));
      const now = candidates.find((candidate) => alike(joint, candidate));
      if (now === undefined) continue;
      found.add(joint).add(now);
      same.push([joint, now]);
    }
    left.before = left.before.filter((joint) => !found.has(joint));
    left.after = left.after.filter((joint) => !found.has(joint));
  }
  const moved = pairMoved(before, after, left, match);
  const paired = new Set(moved.flatMap((pair) => [pair.before, pair.after]));
  return {
    same,
    moved,
    gone: left.before.filter((joint) => !paired.has(joint)),
    added: left.after.filter((joint) => !paired.has(joint)),
  };
}

function isCounted(circuit: Circuit, { kind, a, b }: Joint): boolean {
  return soldered.has(kind) && lugById(circuit, a).inner !== true && lugById(circuit, b).inner !== true;
}

function endsKey(kind: Joint['kind'], a: number, b: number): string {
  return a < b ? `${kind} ${a} ${b}` : `${kind} ${b} ${a}`;
}

export function looksKey({ colour, gauge, length, bare, twisted, shielded, make }: Joint): string {
  return JSON.stringify([colour ?? null, gauge ?? null, length ?? null, bare, twisted, shielded, make ?? null]);
}

/** The likeliest pairs first: a pickup's own lead stays with its pickup, then the end stays at which least else is soldered. */
function pairMoved(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  left: { readonly before: readonly Joint[]; readonly after: readonly Joint[] },
  { lugs, parts }: Match,
): readonly Moved[] {
  const build = buildOf(before);
  const near = neighbours(before);
  const byEnd = new Map<LugId, Joint[]>();
  for (const joint of left.after) for (const lug of [joint.a, joint.b]) append(byEnd, lug, joint);
  const candidates = left.before.flatMap((joint) =>
    (
      [
        [joint.a, joint.b],
        [joint.b, joint.a],
      ] as const
    ).flatMap(([keeps, leaves]) => {
      const kept = lugs.to.get(keeps);
      return (kept === undefined ? [] : (byEnd.get(kept) ?? []))
        .filter((now) => now.kind === joint.kind && now.a !== now.b && joint.a !== joint.b)
        .map((now) => {
          const arrives = now.a === kept ? now.b : now.a;
          const isLead = isOwnLead(build, joint) && leadEnd(build, joint) === keeps;
          const isNear = parts.to.get(lugById(before, leaves).part) === lugById(after, arrives).part;
          const isAlike = looksKey(joint) === looksKey(now);
          const weight = (isLead ? 8 : 0) + (isNear ? 1 : 0) + (isAlike ? 2 : 0) + 4 / (1 + near(keeps).length);
          return { before: joint, after: now, keeps, leaves, arrives, weight };
        });
    }),
  );
  const used = new Set<Joint>();
  return candidates
    .sort((a, b) => b.weight - a.weight)
    .filter((pair) => {
      if (used.has(pair.before) || used.has(pair.after)) return false;
      used.add(pair.before).add(pair.after);
      return true;
    })
    .sort((a, b) => a.before.id - b.before.id);
}
