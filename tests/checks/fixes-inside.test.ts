/** Fixes of what is inside an assembly: an edit of its type's text, where that text makes one part and is in the same file. */
import { expect, test } from 'vitest';
import { findings } from '../../language/findings.js';
import { createProject } from '../../language/project.js';
import { applied, circuitOf, findingsOf } from './harness.js';

const type = `type box : assembly {
  lugs in out ground
  part vol : pot 250k audio
  wire in to vol.3
  wire vol.2 to out
  wire vol.1 to vol.case to ground
}
`;
const around = (name: string, pickup: string): string => `part ${name} : box
part ${pickup} : single-coil 6.8k 2.8H 115pF
wire ${pickup}.hot to ${name}.in
wire ${pickup}.ground to ${name}.ground to output.sleeve
`;
const instrument = `instrument "Alder Lane no. 80"
part saddle : bridge-ground
part output : jack
wire saddle to output.sleeve
`;
const one = `${instrument}${around('control', 'bridge')}wire control.out to output.tip\n`;
const turned = type.replace('in to vol.3', 'in to vol.1').replace('wire vol.1 to vol.case', 'wire vol.3 to vol.case');

test('a pot that works backwards is turned round', () => {
  expect(findingsOf(type + one).map(({ message }) => message)).toEqual([]);
  const [found] = findingsOf(turned + one).filter(({ rule }) => rule === 'backwards-control');
  const [fix] = found!.fixes.filter(({ title }) => title === 'exchange control.vol.1 and control.vol.3');
  expect(applied(turned + one, fix!.edits)).toBe(type + one);
});

test('a chain names a lug once', () => {
  const chained = turned.replace(
    'wire vol.2 to out\n  wire vol.3 to vol.case to ground',
    'wire vol.2 to out\n  wire vol.case to vol.3 to ground',
  );
  const [found] = findingsOf(chained + one).filter(({ rule }) => rule === 'backwards-control');
  expect(applied(chained + one, found!.fixes.at(-1)!.edits)).toBe(
    type.replace('wire vol.1 to vol.case to ground', 'wire vol.case to vol.1 to ground') + one,
  );
});

test('a pickup whose leads are exchanged gets them exchanged back', () => {
  const two = (leads: string): string => `type pair : assembly {
  lugs hot ground
  part neck : single-coil 6.2k 2.4H 110pF
  wire neck.${leads.split(' ')[0]!} to hot
  wire neck.${leads.split(' ')[1]!} to ground
}
${instrument}part front : pair
part bridge : single-coil 6.8k 2.8H 115pF
wire bridge.hot to front.hot to output.tip
wire bridge.ground to front.ground to output.sleeve
`;
  expect(findingsOf(two('hot ground')).filter(({ rule }) => rule === 'out-of-phase')).toEqual([]);
  const [found] = findingsOf(two('ground hot')).filter(({ rule }) => rule === 'out-of-phase');
  const fix = found!.fixes.find(({ title }) => title === 'exchange the leads of front.neck');
  expect(applied(two('ground hot'), fix!.edits)).toBe(two('hot ground'));
});

test('nothing is offered for a type that two parts are of', () => {
  // One volume behind the other, neither of them at its end.
  const text = `${turned.replace('250k audio', '250k audio { rest 5 }')}${instrument}${around('one', 'bridge')}part two : box
wire one.out to two.in
wire two.out to output.tip
wire two.ground to output.sleeve
`;
  const found = findingsOf(text).filter(({ rule }) => rule === 'backwards-control');
  expect(found).toHaveLength(2);
  for (const { fixes } of found) expect(fixes.filter(({ title }) => title.startsWith('exchange'))).toEqual([]);
});

test('nothing is offered for the text of another file', () => {
  const texts: Readonly<Record<string, string>> = { 'test:/circuit.lug': `use "box.lug"\n${one}`, 'test:/box.lug': turned };
  const circuit = createProject({ read: (uri) => texts[uri] }).circuit('test:/circuit.lug')!;
  const found = findings(circuit).filter(({ rule }) => rule === 'backwards-control');
  expect(found).toHaveLength(1);
  expect(found[0]!.fixes.filter(({ title }) => title.startsWith('exchange'))).toEqual([]);
});

test('the green-and-yellow lead of a pickup inside is one', () => {
  const text = `type pair : assembly {
  lugs hot ground
  part neck : single-coil 6.2k 2.4H 110pF { lead hot green-yellow 200mm }
  wire neck.hot to hot
  wire neck.ground to ground
}
${instrument}part front : pair
wire front.hot to output.tip
wire front.ground to output.sleeve
`;
  const rules = (of: string): readonly string[] => findingsOf(of).map(({ rule, subjects }) => `${rule} ${subjects[0]}`);
  expect(rules(text)).toEqual(['earth-colour front.neck.hot']);
  expect(rules(text.replace('green-yellow', 'white'))).toEqual([]);
  expect(circuitOf(text).joints.filter(({ colour }) => colour === 'green-yellow')).toHaveLength(1);
});
