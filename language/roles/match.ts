/** Usual practice as a whole: the patterns that a part is in, and the patterns that a circuit of `language/practice` gives. */
import { type AnalysedCircuit, type Part, type PartId, partById } from '../circuit/model.js';
import type { PracticeMatch } from './fit.js';
import { rolesOf, rolesOfPart } from './infer.js';
import { leadsPattern, matchLeads } from './match-leads.js';
import { lugsPattern, matchLugs } from './match-lugs.js';
import { matchPoles, polesPattern } from './match-poles.js';
import { lugsOfTrack, matchTracks, sidesOfTrack, tracksOf } from './practice.js';
import type { NamedPattern, Practice } from './practice-table.js';
import type { Role, RoleWord, Unit } from './role.js';

/** The patterns that a unit in a role is nearest to: one for each track of a shaft, for the poles of a switch, for a part with two leads. */
export function matchUnit(circuit: AnalysedCircuit, unit: Unit, role: RoleWord): readonly PracticeMatch[] {
  switch (unit.kind) {
    case 'pot':
      return matchTracks(circuit, unit, role).map(({ track, pattern, departs }) => {
        const { cold, wiper, hot } = lugsOfTrack(track);
        return { pattern, lugs: [cold, wiper, hot], departs, loose: 0 };
      });
    case 'switch':
      return matchPoles(circuit, unit, role);
    case 'passive': {
      const match = matchLeads(circuit, unit, role);
      return match === undefined ? [] : [match];
    }
    case 'pickup': {
      const match = matchLugs(circuit, partById(circuit, unit.part));
      return match === undefined ? [] : [match];
    }
  }
}

/** A match of a part, with the role that it was matched in; jacks, stages and metal have none. */
export interface PartMatch extends PracticeMatch {
  readonly role?: Role;
}

/** The patterns that a part is nearest to, in each of its roles, or by its type where it has none. */
export function matchPart(circuit: AnalysedCircuit, id: PartId): readonly PartMatch[] {
  const part = partById(circuit, id);
  const byRole = rolesOfPart(circuit, id).flatMap((role) =>
    matchUnit(circuit, role.unit, role.word).map((match): PartMatch => ({ ...match, role })),
  );
  if (byRole.length > 0 || part.family === 'control' || part.family === 'switch') return byRole;
  const match = matchLugs(circuit, part);
  return match === undefined ? [] : [match];
}

/** The patterns of a circuit of `language/practice`: of the parts whose role it states, or where it states none, of those under a comment. Equal ones once. */
export function patternsOf(circuit: AnalysedCircuit, name: string): Practice {
  const named: NamedPattern = { name, says: circuit.parts[0]?.doc ?? '' };
  const stated = rolesOf(circuit).filter(({ confidence }) => confidence === 'stated');
  const documented = stated.length > 0 ? [] : circuit.parts.filter(({ doc }) => doc !== undefined);
  return {
    tracks: distinct(
      stated.flatMap(({ unit, word: role }) =>
        tracksOf(circuit, unit).map((track) => ({ role, ...named, ...sidesOfTrack(circuit, track) })),
      ),
    ),
    poles: distinct(
      stated.flatMap(({ unit, word: role }) =>
        unit.kind === 'switch'
          ? [{ role, ...named, type: partById(circuit, unit.part).type, ...polesPattern(circuit, unit) }]
          : [],
      ),
    ),
    leads: distinct(
      stated.flatMap(({ unit, word: role }) => {
        const pattern = leadsPattern(circuit, unit);
        return pattern === undefined ? [] : [{ role, ...named, ...pattern }];
      }),
    ),
    lugs: distinct(documented.map((part: Part) => ({ ...named, says: part.doc ?? '', ...lugsPattern(circuit, part) }))),
  };
}

function distinct<P>(patterns: readonly P[]): readonly P[] {
  return [...new Map(patterns.map((pattern) => [JSON.stringify(pattern), pattern])).values()];
}
