/** Types of one's own: worth as much as the standard ones. */
import { describe, expect, test } from 'vitest';
import {
  circuitOf,
  coilOf,
  contactsOf,
  elementsOf,
  expectProblems,
  jointsOf,
  partOf,
  rowsOf,
  soundCircuit,
  trackOf,
} from './harness.js';

const KILL_SLIDE = `
type kill-slide : switch {
  lugs A0 A1 A2 frame
  rows A1 A0 A2
  positions "play" "mute"
  at "play" joins A0 A1
  at "mute" joins A0 A2
  metal frame
}`;
const DARK_COIL = `
type dark-coil : pickup {
  lugs hot ground
  optional cover
  takes resistance 8.1k, inductance 4.6H, wound forward|reverse, magnet north|south
  coil main from ground to hot { resistance resistance, inductance inductance, capacitance 90pF }
  metal cover
}`;
const BLEED = `
type bleed : assembly {
  lugs top bottom
  part c : capacitor 680pF from top to bottom
  part r : resistor 150k from top to bottom
}`;

describe('the reference’s examples', () => {
  test('a switch', () => {
    const circuit = soundCircuit(
      `${KILL_SLIDE}\npart kill : kill-slide\nexpect kill "mute" : silent\nexpect kill 1 : hum present`,
    );
    expect(contactsOf(circuit, 'kill')).toEqual(['1: A0 A1', '2: A0 A2']);
    expect(circuit.switches[0]!.positions.map((position) => position.label)).toEqual(['play', 'mute']);
    expect(rowsOf(circuit, 'kill')).toBe('A1 A0 A2');
    expect(circuit.expectations.map(({ settings: [setting] }) => setting)).toMatchObject([{ position: 1 }, { position: 0 }]);
    expect(partOf(circuit, 'kill')).toMatchObject({ family: 'switch', ancestry: ['kill-slide', 'switch'] });
  });

  test('a pickup', () => {
    const circuit = soundCircuit(`${DARK_COIL}\npart p : dark-coil 7.7k { wound reverse, magnet south, tolerance 5% }`);
    const coil = coilOf(circuit, 'p');
    expect([coil.resistance.value, coil.inductance.value, coil.capacitance.value]).toEqual([7700, 4.6, 90e-12]);
    expect([coil.winding, coil.magnet, coil.output, coil.resistance.tolerance]).toEqual([-1, -1, 1, 0.05]);
    expect(partOf(circuit, 'p').lugs).toHaveLength(2);
  });

  test('an assembly, flattened into the circuit', () => {
    const circuit = soundCircuit(`${BLEED}\npart volume : pot\npart b : bleed from volume.3 to volume.2`);
    expect(circuit.parts.map((part) => part.name)).toEqual(['volume', 'b', 'b.c', 'b.r']);
    expect(partOf(circuit, 'b.c')).toMatchObject({ parent: partOf(circuit, 'b').id, inPlace: true });
    expect(jointsOf(circuit)).toEqual([
      'inside b.top b.c.a',
      'inside b.c.b b.bottom',
      'inside b.top b.r.a',
      'inside b.r.b b.bottom',
      'solder volume.3 b.top',
      'solder b.bottom volume.2',
    ]);
    expect(circuit.names.filter((use) => use.name === 'c').map((use) => use.kind)).toEqual(['part']);
  });
});

describe('a type built on another', () => {
  test('has all of it, and takes the place of what it says anew', () => {
    const circuit = soundCircuit(`
/** A pot that is never quite off. */
type leaky : pot {
  takes resistance 500k, end 12R
}
part p : leaky audio
`);
    expect(trackOf(circuit, 'p')).toMatchObject({ resistance: { value: 500e3, tolerance: 0.2 }, end: 12, taper: 'audio' });
    expect(partOf(circuit, 'p').ancestry).toEqual(['leaky', 'pot', 'control']);
    expect(rowsOf(circuit, 'p')).toBe('3 2 1');
  });

  test('replaces single contacts, or all of them with new positions', () => {
    const circuit = soundCircuit(`
type odd : lever-3 {
  at 2 joins A0 A1 A2
}
type short : lever-3 {
  positions up down
  at up joins A0 A1
  at down joins A0 A3
}
part a : odd
part b : short
`);
    expect(contactsOf(circuit, 'a')).toEqual(['1: A0 A1, B0 B1', '2: A0 A1 A2', '3: A0 A3, B0 B3']);
    expect(contactsOf(circuit, 'b')).toEqual(['up: A0 A1', 'down: A0 A3']);
  });

  test('of a jack is a jack', () => {
    const circuit = soundCircuit('type barrel : jack {\n  takes depth 30mm\n}\npart out : barrel');
    expect(circuit.output).toMatchObject({ part: 0 });
    expect(partOf(circuit, 'out').family).toBe('jack');
  });

  test('may bear the name of a standard type; that is told as information', () => {
    expectProblems(`
type pot : pot { takes resistance 1M }
//   ^^^ duplicate-name: pot replaces the standard type of that name
part p : pot
`);
  });
});

describe('parts and wires inside', () => {
  test('parameters are handed on to parts inside, bare or by name', () => {
    const circuit = soundCircuit(`
type tone-block : assembly {
  lugs in ground
  takes size 22nF, track 250k, taper audio|linear
  part pot : pot track taper { turn left }
  part cap : capacitor { capacitance size }
  wire in to pot.2 white
  solder pot.1 to cap.a
  wire cap.b to ground
}
part a : tone-block
part b : tone-block 47nF 500k linear
`);
    expect(elementsOf(circuit, 'a.cap')[0]).toMatchObject({ capacitance: { value: 22e-9 } });
    expect(elementsOf(circuit, 'b.cap')[0]).toMatchObject({ capacitance: { value: 47e-9 } });
    expect(trackOf(circuit, 'a.pot')).toMatchObject({ resistance: { value: 250e3, tolerance: 0.2 }, taper: 'audio', empty: 10 });
    expect(trackOf(circuit, 'b.pot')).toMatchObject({ resistance: { value: 500e3 }, taper: 'linear' });
    expect(circuit.joints.find((joint) => joint.colour === 'white')).toMatchObject({ kind: 'inside' });
  });

  test('assemblies stand in assemblies, and a wire outside reaches a part inside', () => {
    const circuit = soundCircuit(`${BLEED}
type pair : assembly {
  lugs in out
  part first, second : bleed from in to out
}
part p : pair
part s : star
wire p.first.top to s
`);
    expect(circuit.parts.map((part) => part.name)).toEqual([
      'p',
      'p.first',
      'p.first.c',
      'p.first.r',
      'p.second',
      'p.second.c',
      'p.second.r',
      's',
    ]);
    expect(jointsOf(circuit).at(-1)).toBe('wire p.first.top s');
  });

  test('a switch of one’s own may hold a capacitor', () => {
    const circuit = soundCircuit(`
type cap-switch : switch {
  lugs in out frame
  metal frame
  positions "full" "thin"
  at "full" joins in out
  part c : capacitor 2.2nF from in to out
}
part s : cap-switch
`);
    expect(contactsOf(circuit, 's')).toEqual(['1: in out', '2: -']);
    expect(jointsOf(circuit)).toEqual(['inside s.in s.c.a', 'inside s.c.b s.out']);
  });
});

describe('what can’t be built', () => {
  test('types that are made of themselves', () => {
    expectProblems(`
type a : b { lugs x }
type b : a { lugs y }
//       ^ type: b contains itself through a
type c : assembly {
  lugs x
  part inner : d
}
type d : assembly {
  lugs x
  part inner : c
//             ^ type: d contains itself through c
}
part p : a
part q : c
`);
  });

  test('parts nested too deep, or far too many', () => {
    const nested = Array.from({ length: 17 }, (_, i) => `type t${i + 1} : assembly {\n  lugs x\n  part p : t${i}\n}`).join('\n');
    const deep = `type t0 : assembly { lugs x }\n${nested}\npart q : t17`;
    expect(problemMessages(deep)).toEqual(['parts are nested more than 16 levels deep here']);
    const wide = Array.from(
      { length: 8 },
      (_, i) => `type t${i + 1} : assembly {\n  lugs x\n  part a, b, c, d, e, f : t${i}\n}`,
    ).join('\n');
    const many = problemMessages(`type t0 : assembly { lugs x }\n${wide}\npart q : t8`);
    expect(many[0]).toBe('one t5 would consist of more than 5000 parts');
  });

  test('more parts than any instrument has', () => {
    const names = Array.from({ length: 5003 }, (_, i) => `part p${i} : star`).join('\n');
    expect(problemMessages(names)[0]).toBe('there are more than 5000 parts or 100000 lugs; this part is ignored');
  });

  test('a long row of types built on one another', () => {
    const row = Array.from({ length: 500 }, (_, i) => `type t${i} : t${i + 1} { lugs x }`).join('\n');
    const problems = problemMessages(`${row}\ntype t500 : assembly { lugs x }\npart q : t0`);
    expect(problems[0]).toMatch(/^types are based on each other too deep here/);
  });
});

function problemMessages(text: string): string[] {
  return circuitOf(text).problems.map((problem) => problem.message);
}
