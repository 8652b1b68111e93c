/** Every problem of a text: its sentence, its place, and that nothing else is said. */
import { describe, expect, test } from 'vitest';
import { PROBLEM_RULES } from '../../language/circuit/index.js';
import { circuitOf, expectProblems, jointsOf, partOf } from './harness.js';

describe('names that are nowhere declared', () => {
  test('parts and lugs, with the nearest', () => {
    expectProblems(`
part selector : lever-3
part volume : pot
part g : star
wire selector.A4 to volum.3
//            ^^ unknown-name: selector has no lug A4; it has A0 A1 A2 A3 B0 B1 B2 B3 frame; did you mean A3?
//                  ^^^^^ unknown-name: there is no part volum; did you mean volume?
wire volume to g.foot
//   ^^^^^^ unknown-name: name a lug of volume, such as volume.1: it has 1 2 3 case
//               ^^^^ unknown-name: g has no lug foot; it has point
wire volume.3.x to g
//   ^^^^^^^^^^ unknown-name: volume has nothing inside called 3
`);
  });

  test('types, but not a second time for the lugs of the part', () => {
    expectProblems(`
part selector : lever-33
//              ^^^^^^^^ unknown-name: there is no type lever-33; did you mean lever-3?
part x : passive
//       ^^^^^^^ unknown-name: passive is a base for types, not a type of part: name a type, such as resistor or pot
part volume : pot
wire selector.A9 to volume.3
wire x to volume.2
expect selector 2, volume 3 : sounds x.north
`);
  });

  test('coils, pickups, positions, shafts, properties', () => {
    expectProblems(`
part neck : humbucker { wond reverse }
//                      ^^^^ property: humbucker has no property wond; it takes resistance, inductance, capacitance, wound, magnet, tolerance, output, loss, eddy-inductance, eddy-resistance, loss-exponent, cover-shading, resonance, resonance-load, coupling, turns, insulated, body, spacing, hole, plug, from-bridge, aperture, role and lead; did you mean wound?
part selector : toggle-3 { positions "a" "b" "c" }
part stack : pot-concentric
expect selector "d" : sounds neck.nort
//              ^^^ unknown-name: selector has no position "d"; it has "a" "b" "c"
//                                ^^^^ unknown-name: neck has no coil nort; it has north south; did you mean north?
expect stack.c 3 : sounds selector
//           ^ unknown-name: stack has the shafts a b, but none called c
//                        ^^^^^^^^ unknown-name: selector (toggle-3) has no coil, so it can’t sound
expect selector side : silent
//              ^^^^ unknown-name: selector has no position side; it has "a" "b" "c"
`);
  });

  test('cavities and plates', () => {
    expectProblems(`
part volume : pot
part g : star
cavity control
plate top in contrl { volume, tone }
//           ^^^^^^ unknown-name: there is no cavity contrl; did you mean control?
//                            ^^^^ unknown-name: there is no part tone
place g in volume
//         ^^^^^^ unknown-name: volume is a part, not a cavity
plate odd in control size 120 0mm
//                            ^^^ value: the size of a plate must be greater than zero, not 0mm
plate flat in control size 120 250k
//                             ^^^^ value: 250k is a resistance; the size of a plate takes a length such as 85mm
part hollow : pot { hole 0mm }
//                       ^^^ value: hole must be greater than zero
wire g to control
//        ^^^^^^^ unknown-name: control is a cavity without a shield: nothing can be soldered to it
wire g to top
//        ^^^ unknown-name: top is a plate without metal: nothing can be soldered to it
`);
  });
});

test('the nearest name is a fix that writes it', () => {
  const [problem] = circuitOf('part volume : pot\npart g : star\nwire volum.3 to g').problems;
  const edits = [{ range: problem!.range, text: 'volume' }];
  expect(problem!.fixes).toEqual([{ title: 'write volume', edits, confidence: 'sure' }]);
});

describe('how sure a spelling is', () => {
  const confidenceOf = (text: string) => circuitOf(text).problems[0]!.fixes[0]!.confidence;

  test.each([
    ['neighbours exchanged', 'part neck : single-coil\nwire nekc.hot to neck.ground'],
    ['a letter too many', 'part neck : single-coil\nwire neck.hott to neck.ground'],
    ['another case', 'part neck : single-coil\nwire Neck.hot to neck.ground'],
  ])('sure with %s', (_, text) => expect(confidenceOf(text)).toBe('sure'));

  test.each([
    ['two names as near', 'part tone-a, tone-b : pot\npart g : star\nwire tone-c.1 to g'],
    ['two letters away', 'part volume : pot\npart g : star\nwire vollumee.1 to g'],
    ['a number beyond the last', 'part s : lever-3\npart g : star\nwire s.A4 to g'],
  ])('only likely with %s', (_, text) => expect(confidenceOf(text)).toBe('likely'));
});

describe('names that stand twice', () => {
  test('parts, cavities, plates and types; the first one counts', () => {
    const text = `
part a, a : pot
//      ^ duplicate-name: there is already a part a
part b : star
part b : resistor 1k from a.1 to a.2
//   ^ duplicate-name: there is already a part b
cavity b
//     ^ duplicate-name: there is already a part b, and a cavity can’t have the same name
type t : switch { lugs x y }
type t : switch { lugs x y }
//   ^ duplicate-name: there is already a type t
type metal : switch { lugs x y }
//   ^^^^^ duplicate-name: metal is a base for types; give the type another name
`;
    expectProblems(text);
    const circuit = circuitOf(text);
    expect(partOf(circuit, 'b').type).toBe('star');
    expect(jointsOf(circuit)).toEqual([]);
    expect(circuit.problems[1]!.related).toMatchObject([{ range: { start: { line: 3, character: 5 } } }]);
  });
});

describe('values', () => {
  test('of the wrong unit, without one, or none at all', () => {
    expectProblems(`
part p : pot 22nF audio
//           ^^^^ value: 22nF is a capacitance; pot takes a resistance such as 250k
part q : single-coil 6 { inductance 3k, output 90 }
//                   ^ value: 6 has no unit; single-coil takes a resistance, an inductance and a capacitance
//                                  ^^ value: 3k is a resistance; inductance takes an inductance such as 2.4H
//                                             ^^ value: 90 has no unit; output takes a percentage such as 10%
part r : resistor 10k 12k
//                    ^^^ value: resistor already has its resistance; 12k is one too many
part c : capacitor 22nX
//                 ^^^^ value: \`nX\` in \`22nX\` is not a unit; did you mean \`22nF\`?
part d : resistor 0R
//                ^^ value: resistance of d must be greater than zero: a resistance such as 250k
part e : battery 9V ?
//                  ^ value: ? is one value too many: battery already has all its values
part f : capacitor A22n
//                 ^^^^ property: capacitor does not take the word \`A22n\`; it takes film, ceramic, paper, mica, polyester, polypropylene, bleed, tone-cap, blocking, load and filter
`);
  });

  test('outside what is possible', () => {
    expectProblems(`
part p : pot { rest 11, mid 60%, tolerance 200% }
//                  ^^ value: rest must be a rotation from 0 to 10, not 11
//                          ^^^ value: mid must be above 0% and below 50%, not 60%: it is the share of an audio track at half rotation
//                                         ^^^^ value: tolerance must be between 0% and 100%, not 200%
part s : rotary-3x4 { stop 5 }
//                         ^ value: stop must leave from 2 to 4 positions of s, not 5
instrument "Alder Lane no. 0" { batch 0 }
//                              ^^^^^^^ value: batch takes the number of identical instruments: { batch 2 }
rig { cable 9V }
//          ^^ value: 9V is a voltage; cable takes a capacitance or a length, such as 500pF or 3m
cavity control depth 38
//                   ^^ value: 38 has no unit; depth takes a length such as 85mm
`);
  });
});

describe('properties and words', () => {
  test('that a part doesn’t take', () => {
    expectProblems(`
part p : pot 250k audi
//                ^^^^ property: pot does not take the word \`audi\`; it takes linear, audio, reverse-audio, right, left, volume, tone, blend, filter, load and preset; did you mean audio?
part q : pot audio linear
//                 ^^^^^^ property: linear repeats something already given
part r : pot { taper quick, turn, rest 3, rest 4 }
//                   ^^^^^ property: taper is linear, audio or reverse-audio, not \`quick\`
//                          ^^^^ property: turn takes one word: right or left
//                                        ^^^^ property: rest is given twice
part out : jack boxed
//              ^^^^^ property: boxed stands in braces: { boxed }
part s : toggle-3 { positions "a" "b", seen back }
//                            ^^^^^^^ property: s has 3 positions, and 2 are named
//                                     ^^^^^^^^^ property: seen is for a pot’s left, middle and right; toggle-3 has no such lugs
part u : star { positions "a" }
//              ^^^^^^^^^^^^^ property: star has no positions, so there is nothing to name
part x : pot { taper audio rest 3 }
//             ^^^^^^^^^^^^^^^^^^ property: taper takes one word: linear, audio or reverse-audio; put a comma between properties
part y : pot { seen back lugs up }
//             ^^^^^^^^^^^^^^^^^ property: seen is front or back, one word; put a comma between properties
part v : pot { seen sideways }
//             ^^^^^^^^^^^^^ property: seen is front or back, not \`sideways\`
part w : single-coil { lead het white, lead }
//                          ^^^ unknown-name: single-coil has no lug het for a lead; it has hot ground cover base; did you mean hot?
//                                     ^^^^ property: a lead needs the lug it comes from: { lead hot white 300mm }
`);
  });

  test('that a wire doesn’t take', () => {
    expectProblems(`
part p : pot
wire p.1 to p.case blakc
//                 ^^^^^ property: \`blakc\` does not fit here; a wire takes a colour, a gauge, a length, bare, twisted, shielded, solid, stranded, cloth or braided; did you mean black?
wire p.1 to p.case red 5k blue
//                     ^^ value: 5k is a resistance; a wire takes a gauge such as 22awg and a length such as 85mm
//                        ^^^^ property: this wire already has a colour; blue is a second one
`);
  });
});

describe('forms', () => {
  test('two leads on a part that has not two', () => {
    expectProblems(`
part v : pot
part s : lever-3 from v.1 to v.2
//                    ^^^^^^^^^^ form: s does not have two leads, so it can’t be placed from … to …: wire its lugs one by one
part w : pot across v.1 and v.2
//                  ^^^^^^^^^^^ form: w does not have two leads, so it can’t be placed across … and …: wire its lugs one by one
`);
  });

  test('a second title, a second rig, a place twice, a reason that says nothing', () => {
    expectProblems(`
instrument "Alder Lane no. 0"
part v : pot
instrument "Alder Lane no. 1"
//< \`instrument "Alder Lane no. 1"\` form: this is a second title; a file describes one instrument
rig { cable 3m }
rig { cable 4m }
//< \`rig { cable 4m }\` form: there is already a rig; a circuit has one
cavity c
cavity d
place v in c
place v in d
//    ^ form: v is already in c, so it can’t be in d as well
allow some-rule on v ""
//                   ^^ form: allow needs a reason: allow some-rule "the reason"
`);
  });
});

test('settings that can’t be', () => {
  expectProblems(`
part v : pot
part s : lever-3
part g : star
part stack : pot-concentric
expect v 11 : silent
//       ^^ setting: 11 is out of range; v turns from 0 to 10
expect v up : silent
//       ^^ setting: \`up\` is not a rotation; v turns from 0 to 10
expect s 4 : silent
//       ^ setting: s has no position 4; it has 1 to 3
expect g 1 : silent
//     ^ setting: g (star) is neither a switch nor a pot, so it can’t be set
expect stack 4 : silent
//     ^^^^^^^ setting: stack has more than one shaft: write stack.a stack.b
expect s 1, s 2 : silent
//          ^^^ setting: s is set twice here
expect s 1 : reads 6.05, peak 3k
//                 ^^^^ value: 6.05 has no unit; reads takes a resistance such as 250k
//                            ^^ value: 3k is a resistance; peak takes a frequency such as 3.2kHz
`);
});

test('a type whose base isn’t known, or that has no lugs yet, is in error on its first line alone', () => {
  expectProblems(`
type soft : lever-33 {
//          ^^^^^^^^ unknown-name: there is no type lever-33; did you mean lever-3?
  at 2 joins A0 A9
}
type softer : soft { lugs extra }
type unwritten : switch { positions 1 2 }
//   ^^^^^^^^^ type: unwritten has no lugs yet: lugs A B
part a : soft
part b : softer
part c : unwritten
wire a.A0 to b.extra to b.B7 to c.up
`);
});

test('statements that don’t fit in a type', () => {
  expectProblems(`
type k : switch {
  lugs A0 A1 A0
//           ^^ duplicate-name: k already has a lug A0
  metal frme
//      ^^^^ unknown-name: k has no lug frme; it has A0 A1
  rows A1 A5
//        ^^ unknown-name: k has no lug A5; it has A0 A1; did you mean A1?
  positions 1 3
//            ^ type: positions are numbered from 1, so this one is 2; write 2, or give it a name
  at 1 joins A0 A1, A1
//                  ^^ form: A1 is alone; a contact joins two or more lugs
  at 9 joins A0 A1
//   ^ unknown-name: k has no position 9; it has 1 3
  rest 7
//     ^ unknown-name: k has no position 7; it has 1 3
}
type m : pickup {
  lugs hot ground
  takes resistance 8k, mood
  coil main from ground to hot { resistance resistance, inductance inductanse, size 3 }
//                                                                 ^^^^^^^^^^ unknown-name: m does not take inductanse; it takes resistance mood wound magnet tolerance output insulated body spacing hole plug from-bridge aperture role, and inductance may also be an inductance such as 2.4H
//                                                                             ^^^^ property: a coil has no property size; it takes resistance, inductance, capacitance, loss, eddy-inductance, eddy-resistance, loss-exponent, cover-shading, resonance, resonance-load, coupling, turns, output, share, wound, magnet and tolerance
  coil other from ground to hto { resistance 8k }
//< \`coil other from ground to hto { resistance 8k }\` type: a coil needs its inductance: { inductance 2.6H }
//                          ^^^ unknown-name: m has no lug hto; it has hot ground; did you mean hot?
  also screw for nort
//               ^^^^ unknown-name: m has no lug or coil nort
}
type a : assembly {
  lugs in out
  part r : resistor 10k from in to ot
//                                 ^^ unknown-name: a has no lug or part ot; it has in out r s; did you mean out?
  part in : resistor 10k
//     ^^ duplicate-name: a already has a part or lug in
  part s : lever-3 from in to out
//< \`part s : lever-3 from in to out\` form: lever-3 does not have two leads, so it can’t be placed from … to …
  wire r to out
//     ^ unknown-name: name a lug of r: it has a b
  wire s.A9 to out pnk
//       ^^ unknown-name: s has no lug A9; it has A0 A1 A2 A3 B0 B1 B2 B3 frame; did you mean A3?
//                 ^^^ property: \`pnk\` does not fit here; a wire takes a colour, a gauge, a length, bare, twisted, shielded, solid, stranded, cloth or braided; did you mean pink?
}
type t : control {
  lugs 1 2 3
  track from 1 to 3 { resistance 250k }
//< \`track from 1 to 3 { resistance 250k }\` type: a track needs its wiper: track from 1 to 3 wiper 2
  resistor from 1 to 3 wiper 2 { resistance 1k }
//                           ^ type: only a track has a wiper, not a resistor
}
`);
});

test('what is wrong with the syntax is told too, and costs its own line only', () => {
  const circuit = circuitOf('part volume : pot\npart g : star\nwire volume.1\nwire volume.case to g');
  expect(circuit.problems.map((problem) => problem.rule)).toEqual(['syntax']);
  expect(jointsOf(circuit)).toEqual(['wire volume.case g']);
});

test('every rule of problems says in one line what it is about', () => {
  for (const summary of Object.values(PROBLEM_RULES)) expect(summary).toMatch(/^[A-Z][^\n]+\.$/);
});
