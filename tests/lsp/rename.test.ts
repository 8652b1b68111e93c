/** Renaming through the protocol: everything that is meant changes, nothing else does, and the circuit stays right. */
import type { Range, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor, uriOf, type Editor, type Opened } from './harness.js';

interface Prepared {
  readonly range: Range;
  readonly placeholder: string;
}

function prepare(editor: Editor, document: Opened): Promise<Prepared | null> {
  return editor.ask('textDocument/prepareRename', document.at());
}

function rename(editor: Editor, document: Opened, newName: string): Promise<WorkspaceEdit> {
  return editor.ask('textDocument/rename', { ...document.at(), newName });
}

const ownTypes = `instrument "Alder Lane no. 62"

type slide : switch {
  lugs A0 A1 A2 frame
  rows A1 A0 A2
  positions "play" "mute"
  at "play" joins A0 A1
  at "mute" joins A0 A2
  metal frame
}
type dark : pickup {
  lugs hot ground
  takes resistance 8.1k, inductance 4.6H
  coil main from ground to hot { resistance resistance, inductance inductance, capacitance 90pF }
}
cavity control shield
plate top in control metal { kill }
part neck : dark 8k
part kill : slide
part out  : jack
wire neck.hot to kill.A1
wire kill.A0 to out.tip
wire kill.A2 to kill.frame
wire neck.ground to out.sleeve
wire control to out.sleeve
expect kill "play" : sounds neck.main
expect kill "mute" : silent
`;

describe('what may be renamed', () => {
  test.each<[string, string, string, string, RegExp]>([
    [
      'a part',
      'part ne<|>ck : dark',
      'neck',
      'front',
      /part front : dark 8k[^]*wire front\.hot[^]*wire front\.ground[^]*sounds front\.main/,
    ],
    [
      'a part from a wire',
      'wire ki<|>ll.A0',
      'kill',
      'mute-slide',
      /\{ mute-slide \}[^]*part mute-slide : slide[^]*wire mute-slide\.A2 to mute-slide\.frame[^]*expect mute-slide "mute"/,
    ],
    [
      'a lug of one’s own type',
      'wire kill.A<|>2',
      'A2',
      'rest',
      /lugs A0 A1 rest frame\n {2}rows A1 A0 rest[^]*joins A0 rest[^]*wire kill\.rest/,
    ],
    ['a type', 'part kill : sl<|>ide', 'slide', 'mute-switch', /type mute-switch : switch[^]*part kill : mute-switch/],
    ['a coil', 'sounds neck.ma<|>in', 'main', 'winding', /coil winding from[^]*sounds neck\.winding/],
    [
      'a position of one’s own type',
      'expect kill "pl<|>ay"',
      'play',
      'on air',
      /positions "on air" "mute"\n {2}at "on air" joins[^]*expect kill "on air"/,
    ],
    ['a cavity', 'in con<|>trol metal', 'control', 'rear', /cavity rear shield\nplate top in rear[^]*wire rear to/],
    ['a plate', 'plate to<|>p in', 'top', 'cover', /plate cover in/],
    ['a parameter', 'takes resis<|>tance 8.1k', 'resistance', 'dc', /takes dc 8\.1k[^]*\{ resistance dc,/],
  ])('%s', async (_, mark, placeholder, name, expected) => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', ownTypes.replace(mark.replace('<|>', ''), mark));
    const before = await editor.diagnostics(document.uri);
    expect(before).toEqual([]);
    const prepared = await prepare(editor, document);
    expect(prepared).toMatchObject({ placeholder });
    const { start, end } = prepared!.range;
    expect(document.text.split('\n')[start.line]!.slice(start.character, end.character)).toBe(placeholder);
    await editor.apply(await rename(editor, document, name));
    expect(editor.text(document.uri)).toMatch(expected);
    expect(await editor.diagnostics(document.uri)).toEqual([]);
  });

  test('a position name of one switch, where it is used by number it stays', async () => {
    const editor = await startEditor();
    const document = await editor.open(
      'a.lug',
      twoPickups({ '"bridge" "both" "neck" }': '"bridge" "bo<|>th" "neck" }', 'selector "neck"': 'selector 3' }),
    );
    await editor.apply(await rename(editor, document, 'the "two"'));
    expect(editor.text(document.uri)).toContain('positions "bridge" "the \\"two\\"" "neck"');
    expect(editor.text(document.uri)).toContain('expect selector "the \\"two\\""   :');
    expect(editor.text(document.uri)).toContain('expect selector 3 ');
    expect(await editor.diagnostics(document.uri)).toEqual([]);
  });

  test('across files, from either side', async () => {
    const files = {
      'house.lug': 'type dark : single-coil { takes resistance 8k }\n',
      'b.lug': 'use "house.lug"\npart far : dark\n',
    };
    const editor = await startEditor({ files });
    const document = await editor.open('a.lug', 'use "house.lug"\npart near : da<|>rk\n');
    const edit = await rename(editor, document, 'dim');
    expect(editor.applied(edit)).toEqual({
      [document.uri]: 'use "house.lug"\npart near : dim\n',
      [uriOf('b.lug')]: 'use "house.lug"\npart far : dim\n',
      [uriOf('house.lug')]: 'type dim : single-coil { takes resistance 8k }\n',
    });
  });
});

describe('a name that another file has', () => {
  const house = { 'house.lug': 'type dark : single-coil { takes resistance 8k }\n' };

  test('is free where the two files share nothing', async () => {
    const editor = await startEditor({ files: { 'other.lug': 'part front : single-coil\n' } });
    const document = await editor.open('a.lug', twoPickups({ 'part neck ': 'part ne<|>ck ' }));
    await editor.apply(await rename(editor, document, 'front'));
    expect(editor.text(document.uri)).toMatch(/^part front +: /m);
  });

  test('is free for a part where the two files share a type', async () => {
    const editor = await startEditor({ files: { ...house, 'b.lug': 'use "house.lug"\npart far : dark\n' } });
    const document = await editor.open('a.lug', 'use "house.lug"\npart ne<|>ar : dark\n');
    expect(editor.applied(await rename(editor, document, 'far'))).toEqual({
      [document.uri]: 'use "house.lug"\npart far : dark\n',
    });
  });

  test('is taken for a type where a file that uses it has one of that name', async () => {
    const editor = await startEditor({
      files: { ...house, 'b.lug': 'use "house.lug"\ntype dim : single-coil { takes resistance 7k }\npart far : dim\n' },
    });
    const document = await editor.open('a.lug', 'use "house.lug"\npart near : da<|>rk\n');
    await expect(rename(editor, document, 'dim')).rejects.toThrow('There is already a type dim');
  });
});

describe('what is refused, with the reason', () => {
  test.each<[string, Record<string, string>, string, RegExp]>([
    ['a standard type', { 'selector : lever-3': 'selector : lev<|>er-3' }, 'x', /belongs to a standard part/],
    ['a lug of a standard type', { 'wire neck.hot ': 'wire neck.h<|>ot ' }, 'x', /belongs to a standard part/],
    ['a name that is taken', { 'part neck ': 'part ne<|>ck ' }, 'bridge', /already/],
    ['no name at all', { 'part neck ': 'part ne<|>ck ' }, 'two words', /A name consists of/],
    ['a lug’s name for a part', { 'part neck ': 'part ne<|>ck ' }, '1a', /a letter first/],
  ])('%s', async (_, marks, name, message) => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups(marks));
    await expect(rename(editor, document, name)).rejects.toThrow(message);
    expect(editor.log).toEqual([]);
  });

  test('is told before a name is asked for', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups({ 'selector : lever-3': 'selector : lev<|>er-3' }));
    await expect(prepare(editor, document)).rejects.toThrow(/belongs to a standard part/);
    const nothing = await editor.open('b.lug', 'part <|>// nothing\n');
    expect(await prepare(editor, nothing)).toBeNull();
  });
});
