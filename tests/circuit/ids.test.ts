/** Ids of different kinds are different types, and an accessor answers the item or says which id has none. */
import { expect, it } from 'vitest';
import { elementById, lugById, partById, partOfElement, partOfLug, shaftById, switchById } from '../../language/circuit/index.js';
import { elementId, lugId, partId, shaftId, switchId, type PartId } from '../../language/circuit/model.js';
import { soundCircuit } from './harness.js';

const circuit = soundCircuit('part volume : pot 250k');

it('answers the item that carries the id', () => {
  for (const part of circuit.parts) expect(partById(circuit, part.id)).toBe(part);
  for (const shaft of circuit.shafts) expect(shaftById(circuit, shaft.id)).toBe(shaft);
  for (const lug of circuit.lugs) {
    expect(lugById(circuit, lug.id)).toBe(lug);
    expect(partOfLug(circuit, lug.id).name).toBe('volume');
  }
  for (const element of circuit.elements) {
    expect(elementById(circuit, element.id)).toBe(element);
    expect(partOfElement(circuit, element.id).name).toBe('volume');
  }
  // A pot is one part with three lugs, a case and a track that one shaft turns.
  expect([circuit.parts, circuit.lugs, circuit.elements, circuit.shafts].map(({ length }) => length)).toEqual([1, 4, 1, 1]);
});

it('names the id that the circuit does not have', () => {
  expect(() => partById(circuit, partId(7))).toThrow('no part with the id 7');
  expect(() => lugById(circuit, lugId(8))).toThrow('no lug with the id 8');
  expect(() => elementById(circuit, elementId(9))).toThrow('no element with the id 9');
  expect(() => switchById(circuit, switchId(0))).toThrow('no switch with the id 0');
  expect(() => shaftById(circuit, shaftId(-1))).toThrow('no shaft with the id -1');
});

it('takes neither the id of another kind nor a bare number: the type check of the tests proves it', () => {
  const lug = lugId(0);
  // @ts-expect-error a lug's id is no part's id
  const wrong: PartId = lug;
  // @ts-expect-error a number is no id
  const bare: PartId = 0;
  expect([wrong, bare]).toEqual([0, 0]);
});
