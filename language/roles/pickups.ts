/** What speaks for where a pickup sits: its name, and its type. */
import { type AnalysedCircuit, derivation, derive, partById, type Part } from '../circuit/model.js';
import { rolesNamed, tokensOf } from './names.js';
import type { Evidence } from './role.js';

/** The pickups of an instrument, also those inside an assembly; one that is part of another pickup is not counted by itself. */
export function wholePickups(circuit: AnalysedCircuit): readonly Part[] {
  return derive(circuit, pickups).map(({ pickup }) => pickup);
}

/** Those that a part is named after: `neck-tone` beside a pickup `neck`. The name of an assembly that both are in says nothing of which belongs to which. */
export function pickupsNamedBy(circuit: AnalysedCircuit, part: Part): readonly Part[] {
  const [whole, own] = [tokensOf(part.name), tokensOf(ownName(part))];
  return derive(circuit, pickups).flatMap(({ pickup, inFull, inShort }) => {
    const isBeside = part.parent === pickup.parent;
    const tokens = isBeside ? own : whole;
    return (isBeside ? inShort : inFull).some((word) => tokens.includes(word)) ? [pickup] : [];
  });
}

interface NamedPickup {
  readonly pickup: Part;
  /** Words by which it goes: those of its name, and of what its name says; in full and without the assembly around it. */
  readonly inFull: readonly string[];
  readonly inShort: readonly string[];
}

/** Every part is compared with every pickup, so the words are read once. */
const pickups = derivation(['text'], (circuit): readonly NamedPickup[] =>
  circuit.parts
    .filter(
      ({ family, parent }) => family === 'pickup' && (parent === undefined || partById(circuit, parent).family !== 'pickup'),
    )
    .map((pickup) => ({ pickup, inFull: wordsOf(pickup.name), inShort: wordsOf(ownName(pickup)) })),
);

function wordsOf(name: string): readonly string[] {
  return [...tokensOf(name), ...rolesNamed('pickup', name).slice(0, 1)];
}

function ownName({ name }: Part): string {
  return name.slice(name.lastIndexOf('.') + 1);
}

export function evidenceOfPickup({ name, ancestry }: Part): readonly Evidence[] {
  const [word] = rolesNamed('pickup', name);
  return [
    ...(word === undefined ? [] : [{ word, weight: 4, says: `it is called ${name}` }]),
    ...(ancestry.includes('piezo') ? [{ word: 'piezo' as const, weight: 5, says: 'it is one by its type' }] : []),
  ];
}
