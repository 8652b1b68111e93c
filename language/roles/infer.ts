/** What every part is for: what is stated, else what most speaks for. */
import { ROLE_WORDS } from '../circuit/index.js';
import {
  type AnalysedCircuit,
  derivation,
  derive,
  type Family,
  type LugId,
  partById,
  type PartId,
  shaftById,
  type Property,
} from '../circuit/model.js';
import { groupBy, itemAt } from '../collections.js';
import { evidenceOfPassive } from './passives.js';
import { evidenceOfPickup, pickupsNamedBy, wholePickups } from './pickups.js';
import { evidenceOfPot } from './pots.js';
import { purposesOf } from './purposes.js';
import type { Confidence, Evidence, Role, RoleWord, Unit } from './role.js';
import { surroundingsOf } from './surroundings.js';
import { evidenceOfSwitch } from './switches.js';

/** Less than this speaks for nothing; so much, and so much more than for anything else, is strong. */
const least = 1;
const strong = 3;
const ahead = 1.5;

/** The roles of a circuit's parts, in the order of the parts; a part for which nothing speaks has none. */
export function rolesOf(circuit: AnalysedCircuit): readonly Role[] {
  return derive(circuit, roles);
}

/** The roles of one part: two for a pot with a switch. */
export function rolesOfPart(circuit: AnalysedCircuit, part: PartId): readonly Role[] {
  const { family } = partById(circuit, part);
  return hasRole(family) ? rolesOf(circuit).filter(({ unit }) => unit.part === part) : [];
}

const roles = derivation(['meaning'], (circuit): readonly Role[] => {
  const found = unitsOf(circuit).flatMap((unit) => {
    const decided = decide(circuit, unit);
    return decided === undefined ? [] : [{ unit, ...decided }];
  });
  return found.map((role) => ({
    ...role,
    of: pickupsOf(circuit, role.unit, role.word),
    lugs: purposesOf(circuit, role.unit, role.word),
  }));
});

/** Jacks, metal and stages have no role to infer. */
function hasRole(family: Family): boolean {
  return ['control', 'switch', 'passive', 'assembly', 'pickup'].includes(family);
}

function unitsOf(circuit: AnalysedCircuit): readonly Unit[] {
  const shaftsOf = groupBy(circuit.shafts, ({ part }) => part);
  const switchesOf = groupBy(circuit.switches, ({ part }) => part);
  return circuit.parts.flatMap((part): readonly Unit[] => {
    const shafts = shaftsOf.get(part.id) ?? [];
    const switches = switchesOf.get(part.id) ?? [];
    switch (part.family) {
      case 'control':
      case 'switch':
        return [
          ...shafts.map(({ id }) => ({ kind: 'pot' as const, part: part.id, shaft: id })),
          ...switches.map(({ id }) => ({ kind: 'switch' as const, part: part.id, switch: id })),
        ];
      case 'passive':
      case 'assembly':
        return [{ kind: 'passive', part: part.id }];
      case 'pickup':
        return [{ kind: 'pickup', part: part.id }];
      default:
        return [];
    }
  });
}

function decide(circuit: AnalysedCircuit, unit: Unit): Pick<Role, 'word' | 'confidence' | 'evidence'> | undefined {
  const stated = statedRole(partById(circuit, unit.part).properties['role'], unit);
  if (stated !== undefined) return { word: stated, confidence: 'stated', evidence: [] };
  const all = evidenceOf(circuit, unit);
  const sums = new Map<RoleWord, number>();
  for (const { word, weight } of all) sums.set(word, (sums.get(word) ?? 0) + weight);
  const [best, second] = [...sums].sort(([, a], [, b]) => b - a);
  if (best === undefined || best[1] < least) return undefined;
  const [word, sum] = best;
  const confidence: Confidence = sum >= strong && sum - (second?.[1] ?? 0) >= ahead ? 'strong' : 'weak';
  const evidence = all
    .filter((one) => one.word === word)
    .sort((a, b) => b.weight - a.weight)
    .map(({ says }) => says);
  return { word, confidence, evidence: [...new Set(evidence)] };
}

function evidenceOf(circuit: AnalysedCircuit, unit: Unit): readonly Evidence[] {
  const part = partById(circuit, unit.part);
  switch (unit.kind) {
    case 'pot':
      return evidenceOfPot(circuit, shaftById(circuit, unit.shaft));
    case 'switch':
      return evidenceOfSwitch(circuit, itemAt(circuit.switches, unit.switch));
    case 'passive':
      return evidenceOfPassive(circuit, part);
    case 'pickup':
      return evidenceOfPickup(part);
  }
}

/** A word that belongs to the other half of a pot with a switch says nothing of this one. */
function statedRole(property: Property | undefined, { kind }: Unit): RoleWord | undefined {
  if (property === undefined || !('words' in property)) return undefined;
  const words: readonly RoleWord[] = ROLE_WORDS[kind];
  return words.find((word) => word === property.words[0]);
}

/** By its name (`neck-tone`), else those whose leads reach it through contacts. */
function pickupsOf(circuit: AnalysedCircuit, unit: Unit, word: RoleWord): readonly PartId[] {
  const own = partById(circuit, unit.part);
  if (unit.kind === 'pickup') return [own.id];
  const pickups = wholePickups(circuit);
  const named = pickupsNamedBy(circuit, own);
  if (named.length > 0 && word !== 'selector') return named.map(({ id }) => id);
  const reached = reachedBy(circuit, own.lugs);
  const some = pickups.filter(({ id }) => reached.has(id));
  return (some.length > 0 ? some : pickups).map(({ id }) => id);
}

function reachedBy(circuit: AnalysedCircuit, lugs: readonly LugId[]): ReadonlySet<PartId> {
  const { classOf, ground, pickupsAt } = surroundingsOf(circuit);
  return new Set(
    lugs
      .map(classOf)
      .filter((classId) => classId !== ground)
      .flatMap((classId) => [...pickupsAt(classId)]),
  );
}
