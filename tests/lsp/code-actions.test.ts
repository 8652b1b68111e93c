/** What can be made of the statements at the cursor, through the protocol; what is made is right and does what was there before. */
import type { CodeAction, Range } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import type { ExpectationOutcome, PositionTable } from '../../server/protocol.js';
import { filesUnder, read } from '../harness/checkout.js';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor, type Opened } from './harness.js';

function actionsAt(editor: Editor, { uri }: Pick<Opened, 'uri'>, range: Range): Promise<CodeAction[]> {
  return editor.ask('textDocument/codeAction', {
    textDocument: { uri },
    range,
    context: { diagnostics: [], only: ['refactor'] },
  });
}

function cursor({ places }: Opened): Range {
  return { start: places[0]!, end: places[0]! };
}

async function positionsOf(editor: Editor, uri: string): Promise<PositionTable['rows']> {
  return (await editor.ask<PositionTable>('lugwork/positions', { uri })).rows;
}

/** Rows without the names of settings. */
function heard(rows: PositionTable['rows']) {
  return rows.map(({ sounds, hum, reads, peak }) => ({ sounds, hum, reads, peak }));
}

const unnamed = {
  'selector : lever-3 { positions "bridge" "both" "neck" }': 'selec<|>tor : lever-3',
  'expect selector "bridge" ': 'expect selector 1 ',
  'selector "both"': 'selector 2',
  'selector "neck"': 'selector 3',
};

describe('names for positions', () => {
  test('are what sounds there', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups(unnamed));
    const action = (await actionsAt(editor, document, cursor(document))).find(({ title }) => title.startsWith('name '))!;
    expect(action).toMatchObject({ title: 'name the positions of selector', kind: 'refactor.rewrite' });
    await editor.apply(action.edit!);
    expect(editor.text(document.uri)).toContain('part selector : lever-3 { positions "bridge" "parallel(bridge, neck)" "neck" }');
    expect(await editor.diagnostics(document.uri)).toEqual([]);
    // Once named they are not offered again.
    expect((await actionsAt(editor, document, cursor(document))).filter(({ title }) => title.startsWith('name '))).toEqual([]);
  });

  test('are what sounds at the jack where the switch acts', async () => {
    const editor = await startEditor();
    const document = await editor.open(
      'a.lug',
      `instrument "Alder Lane no. 65"

part bridge, neck, middle : single-coil
<|>part selector : mini-spdt { insulated }
part first, second : jack
wire middle.hot to first.tip
wire bridge.hot to selector.A1
wire neck.hot to selector.A2
wire selector.A0 to second.tip
wire bridge.ground to neck.ground to middle.ground to first.sleeve to second.sleeve
`,
    );
    const action = (await actionsAt(editor, document, cursor(document))).find(({ title }) => title.startsWith('name '))!;
    await editor.apply(action.edit!);
    expect(editor.text(document.uri)).toContain('part selector : mini-spdt { positions "bridge" "neck", insulated }');
  });

  test.each([
    [
      'beside other properties',
      'part kill : mini-spdt { insulated }',
      'part kill : mini-spdt { positions "a" "off", insulated }',
    ],
    ['in empty braces', 'part kill : mini-spdt { }', 'part kill : mini-spdt { positions "a" "off" }'],
    [
      'over several lines',
      'part kill : mini-spdt {\n  insulated\n}',
      'part kill : mini-spdt { positions "a" "off",\n  insulated\n}',
    ],
  ])('stand %s', async (_, before, after) => {
    const editor = await startEditor();
    const rest =
      '\npart a : single-coil\npart out : jack\nwire a.hot to kill.A1\nwire kill.A0 to out.tip\nwire a.ground to out.sleeve\n';
    const document = await editor.open('a.lug', `<|>${before}${rest}`);
    const action = (await actionsAt(editor, document, cursor(document))).find(({ title }) => title.startsWith('name '))!;
    await editor.apply(action.edit!);
    expect(editor.text(document.uri)).toBe(after + rest);
  });
});

describe('expectations from what is so', () => {
  test('are written for the settings of which none speaks yet', async () => {
    const editor = await startEditor();
    const document = await editor.open(
      'a.lug',
      twoPickups({
        'instrument "Alder': 'instru<|>ment "Alder',
        'expect selector "both"   : sounds parallel(neck, bridge), hum cancelled\n': '',
      }),
    );
    const action = (await actionsAt(editor, document, cursor(document))).find(({ title }) => title.includes('expectation'))!;
    expect(action).toMatchObject({ title: 'write the current behaviour as expectations', kind: 'refactor.rewrite' });
    await editor.apply(action.edit!);
    const written = editor.text(document.uri);
    // 6.9 kΩ, 6.2 kΩ and the pot of 250 kΩ, all in parallel: 3.22 kΩ.
    expect(written).toMatch(
      /^expect selector "both" +: sounds parallel\(bridge, neck\), hum cancelled, reads 3\.2\dk within 5%/m,
    );
    expect(written.match(/^expect selector "both"/gm)).toHaveLength(1);
    expect(await editor.diagnostics(document.uri)).toEqual([]);
    expect((await actionsAt(editor, document, cursor(document))).filter(({ title }) => title.includes('expectation'))).toEqual(
      [],
    );
  });

  test('are merged with the lines that are there, in several edits', async () => {
    const editor = await startEditor();
    const own = 'expect selector "bridge" : sounds bridge, hum present, reads 6k within 30%';
    const stale = 'expect selector "neck"   : sounds neck, hum present, reads 9k within 5%';
    const document = await editor.open(
      'a.lug',
      twoPickups({
        'instrument "Alder': 'instru<|>ment "Alder',
        'expect selector "bridge" : sounds bridge, hum present': own,
        'expect selector "both"   : sounds parallel(neck, bridge), hum cancelled\n': '',
        'expect selector "neck"   : sounds neck, reads 6.05k within 15%': stale,
      }),
    );
    const action = (await actionsAt(editor, document, cursor(document))).find(({ title }) => title.includes('expectation'))!;
    expect(action.edit!.changes![document.uri]!.length).toBeGreaterThan(1);
    await editor.apply(action.edit!);
    const lines = editor.text(document.uri).split('\n');
    const of = (position: string): string[] => lines.filter((line) => line.startsWith(`expect selector "${position}"`));
    expect(of('bridge')).toEqual([own]);
    expect(of('both')).toHaveLength(1);
    // 6.2 kΩ in parallel with the pot of 250 kΩ: 6.05 kΩ. The line was written by the same means, so it is replaced where it was.
    expect(of('neck')).toEqual([
      expect.stringMatching(/^expect selector "neck" {3}: sounds neck, hum present, reads 6\.05k within 5%/),
    ]);
    expect(lines.indexOf(of('neck')[0]!)).toBe(lines.indexOf(own) + 1);
    expect(await editor.diagnostics(document.uri)).toEqual([]);
  });

  const files = Object.fromEntries(
    filesUnder('examples')
      .filter((path) => /^examples\/[^/]*\.lug$/.test(path))
      .map((path) => [path, read(path)]),
  );
  const instruments = Object.keys(files).filter((path) => /^instrument/m.test(files[path]!));
  test.each(instruments)('of %s all hold', async (path) => {
    const editor = await startEditor({ files });
    const text = files[path]!.replace(/^expect .*(\n +.*)*\n/gm, '').replace(/^instrument/m, '<|>instrument');
    const document = await editor.open(path, text);
    const action = (await actionsAt(editor, document, cursor(document))).find(({ title }) => title.includes('expectation'))!;
    await editor.apply(action.edit!);
    const outcomes = await editor.ask<ExpectationOutcome[]>('lugwork/checkExpectations', { uri: document.uri });
    expect(outcomes.length).toBeGreaterThan(0);
    expect(outcomes.filter(({ held }) => !held)).toEqual([]);
    // Each output has its lines now, so nothing is left to write.
    expect((await actionsAt(editor, document, cursor(document))).filter(({ title }) => title.includes('expectation'))).toEqual(
      [],
    );
  });
});

const bleeds = `instrument "Alder Lane no. 64"

part neck, bridge : single-coil
part v1, v2 : pot 250k audio
<|part c1 : capacitor 680pF from v1.3 to v1.2
part r1 : resistor 150k from v1.3 to v1.2
|>part out : jack

part c2 : capacitor 680pF from v2.3 to v2.2 // the other one
part r2 : resistor 150k from v2.3 to v2.2
part c3      : capacitor 470pF from v2.3 to v2.1

wire neck.hot to v1.3
wire bridge.hot to v2.3
wire v1.2 to v2.2 to out.tip
wire neck.ground to bridge.ground to v1.1 to v2.1 to out.sleeve
`;

describe('a type of selected statements', () => {
  async function extract(source: string): Promise<{ text: string; title: string } | undefined> {
    const editor = await startEditor();
    const document = await editor.open('a.lug', source);
    const before = await positionsOf(editor, document.uri);
    const problems = (found: readonly { code?: unknown }[]) =>
      found.filter(({ code }) => ['syntax', 'unknown-name', 'value', 'form', 'type', 'duplicate-name'].includes(String(code)));
    const action = (await actionsAt(editor, document, document.ranges[0]!)).find(({ kind }) => kind === 'refactor.extract');
    if (action === undefined) return undefined;
    await editor.apply(action.edit!);
    expect(problems(await editor.diagnostics(document.uri))).toEqual([]);
    expect(heard(await positionsOf(editor, document.uri))).toEqual(heard(before));
    expect(editor.log).toEqual([]);
    return { text: editor.text(document.uri), title: action.title };
  }

  test('is used wherever the same statements stand', async () => {
    const { text, title } = (await extract(bleeds))!;
    expect(title).toBe('make a type of these statements, which occur 2 times here');
    expect(text).toBe(`instrument "Alder Lane no. 64"

type group : assembly {
  lugs a b
  part c1 : capacitor 680pF from a to b
  part r1 : resistor 150k from a to b
}

part neck, bridge : single-coil
part v1, v2 : pot 250k audio
part group-1 : group from v1.3 to v1.2
part out : jack

part group-2 : group from v2.3 to v2.2 // the other one
part c3      : capacitor 470pF from v2.3 to v2.1

wire neck.hot to v1.3
wire bridge.hot to v2.3
wire v1.2 to v2.2 to out.tip
wire neck.ground to bridge.ground to v1.1 to v2.1 to out.sleeve
`);
  });

  test('shows the lugs that are wired from outside', async () => {
    const source = bleeds
      .replace(
        '<|part c1 : capacitor 680pF from v1.3 to v1.2\n',
        '<|part c1 : capacitor 680pF\nwire c1.a to v1.3\nwire c1.b to r1.b white\n',
      )
      .replace('part r1 : resistor 150k from v1.3 to v1.2', 'part r1 : resistor 150k')
      .replace('wire neck.hot to v1.3', 'wire neck.hot to v1.3\nwire r1.a to v1.3\nwire r1.b to v1.2');
    const { text } = (await extract(source))!;
    expect(text).toContain(`type group : assembly {
  lugs a r1-a r1-b
  part c1 : capacitor 680pF
  wire c1.a to a
  wire c1.b to r1.b white
  part r1 : resistor 150k
  solder r1-a to r1.a
  solder r1-b to r1.b
}`);
    expect(text).toContain('part group-1 : group\nsolder group-1.a to v1.3\n');
    expect(text).toContain('wire group-1.r1-a to v1.3\nwire group-1.r1-b to v1.2\n');
  });

  test.each([
    [
      'one statement',
      bleeds.replace('from v1.3 to v1.2\npart r1', 'from v1.3 to v1.2\n|>part r1').replace('\n|>part out', '\npart out'),
    ],
    [
      'a pickup that an expectation names',
      `${bleeds.replace('part neck, bridge', '<|part bridge').replace('<|part c1', 'part neck : single-coil\n|>part c1').replace('\n|>part out', '\npart out')}expect : sounds neck\n`,
    ],
    ['statements that wire nothing', '<|instrument "x"\npart a : pot\n|>part b : pot\n'],
  ])('is not offered for %s', async (_, source) => {
    expect(await extract(source)).toBeUndefined();
  });
});

describe('the lugs of a part', () => {
  test('are handed to a client that copies them, a line each', async () => {
    const editor = await startEditor({ initialize: { initializationOptions: { hearsChecked: true, copiesLugs: true } } });
    const document = await editor.open('a.lug', twoPickups({ 'part volume ': 'part vol<|>ume ' }));
    const found = (await actionsAt(editor, document, cursor(document))).filter(({ kind }) => kind === 'refactor.copy');
    expect(found.map(({ title, command }) => [title, command!.arguments])).toEqual([
      ['copy the lugs of volume', ['volume.1\nvolume.2\nvolume.3\nvolume.case']],
    ]);
  });

  test('are not offered to another client', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups({ 'part volume ': 'part vol<|>ume ' }));
    expect((await actionsAt(editor, document, cursor(document))).filter(({ command }) => command !== undefined)).toEqual([]);
  });
});
