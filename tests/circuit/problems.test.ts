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
//   ^^^^^^ unknown-name: say which lug of volume, such as volume.1: it has 1 2 3 case
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
//       ^^^^^^^ unknown-name: passive is what a type may be built on, not a type of part: name a type, such as resistor or pot
part volume : pot
wire selector.A9 to volume.3
wire x to volume.2
expect selector 2, volume 3 : sounds x.north
`);
  });

  test('coils, pickups, positions, shafts, properties', () => {
    expectProblems(`
part neck : humbucker { wond reverse }
//                      ^^^^ property: humbucker has no property wond; it takes resistance, inductance, capacitance, wound, magnet, tolerance, output, loss, coupling, insulated, body, spacing, plug and lead; did you mean wound?
part selector : toggle-3 { positions "a" "b" "c" }
part stack : pot-concentric
expect selector "d" : sounds neck.nort
//              ^^^ unknown-name: selector has no position "d"; it has "a" "b" "c"
//                                ^^^^ unknown-name: neck has no coil nort; it has north south; did you mean north?
expect stack.c 3 : sounds selector
//           ^ unknown-name: stack has the shafts a b, none called c
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
wire g to control
//        ^^^^^^^ unknown-name: control is a cavity without a shield: nothing can be soldered to it
wire g to top
//        ^^^ unknown-name: top is a plate without metal: nothing can be soldered to it
`);
  });
});

test('the nearest name is a fix that writes it', () => {
  const [problem] = circuitOf('part volume : pot\npart g : star\nwire volum.3 to g').problems;
  expect(problem!.fixes).toEqual([{ title: 'write volume', edits: [{ range: problem!.range, text: 'volume' }] }]);
});

describe('names that stand twice', () => {
  test('parts, cavities, plates and types; the first one counts', () => {
    const text = `
part a, a : pot
//      ^ duplicate-name: there is a part a already
part b : star
part b : resistor 1k from a.1 to a.2
//   ^ duplicate-name: there is a part b already
cavity b
//     ^ duplicate-name: there is a part b already, and a cavity can’t share its name
type t : switch { lugs x y }
type t : switch { lugs x y }
//   ^ duplicate-name: there is a type t already
type metal : switch { lugs x y }
//   ^^^^^ duplicate-name: metal is what types are built on; give the type another name
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
//                    ^^^ value: resistor has its resistance already; 12k is one too many
part c : capacitor 22nX
//                 ^^^^ value: \`nX\` in \`22nX\` is no unit; did you mean \`22nF\`?
part d : resistor 0R
//                ^^ value: resistance of d must be more than nothing, a resistance such as 250k
part e : battery 9V ?
//                  ^ value: battery has no value left that ? could stand for
part f : capacitor A22n
//                 ^^^^ property: capacitor takes no word \`A22n\`; it takes film, ceramic, paper and mica
`);
  });

  test('outside what is possible', () => {
    expectProblems(`
part p : pot { rest 11, mid 60%, tolerance 200% }
//                  ^^ value: rest is a rotation from 0 to 10, not 11
//                          ^^^ value: mid is the share of an audio track at half rotation, above 0% and below 50%, not 60%
//                                         ^^^^ value: tolerance lies between 0% and 100%, not at 200%
part s : rotary-3x4 { stop 5 }
//                         ^ value: stop leaves from 2 to 4 positions of s, not 5
instrument "Alder Lane no. 0" { batch 0 }
//                              ^^^^^^^ value: batch is how many are built alike: { batch 2 }
rig { cable 9V }
//          ^^ value: cable takes a capacitance or a length: 500pF, or 3m; 9V is a voltage
cavity control depth 38
//                   ^^ value: 38 has no unit; depth takes a length such as 85mm
`);
  });
});

describe('properties and words', () => {
  test('that a part doesn’t take', () => {
    expectProblems(`
part p : pot 250k audi
//                ^^^^ property: pot takes no word \`audi\`; it takes linear, audio, reverse-audio, right and left; did you mean audio?
part q : pot audio linear
//                 ^^^^^^ property: linear is a second word for what is said already
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
//              ^^^^^^^^^^^^^ property: star has no positions to name
part x : pot { taper audio rest 3 }
//             ^^^^^^^^^^^^^^^^^^ property: taper takes one word: linear, audio or reverse-audio; a comma stands between properties
part y : pot { seen back lugs up }
//             ^^^^^^^^^^^^^^^^^ property: seen is front or back, one word; a comma stands between properties
part v : pot { seen sideways }
//             ^^^^^^^^^^^^^ property: seen is front or back, not \`sideways\`
part w : single-coil { lead het white, lead }
//                          ^^^ unknown-name: single-coil has no lug het for a lead; it has hot ground cover base; did you mean hot?
//                                     ^^^^ property: a lead says which lug it comes from: { lead hot white 300mm }
`);
  });

  test('that a wire doesn’t take', () => {
    expectProblems(`
part p : pot
wire p.1 to p.case blakc
//                 ^^^^^ property: a wire takes a colour, a gauge, a length, bare, twisted or shielded; \`blakc\` is none of them; did you mean black?
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
//                    ^^^^^^^^^^ form: s has not two leads that could stand from … to …: wire its lugs one by one
part w : pot across v.1 and v.2
//                  ^^^^^^^^^^^ form: w has not two leads that could stand across … and …: wire its lugs one by one
`);
  });

  test('a second title, a second rig, a place twice, a reason that says nothing', () => {
    expectProblems(`
instrument "Alder Lane no. 0"
part v : pot
instrument "Alder Lane no. 1"
//< \`instrument "Alder Lane no. 1"\` form: a file is one instrument; this is a second title
rig { cable 3m }
rig { cable 4m }
//< \`rig { cable 4m }\` form: the lead and the amplifier are given already
cavity c
cavity d
place v in c
place v in d
//    ^ form: v is in c already, so it can’t be in d as well
allow some-rule on v ""
//                   ^^ form: say why: allow some-rule "the reason"
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
//       ^^ setting: v turns from 0 to 10, not to 11
expect v up : silent
//       ^^ setting: v turns from 0 to 10; \`up\` is no rotation
expect s 4 : silent
//       ^ setting: s has no position 4; it has 1 to 3
expect g 1 : silent
//     ^ setting: g (star) is neither a switch nor a pot, so it can’t be set
expect stack 4 : silent
//     ^^^^^^^ setting: stack has more than one shaft: say stack.a stack.b
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
//           ^^ duplicate-name: k has a lug A0 already
  metal frme
//      ^^^^ unknown-name: k has no lug frme; it has A0 A1
  rows A1 A5
//        ^^ unknown-name: k has no lug A5; it has A0 A1; did you mean A1?
  positions 1 3
//            ^ type: positions are counted from 1, so this one is 2; write 2, or give it a name
  at 1 joins A0 A1, A1
//                  ^^ form: a contact joins two lugs or more; A1 stands alone
  at 9 joins A0 A1
//   ^ unknown-name: k has no position 9; it has 1 3
  rest 7
//     ^ unknown-name: k has no position 7; it has 1 3
}
type m : pickup {
  lugs hot ground
  takes resistance 8k, mood
  coil main from ground to hot { resistance resistance, inductance inductanse, size 3 }
//                                                                 ^^^^^^^^^^ unknown-name: m takes no inductanse; it takes resistance mood wound magnet tolerance output insulated body spacing plug, and inductance may be an inductance such as 2.4H as well
//                                                                             ^^^^ property: a coil has no property size; it takes resistance, inductance, capacitance, loss, coupling, output, share, wound, magnet and tolerance
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
//     ^^ duplicate-name: a has a part or lug in already
  part s : lever-3 from in to out
//< \`part s : lever-3 from in to out\` form: lever-3 has not two leads, so it can’t stand from … to …
  wire r to out
//     ^ unknown-name: say which lug of r: it has a b
  wire s.A9 to out pnk
//       ^^ unknown-name: s has no lug A9; it has A0 A1 A2 A3 B0 B1 B2 B3 frame; did you mean A3?
//                 ^^^ property: a wire takes a colour, a gauge, a length, bare, twisted or shielded; \`pnk\` is none of them; did you mean pink?
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
