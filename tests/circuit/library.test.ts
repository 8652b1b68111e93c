/** The standard library: whole, sound, documented, and the same in its files and in the module that carries it. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { libraryProblems, libraryTrees, lower, standardTypeInfos } from '../../language/circuit/index.js';
import { parseText } from '../../language/grammar/index.js';
import { libraryText, libraryUris } from '../../language/parts/index.js';
import { rowsOf, soundCircuit } from './harness.js';

/** The table of the language's reference, lugs first, optional ones behind the bar, metal ones in brackets. */
const LUGS: Readonly<Record<string, string>> = {
  'single-coil': 'hot ground | cover base [cover base]',
  humbucker: 'hot ground | cover base [cover base]',
  'humbucker-4': 'north-start north-finish south-start south-finish shield | cover base [shield cover base]',
  'single-coil-tapped': 'hot tap ground | cover base [cover base]',
  pot: '1 2 3 case [case]',
  'pot-no-load': '1 2 3 case [case]',
  'pot-push-pull': '1 2 3 case A0 A1 A2 B0 B1 B2 [case]',
  'pot-push-push': '1 2 3 case A0 A1 A2 B0 B1 B2 [case]',
  trimmer: '1 2 3',
  'pot-dual': '1a 2a 3a 1b 2b 3b case [case]',
  'pot-concentric': '1a 2a 3a 1b 2b 3b case [case]',
  'pot-blend': '1a 2a 3a 1b 2b 3b case [case]',
  'lever-3': 'A0 A1 A2 A3 B0 B1 B2 B3 frame [frame]',
  'lever-4': 'A0 A1 A2 A3 A4 B0 B1 B2 B3 B4 frame [frame]',
  'lever-5': 'A0 A1 A2 A3 B0 B1 B2 B3 frame [frame]',
  'lever-6': 'A0 A1 A2 A3 A4 A5 A6 B0 B1 B2 B3 B4 B5 B6 frame [frame]',
  'lever-5x4': `${'ABCD'.replace(/./g, (pole) => `${pole}0 ${pole}1 ${pole}2 ${pole}3 ${pole}4 ${pole}5 `)}frame [frame]`,
  'toggle-3': 'A B out frame [frame]',
  'toggle-3-open': 'A outA outB B frame [frame]',
  'slide-dpdt': 'A0 A1 A2 B0 B1 B2 frame [frame]',
  'mini-dpdt': 'A0 A1 A2 B0 B1 B2 frame [frame]',
  'mini-dpdt-on': 'A0 A1 A2 B0 B1 B2 frame [frame]',
  'mini-dpdt-on-mirror': 'A0 A1 A2 B0 B1 B2 frame [frame]',
  'mini-dpdt-off': 'A0 A1 A2 B0 B1 B2 frame [frame]',
  spst: 'A0 A1 frame [frame]',
  'mini-spdt': 'A0 A1 A2 frame [frame]',
  'mini-spdt-off': 'A0 A1 A2 frame [frame]',
  'push-on': 'A0 A1 frame [frame]',
  'push-off': 'A0 A1 frame [frame]',
  'rotary-1x12': 'A0 A1 A2 A3 A4 A5 A6 A7 A8 A9 A10 A11 A12 frame [frame]',
  'rotary-2x6': 'A0 A1 A2 A3 A4 A5 A6 B0 B1 B2 B3 B4 B5 B6 frame [frame]',
  'rotary-3x4': 'A0 A1 A2 A3 A4 B0 B1 B2 B3 B4 C0 C1 C2 C3 C4 frame [frame]',
  'rotary-4x3': 'A0 A1 A2 A3 B0 B1 B2 B3 C0 C1 C2 C3 D0 D1 D2 D3 frame [frame]',
  jack: 'tip sleeve [sleeve]',
  'jack-stereo': 'tip sleeve ring [sleeve]',
  'jack-switched': 'tip sleeve tip-switch [sleeve]',
  resistor: 'a b',
  capacitor: 'a b',
  inductor: 'a b',
  electrolytic: 'plus minus',
  battery: 'plus minus',
  buffer: 'in out plus minus',
  'op-amp': 'noninverting inverting out plus minus',
  jfet: 'g d s',
  transistor: 'b c e',
  diode: 'anode cathode',
  led: 'anode cathode',
  zener: 'anode cathode',
  transformer: 'p1 p2 s1 s2',
  relay: 'coil-a coil-b A0 A1 A2 B0 B1 B2',
  optocoupler: 'anode cathode a b',
  piezo: 'hot ground | cover base [cover base]',
  'bridge-ground': 'strings [strings]',
  star: 'point [point]',
  junction: 'point',
  'tag-strip': '',
  'connector-2': '1a 1b 2a 2b',
  'connector-3': '1a 1b 2a 2b 3a 3b',
  'connector-4': '1a 1b 2a 2b 3a 3b 4a 4b',
  'connector-5': '1a 1b 2a 2b 3a 3b 4a 4b 5a 5b',
  'connector-6': '1a 1b 2a 2b 3a 3b 4a 4b 5a 5b 6a 6b',
  'connector-7': '1a 1b 2a 2b 3a 3b 4a 4b 5a 5b 6a 6b 7a 7b',
  'connector-8': '1a 1b 2a 2b 3a 3b 4a 4b 5a 5b 6a 6b 7a 7b 8a 8b',
};

describe('the standard types', () => {
  const infos = standardTypeInfos();

  test('are those of the language’s table, no more and no less', () => {
    expect(infos.map((info) => info.name).sort()).toEqual(Object.keys(LUGS).sort());
  });

  test.each(infos.map((info) => [info.name, info] as const))(
    '%s has its lugs, a doc comment and a place in the library',
    (name, info) => {
      const optional = info.optional.length === 0 ? '' : `| ${info.optional.join(' ')}`;
      const metal = info.metal.length === 0 ? '' : `[${info.metal.join(' ')}]`;
      expect([info.lugs.join(' '), optional, metal].filter((words) => words !== '').join(' ')).toBe(LUGS[name]);
      expect(info.doc).toMatch(/^[A-Z].*\./s);
      expect(info.standard).toBe(true);
      const line = libraryText(info.nameRange.uri)!.split('\n')[info.nameRange.start.line]!;
      expect(line.slice(info.nameRange.start.character, info.nameRange.end.character)).toBe(name);
    },
  );

  test.each(infos.map((info) => [info.name, info] as const))('%s lays out every lug but its metal, in rows', (name, info) => {
    if (info.numbered !== undefined) return;
    const rows = rowsOf(soundCircuit(`part x : ${name}`), 'x').split(/[ /]+/);
    const inRows = info.lugs.filter((lug) => rows.includes(lug));
    const metal = ['case', 'frame'];
    expect(inRows).toEqual(info.lugs.filter((lug) => !metal.includes(lug)));
  });
});

test('nothing is wrong with the library', () => {
  expect(libraryTrees().flatMap((tree) => tree.problems)).toEqual([]);
  expect(libraryProblems()).toEqual([]);
});

test('a library file opened by itself has nothing wrong with it either', () => {
  for (const uri of libraryUris) expect(lower(parseText(uri, libraryText(uri)!)).problems).toEqual([]);
});

test('the module carries the text of the files', () => {
  for (const uri of libraryUris) {
    const file = new URL(uri.replace('lugwork:/parts/', '../../language/parts/'), import.meta.url);
    expect(libraryText(uri)).toBe(readFileSync(file, 'utf8'));
  }
});

test('a tag strip has the lugs that are named, in one row with its gaps', () => {
  const circuit = soundCircuit(`
part strip : tag-strip
part a : star
wire strip.4 to a
wire strip.1 to a
`);
  expect(rowsOf(circuit, 'strip')).toBe('1 - - 4');
});
