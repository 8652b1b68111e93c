/** Usual practice for pickups, jacks, stages and metal: the lugs of a part compared with the patterns for its type, by their names. */
import { type AnalysedCircuit, lugById, type Part, partById } from '../circuit/model.js';
import { connectionOf, type Connection } from './connections.js';
import { fit, nearest, type PracticeMatch } from './fit.js';
import { PRACTICE } from './generated/practice.js';
import type { Ground, LugsPattern } from './practice-table.js';

/** The pattern that a part is nearest to by its type; none for a type without patterns, and for a part of which nothing is wired. */
export function matchLugs(circuit: AnalysedCircuit, part: Part): PracticeMatch<LugsPattern> | undefined {
  const patterns = part.ancestry.map((type) => PRACTICE.lugs.filter((pattern) => pattern.type === type));
  const own = patterns.find((some) => some.length > 0);
  if (own === undefined) return undefined;
  const lugs = new Map(part.lugs.map((lug) => [lugById(circuit, lug).name, { lug, is: connectionOf(circuit, lug) }] as const));
  if ([...lugs.values()].every(({ is }) => is === 'bare')) return undefined;
  const ground = groundOf(circuit, part);
  return nearest(
    own
      .filter((pattern) => pattern.ground === ground)
      .map((pattern) =>
        fit(
          pattern,
          Object.entries(pattern.lugs).flatMap(([name, usually]) => {
            const connected = lugs.get(name);
            return connected === undefined ? [] : [[connected, usually] as const];
          }),
        ),
      ),
  );
}

/** The lugs of a part as a pattern. */
export function lugsPattern(circuit: AnalysedCircuit, part: Part): Pick<LugsPattern, 'type' | 'lugs' | 'ground'> {
  const lugs = Object.fromEntries(
    part.lugs.map((lug): [string, Connection] => [lugById(circuit, lug).name, connectionOf(circuit, lug)]),
  );
  const ground = groundOf(circuit, part);
  return { type: part.type, lugs, ...(ground === undefined ? {} : { ground }) };
}

function groundOf(circuit: AnalysedCircuit, { family, lugs }: Part): Ground | undefined {
  const joints = circuit.joints.filter(({ a, b }) => lugs.includes(a) || lugs.includes(b));
  if (family === 'pickup') return joints.some(({ kind }) => kind === 'screen') ? 'braid' : undefined;
  if (family !== 'metal') return undefined;
  const isStar = joints.some(({ a, b }) =>
    [a, b].some((lug) => partById(circuit, lugById(circuit, lug).part).ancestry.includes('star')),
  );
  return isStar ? 'star' : 'chain';
}
