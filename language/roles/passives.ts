/** What speaks for the role of a capacitor, a resistor or a small assembly: its name, and between what it lies. Common practice. */
import { type AnalysedCircuit, derivation, derive, elementById, type LugId, type Part } from '../circuit/model.js';
import { rolesNamed } from './names.js';
import type { Evidence } from './role.js';
import { surroundingsOf } from './surroundings.js';

/** Below this a capacitor is too small for a tone, and from twice that too large for a bleed, in farads. */
const small = 2e-9;

export function evidenceOfPassive(circuit: AnalysedCircuit, part: Part): readonly Evidence[] {
  const [word] = rolesNamed('passive', part.name).filter((role) => role !== 'tone-cap' || kindOf(circuit, part) !== 'resistor');
  const named: readonly Evidence[] = word === undefined ? [] : [{ word, weight: 4, says: `it is called ${part.name}` }];
  const [a, b, ...more] = part.lugs;
  if (a === undefined || b === undefined || more.length > 0) return named;
  return [...named, ...byPlace(circuit, a, b, part), ...byValue(circuit, part)];
}

function byPlace(circuit: AnalysedCircuit, a: LugId, b: LugId, part: Part): readonly Evidence[] {
  const { classOf, elementsOn, ground } = surroundingsOf(circuit);
  const [one, other] = [classOf(a), classOf(b)];
  if (one === other) return [];
  const both = elementsOn(one).filter((element) => element.part !== part.id && elementsOn(other).includes(element));
  const found: Evidence[] = [];
  if (both.some((element) => element.kind === 'track' && [one, other].includes(classOf(element.wiper))))
    found.push({ word: 'bleed', weight: 2, says: 'it lies from the wiper of a pot to the end of its track' });
  if ([one, other].some((classId) => classId !== ground && isSupply(circuit, classId)))
    found.push({ word: 'filter', weight: 3, says: 'it lies on the supply' });
  if ([one, other].some((classId) => classId !== ground && derive(circuit, aroundChips).has(classId)))
    found.push({ word: 'filter', weight: 4, says: 'it sets what a transistor or an op-amp does' });
  const kind = kindOf(circuit, part);
  const far = one === ground ? other : other === ground ? one : undefined;
  if (far === undefined) return found;
  if (kind === 'capacitor') found.push({ word: 'tone-cap', weight: 2, says: 'it leads to ground' });
  else if (kind === 'resistor') found.push({ word: 'load', weight: 3, says: 'it is a resistor to ground' });
  return found;
}

/** True for a class on which a battery ends or a stage takes its supply. */
function isSupply(circuit: AnalysedCircuit, classId: number): boolean {
  return derive(circuit, supplied).has(classId);
}

const supplied = derivation(['joints', 'contacts', 'elements', 'output'], (circuit): ReadonlySet<number> => {
  const { classOf } = surroundingsOf(circuit);
  return new Set(
    circuit.elements.flatMap((element) => {
      if (element.kind === 'battery') return [classOf(element.a), classOf(element.b)];
      return element.kind === 'gain' && element.transistor === undefined ? [classOf(element.plus)] : [];
    }),
  );
});

/** Where a transistor or an op-amp has the parts around it that set its gain: both of a transistor's ends, both of an op-amp's inputs. */
const aroundChips = derivation(['joints', 'contacts', 'elements', 'output'], (circuit): ReadonlySet<number> => {
  const { classOf } = surroundingsOf(circuit);
  return new Set(
    circuit.elements.flatMap((element) => {
      if (element.kind !== 'gain') return [];
      if (element.transistor !== undefined) return [classOf(element.plus), classOf(element.minus)];
      return element.inverting === undefined ? [] : [classOf(element.a), classOf(element.inverting)];
    }),
  );
});

function byValue(circuit: AnalysedCircuit, part: Part): readonly Evidence[] {
  const [id, ...more] = part.elements;
  if (id === undefined || more.length > 0) return [];
  const element = elementById(circuit, id);
  if (element.kind !== 'capacitor' || !element.capacitance.known) return [];
  const { value } = element.capacitance;
  if (value < small) return [{ word: 'bleed', weight: 1, says: 'its value is that of a treble bleed' }];
  return value >= 2 * small ? [{ word: 'tone-cap', weight: 1, says: 'its value is that of a tone capacitor' }] : [];
}

function kindOf(circuit: AnalysedCircuit, { elements }: Part): string | undefined {
  const [id, ...more] = elements;
  return id === undefined || more.length > 0 ? undefined : elementById(circuit, id).kind;
}
