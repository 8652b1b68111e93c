/** Pots: tracks, shafts, hands, and the sides from which a diagram sees them. */
import { describe, expect, test } from 'vitest';
import { circuitOf, lugOf, soundCircuit, trackOf } from './harness.js';

describe('a pot', () => {
  test('has its track from lug 1 to lug 3 with the wiper on 2; 10 stands at lug 3', () => {
    const circuit = soundCircuit('part p : pot 250k audio');
    const track = trackOf(circuit, 'p');
    expect([track.a, track.wiper, track.b].map((id) => circuit.lugs[id]!.label)).toEqual(['p.1', 'p.2', 'p.3']);
    expect(track).toMatchObject({ taper: 'audio', mid: 0.15, empty: 0, full: 10, end: 0 });
    expect(circuit.shafts).toEqual([{ id: 0, part: 0, name: 'p', rest: 10, turn: 'right', tracks: [track.id] }]);
  });

  test('may have its own mid value, end resistance and rest', () => {
    const circuit = soundCircuit('part p : pot 250k audio { mid 10%, end 4R, rest 7 }');
    expect(trackOf(circuit, 'p')).toMatchObject({ mid: 0.1, end: 4 });
    expect(circuit.shafts[0]!.rest).toBe(7);
  });
});

describe('the hand', () => {
  test.each([
    ['{ hand left }', 'part p : pot', 10, 0, 'left'],
    ['{ hand left }', 'part p : pot { turn right }', 0, 10, 'right'],
    ['', 'part p : pot { turn left }', 10, 0, 'left'],
    ['{ hand right }', 'part p : pot', 0, 10, 'right'],
  ])('instrument %s, %s: lug 1 at %i, lug 3 at %i', (braces, part, empty, full, turn) => {
    const circuit = soundCircuit(`instrument "Alder Lane no. 0" ${braces}\n${part}`);
    expect(trackOf(circuit, 'p')).toMatchObject({ empty, full });
    expect(circuit.shafts[0]!.turn).toBe(turn);
  });

  test('turns a pot inside an assembly as well', () => {
    const circuit = soundCircuit(`
instrument "Alder Lane no. 0" { hand left }
type box : assembly {
  lugs in out
  part p : pot 250k
  wire in to p.3
  wire p.2 to out
}
part b : box
`);
    expect(trackOf(circuit, 'b.p')).toMatchObject({ empty: 10, full: 0 });
    expect(circuit.shafts[0]!.name).toBe('b.p');
  });
});

describe('a pot whose wiper leaves the track', () => {
  test('stands on lug 3 at 10, and the track ends inside', () => {
    const circuit = soundCircuit('part p : pot-no-load 250k');
    const track = trackOf(circuit, 'p');
    expect(circuit.lugs[track.leavesTo!]!.label).toBe('p.3');
    expect(circuit.lugs[track.b]!.inner).toBe(true);
    expect(circuit.parts[0]!.lugs.map((id) => circuit.lugs[id]!.name)).toEqual(['1', '2', '3', 'case']);
  });
});

describe('two tracks', () => {
  test('a dual pot has one shaft', () => {
    const circuit = soundCircuit('part p : pot-dual 500k');
    expect(circuit.shafts.map((shaft) => [shaft.name, shaft.tracks.length])).toEqual([['p', 2]]);
  });

  test('a concentric pot has two, called by their letters', () => {
    const circuit = soundCircuit('part p : pot-concentric 250k\nexpect p.b 0, p.a 10 : silent');
    expect(circuit.shafts.map((shaft) => shaft.name)).toEqual(['p.a', 'p.b']);
    expect(circuit.expectations[0]!.settings).toMatchObject([
      { kind: 'shaft', shaft: 1, rotation: 0 },
      { kind: 'shaft', shaft: 0, rotation: 10 },
    ]);
  });

  test('a blend is full on both at 5 and rests there; a falls towards 0, b towards 10', () => {
    const circuit = soundCircuit('part p : pot-blend 250k');
    expect(trackOf(circuit, 'p', 'a')).toMatchObject({ empty: 0, full: 5 });
    expect(trackOf(circuit, 'p', 'b')).toMatchObject({ empty: 10, full: 5 });
    expect(circuit.shafts).toMatchObject([{ name: 'p', rest: 5 }]);
  });
});

describe('left, middle and right', () => {
  // Shaft towards you and lugs down, 1 stands left (trade practice); from the back mirrored; lugs up, turned half round, mirrored again.
  test.each([
    ['seen front', '1', '3'],
    ['seen back', '3', '1'],
    ['seen front, lugs down', '1', '3'],
    ['seen front, lugs up', '3', '1'],
    ['seen back, lugs up', '1', '3'],
  ])('{ %s }: left is %s, right is %s', (view, left, right) => {
    const circuit = soundCircuit(`
part p : pot 250k { ${view} }
part s : star
wire p.left to s
wire p.middle to s
wire p.right to s
`);
    expect(circuit.joints.map((joint) => circuit.lugs[joint.a]!.name)).toEqual([left, '2', right]);
    // Hover answers with the number: the mention of `left` knows its lug.
    const use = circuit.names.find((name) => name.name === 'left');
    expect(use?.lug).toBe(lugOf(circuit, `p.${left}`).id);
  });

  test('the instrument may say how its diagram sees the pots, and a pot may say otherwise', () => {
    const circuit = soundCircuit(`
instrument "Alder Lane no. 0" { seen back }
part p : pot
part q : pot { seen front }
part r : pot { lugs up }
part s : star
wire p.left to q.left to r.left to s
`);
    expect(circuit.joints.map((joint) => circuit.lugs[joint.a]!.label)).toEqual(['p.3', 'q.1', 'r.1']);
    expect(circuit.seen).toBe('back');
  });

  test('before anything is said left is not guessed: both readings are offered', () => {
    const [problem, ...others] = circuitOf('part p : pot\npart s : star\nwire p.left to s').problems;
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ rule: 'property', range: { start: { line: 2, character: 7 } } });
    expect(problem!.fixes.map((fix) => [fix.title, fix.edits[0]!.text])).toEqual([
      ['write 3: left as seen from the back', '3'],
      ['write 1: left as seen from the front', '1'],
    ]);
  });
});
