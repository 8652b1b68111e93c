/** The project: what runs again after an edit, and what does not. */
import { expect, test } from 'vitest';
import { createProject } from '../../language/project.js';

const MAIN = 'file:///bench/main.lug';
const HOUSE = 'file:///bench/house.lug';

function shop(files: Readonly<Record<string, string>>) {
  const texts = new Map(Object.entries(files));
  const project = createProject({ read: (uri) => texts.get(uri) });
  /** What one call has set going. */
  const ran = (work: () => void) => {
    const before = { ...project.counters };
    work();
    const { reads, parses, lowerings } = project.counters;
    return [reads - before.reads, parses - before.parses, lowerings - before.lowerings];
  };
  return { project, ran, texts };
}

const TEXTS = {
  [MAIN]: 'use "house.lug"\npart volume : pot 250k\npart b : bleed from volume.3 to volume.2',
  [HOUSE]: 'type bleed : assembly {\n  lugs top bottom\n}',
};

test('a text is read, parsed and lowered once', () => {
  const { project, ran } = shop(TEXTS);
  expect(ran(() => project.circuit(MAIN))).toEqual([2, 2, 1]);
  const circuit = project.circuit(MAIN);
  expect(ran(() => project.circuit(MAIN))).toEqual([0, 0, 0]);
  expect(project.circuit(MAIN)).toBe(circuit);
  expect(circuit!.problems).toEqual([]);
});

test('the same text again sets nothing going; a changed one only its own', () => {
  const { project, ran } = shop(TEXTS);
  project.circuit(MAIN);
  const before = project.circuit(MAIN);
  expect(
    ran(() => {
      project.update(MAIN, TEXTS[MAIN]);
      expect(project.circuit(MAIN)).toBe(before);
    }),
  ).toEqual([0, 0, 0]);
  expect(
    ran(() => {
      project.update(MAIN, `${TEXTS[MAIN]}\npart g : star`);
      expect(project.circuit(MAIN)!.parts).toHaveLength(3);
    }),
  ).toEqual([0, 1, 1]);
});

test('a change in a used file reaches those that use it', () => {
  const { project, ran } = shop(TEXTS);
  project.circuit(MAIN);
  expect(project.dependents(HOUSE)).toEqual([MAIN]);
  expect(project.dependents(MAIN)).toEqual([]);
  expect(
    ran(() => {
      project.update(HOUSE, 'type bleed : assembly {\n  lugs top bottom middle\n}');
      expect(project.circuit(MAIN)!.problems.map((problem) => problem.rule)).toEqual(['form']);
    }),
  ).toEqual([0, 1, 1]);
});

test('a missing file is noticed when it comes, and one that goes when it is gone', () => {
  const { project, texts } = shop({ [MAIN]: TEXTS[MAIN] });
  expect(project.circuit(MAIN)!.problems.map((problem) => problem.rule)).toEqual(['use', 'unknown-name']);
  texts.set(HOUSE, TEXTS[HOUSE]);
  project.remove(HOUSE);
  expect(project.circuit(MAIN)!.problems).toEqual([]);
  texts.delete(HOUSE);
  project.remove(HOUSE);
  expect(project.circuit(MAIN)!.problems.map((problem) => problem.rule)).toEqual(['use', 'unknown-name']);
  texts.delete(MAIN);
  project.remove(MAIN);
  expect(project.circuit(MAIN)).toBeUndefined();
  expect(project.text(MAIN)).toBeUndefined();
});

test('a file that is asked for again and is as it was keeps its tree and its circuit', () => {
  const { project, ran } = shop(TEXTS);
  const circuit = project.circuit(MAIN);
  expect(
    ran(() => {
      project.remove(MAIN);
      expect(project.circuit(MAIN)).toBe(circuit);
    }),
  ).toEqual([1, 0, 0]);
});

test('the standard library is there without a host', () => {
  const { project, ran } = shop({});
  expect(ran(() => expect(project.circuit('lugwork:/parts/levers.lug')!.isLibrary).toBe(true))).toEqual([0, 1, 1]);
  expect(project.text('lugwork:/parts/levers.lug')).toContain('type lever-5 : switch');
});
