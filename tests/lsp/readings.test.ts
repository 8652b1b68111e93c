/** Readings in the editor: the lens over them, the next reading and what is proved as actions, the text of the faults; expectations to choose from. */
import type { CodeAction, CodeLens, Range, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import type { DrawnSearch, ExpectationChoice, WrittenReading } from '../../server/protocol.js';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor } from './harness.js';

/** The neck's ground lead is loose: its position reads the track alone. */
const looseNeck = `${twoPickups()}
measured selector "bridge" : reads 6.62k
meas<|>ured selector "neck" : reads 249k
`;

async function actionsAt(editor: Editor, uri: string, range: Range): Promise<readonly CodeAction[]> {
  const only = ['refactor'];
  return editor.ask('textDocument/codeAction', { textDocument: { uri }, range, context: { diagnostics: [], only } });
}

test('a lens over the first reading tells the likeliest suspect, and calls the command where the client has it', async () => {
  const editor = await startEditor({ initialize: { initializationOptions: { answersFiles: true, locatesFaults: true } } });
  const document = await editor.open('a.lug', looseNeck);
  const lenses = await editor.ask<CodeLens[]>('textDocument/codeLens', document.id);
  const lens = lenses.find(({ range }) => document.text.split('\n')[range.start.line]!.startsWith('measured'))!;
  expect(lens.command!.title).toMatch(/^\d+ suspects?, most likely: .*neck/);
  expect(lens.command).toMatchObject({ command: 'lugwork.locateFault', arguments: [document.uri] });
});

test('a lens of a client without the command is text alone', async () => {
  const editor = await startEditor();
  const document = await editor.open('a.lug', looseNeck);
  const lenses = await editor.ask<CodeLens[]>('textDocument/codeLens', document.id);
  expect(lenses.at(-1)!.command).toMatchObject({ command: '', title: expect.stringMatching(/suspect/) });
});

test('the suspects come with the ids of what they name in the drawing', async () => {
  const editor = await startEditor();
  const document = await editor.open('a.lug', looseNeck);
  const { suspects, next } = await editor.ask<DrawnSearch>('lugwork/suspects', { uri: document.uri });
  expect(next!.line).toMatch(/^measured .*: reads …$/);
  expect(suspects.length).toBeGreaterThan(0);
  expect(suspects.length).toBeLessThanOrEqual(5);
  // The loose lead is among them, by its lug and by its wire.
  expect(suspects.flatMap(({ ids }) => ids)).toContain('lug:neck.ground');
  expect(suspects.some(({ ids }) => ids.some((id) => id.startsWith('wire:neck.ground~')))).toBe(true);
  expect(await editor.ask('lugwork/suspects', { uri: 'file:///no-such.lug' })).toBeNull();
});

test('the next reading that is typed is written as a line, or into the one that waits for it', async () => {
  const editor = await startEditor();
  const document = await editor.open('a.lug', looseNeck);
  const { uri } = document;
  const next = async (): Promise<string> => (await editor.ask<DrawnSearch>('lugwork/suspects', { uri })).next!.line;
  const write = (line: string, text: string): Promise<WrittenReading> => editor.ask('lugwork/writeReading', { uri, line, text });
  const line = await next();
  expect(await write(line, 'about six')).toEqual({ refused: 'text' });
  expect(await write('measured : reads …', '6k')).toEqual({ refused: 'line' });
  const apply = async (answer: WrittenReading): Promise<void> => {
    if (!('edits' in answer)) throw new Error(answer.refused);
    const edits = answer.edits.map(({ range, text }) => ({ range, newText: text }));
    await editor.apply({ changes: { [uri]: edits } });
  };
  await apply(await write(line, '6.2 k'));
  expect(editor.text(uri).replace(/ +/g, ' ')).toContain(line.replace('…', '6.2k'));
  const second = await next();
  expect(second).not.toBe(line);
  await editor.change(uri, [{ text: `${editor.text(uri)}${second.replace('…', '?')}\n` }]);
  await apply(await write(second, 'open'));
  const lines = editor.text(uri).replace(/ +/g, ' ').split('\n');
  expect(lines.filter((one) => one.startsWith(second.replace(/ : reads …$/, '')))).toEqual([second.replace('…', 'open')]);
});

test('the next reading is written in to be filled, and once it is filled there are fewer suspects', async () => {
  const editor = await startEditor();
  const document = await editor.open('a.lug', looseNeck);
  const at = { start: document.places[0]!, end: document.places[0]! };
  const suspects = async (): Promise<number> => {
    const text = await editor.ask<string>('lugwork/locate', { uri: document.uri });
    return [...text.matchAll(/explains (\d+) of \1/g)].length;
  };
  const before = await suspects();
  const action = (await actionsAt(editor, document.uri, at)).find(({ title }) => title.startsWith('take the next reading'))!;
  await editor.apply(action.edit!);
  const lines = editor.text(document.uri).split('\n');
  const written = lines.findIndex((line) => line.endsWith(': reads ?'));
  expect(lines[written - 1]).toBe('measured selector "neck" : reads 249k');
  expect((await editor.diagnostics(document.uri)).filter(({ severity }) => severity === 1)).toEqual([]);
  expect(await suspects()).toBe(before);
  const start = { line: written, character: lines[written]!.length - 1 };
  await editor.change(document.uri, [{ range: { start, end: { ...start, character: start.character + 1 } }, text: 'open' }]);
  expect(await suspects()).toBeLessThan(before);
});

test('wires that readings prove and values that they give are written in', async () => {
  const editor = await startEditor();
  const document = await editor.open(
    'a.lug',
    `part neck : single-coil ? 2.4H 110pF
part volume : pot 250k audio
part output : jack
wire volume.2 to output.tip
wire volume.1 to output.sleeve
wire neck.ground to volume.1
meas<|>ured between neck.hot and volume.3 : reads short
measured between neck.hot and neck.ground : reads 6.05k
`,
  );
  const at = { start: document.places[0]!, end: document.places[0]! };
  const titles = (await actionsAt(editor, document.uri, at)).map(({ title }) => title);
  expect(titles).toContain('write what the readings prove: wire neck.hot to volume.3');
  const wire = (await actionsAt(editor, document.uri, at)).find(({ title }) =>
    title.startsWith('write what the readings prove'),
  )!;
  await editor.apply(wire.edit!);
  expect(editor.text(document.uri)).toContain('wire neck.ground to volume.1\nwire neck.hot to volume.3\n');
  const again = { start: { line: 7, character: 0 }, end: { line: 7, character: 0 } };
  const value = (await actionsAt(editor, document.uri, again)).find(({ title }) => title.startsWith('write the value'))!;
  expect(value.title).toMatch(/neck 6\.[0-9]+k$/);
  await editor.apply(value.edit!);
  expect(editor.text(document.uri)).toMatch(/^part neck : single-coil 6\.[0-9]+k 2\.4H 110pF$/m);
});

test('expectations to choose from: as it is now, and by the patterns that fit', async () => {
  const editor = await startEditor();
  const bare = twoPickups().replace(/^expect.*\n/gm, '');
  const document = await editor.open('a.lug', bare);
  const choices = await editor.ask<ExpectationChoice[]>('lugwork/expectationChoices', { uri: document.uri });
  expect(choices.map(({ title }) => title)).toEqual([
    'current behaviour',
    'current behaviour, with the pots turned',
    'what such a circuit usually gives',
    'by the pattern “neighbours”',
  ]);
  const [now] = choices as [ExpectationChoice];
  await editor.apply(changes(document.uri, now));
  expect(await editor.diagnostics(document.uri)).toEqual([]);
  expect(editor.text(document.uri)).toContain('expect selector "bridge" : sounds bridge, hum present');
});

test('expectations chosen again are merged with those that are there', async () => {
  const editor = await startEditor();
  const outdated = 'expect selector "neck"   : sounds neck, hum present, reads 9k within 5%';
  const document = await editor.open(
    'a.lug',
    twoPickups({
      'expect selector "neck"   : sounds neck, reads 6.05k within 15%': outdated,
      'hum cancelled': 'hum cancelled, reads 9k',
    }),
  );
  const [now] = await editor.ask<ExpectationChoice[]>('lugwork/expectationChoices', { uri: document.uri });
  const line = document.text.split('\n').findIndex((one) => one.includes('"both"   : sounds'));
  // “bridge” lacks its reading, “neck” is out of date, “both” was written by hand; what a tone at 0 brings is new.
  expect(now).toMatchObject({ kept: [line] });
  expect(now!.detail).toMatch(/\(\d+ lines added, 2 replaced, 1 stated already, 1 of yours kept\)$/);
  await editor.apply(changes(document.uri, now!));
  const after = editor.text(document.uri);
  expect(after.match(/^expect selector "bridge" : .*$/gm)).toEqual([expect.stringMatching(/sounds bridge, hum present, reads/)]);
  expect(after.match(/^expect selector "neck" {3}: .*$/gm)).toEqual([expect.stringMatching(/reads 6\.\d+k within 5%$/)]);
  expect(after).toContain('expect selector "both"   : sounds parallel(neck, bridge), hum cancelled, reads 9k\n');
  const [again] = await editor.ask<ExpectationChoice[]>('lugwork/expectationChoices', { uri: document.uri });
  expect(again).toMatchObject({ edits: [], kept: [line] });
});

describe('what such a circuit usually gives', () => {
  const bare = (replaced: Readonly<Record<string, string>> = {}): string =>
    twoPickups({ 'part selector': 'part sel<|>ector', ...replaced }).replace(/^expect.*\n/gm, '');
  const offered = async (editor: Editor, text: string): Promise<CodeAction[]> => {
    const document = await editor.open('a.lug', text);
    const at = { start: document.places[0]!, end: document.places[0]! };
    return (await actionsAt(editor, document.uri, at)).filter(({ title }) => title.startsWith('keep '));
  };
  // Without its jumper the neck is not on the pole of the middle position.
  const jumper = { 'wire selector.B3    to selector.B2\n': '' };

  test('is offered at the switch, with how much of it sounds already, and is no finding', async () => {
    const editor = await startEditor();
    const [right] = await offered(editor, bare());
    expect(right!.title).toBe('keep what such a circuit usually gives as expectations: 3 positions, as they sound now');
    expect(right!.kind).toBe('refactor.rewrite');
    await editor.apply(right!.edit!);
    const { uri } = await editor.open('a.lug', editor.text(Object.keys(right!.edit!.changes!)[0]!));
    expect(editor.text(uri)).toMatch(/expect selector "both" {3}: sounds parallel\(bridge, neck\)$/m);
    expect(await editor.diagnostics(uri)).toEqual([]);
  });

  test('says how many positions differ, and is an error of the circuit once it is kept', async () => {
    const editor = await startEditor();
    const [wrong] = await offered(editor, bare(jumper));
    expect(wrong!.title).toMatch(/: 3 positions, 1 differs from what sounds now$/);
    const [uri] = Object.keys(wrong!.edit!.changes!) as [string];
    expect((await editor.diagnostics(uri)).map(({ code }) => code)).not.toContain('expectation');
    await editor.apply(wrong!.edit!);
    expect((await editor.diagnostics(uri)).map(({ code }) => code)).toContain('expectation');
  });

  test.each([
    ['something is expected', twoPickups({ 'part selector': 'part sel<|>ector' })],
    ['the cursor is at another part', bare().replace('sel<|>ector', 'selector').replace('part neck', 'part ne<|>ck')],
    ['the names of the positions deny it', bare({ '"bridge" "both" "neck"': '"bridge" "neck" "both"' })],
  ])('is not offered where %s', async (_, text) => {
    expect(await offered(await startEditor(), text)).toEqual([]);
  });

  test('stands over the switch, for a client that can write it by a command', async () => {
    const lensesIn = async (writesUsual: boolean): Promise<CodeLens[]> => {
      const editor = await startEditor({ initialize: { initializationOptions: { writesUsual } } });
      const document = await editor.open('a.lug', bare(jumper));
      const lenses = await editor.ask<CodeLens[]>('textDocument/codeLens', document.id);
      return lenses.filter(({ range }) => range.start.line === document.places[0]!.line);
    };
    const title = 'keep what such a circuit usually gives as expectations: 3 positions, 1 differs from what sounds now';
    expect((await lensesIn(false)).map(({ command }) => command)).toEqual([{ title, command: '' }]);
    const [lens] = await lensesIn(true);
    expect(lens!.command).toEqual({
      title,
      command: 'lugwork.writeExpectations',
      arguments: [expect.stringMatching(/a\.lug$/)],
    });
  });
});

test('a pattern is offered at the switch while nothing is expected yet', async () => {
  const editor = await startEditor();
  const bare = twoPickups({ 'part selector': 'part sel<|>ector' }).replace(/^expect.*\n/gm, '');
  const document = await editor.open('a.lug', bare);
  const at = { start: document.places[0]!, end: document.places[0]! };
  const action = (await actionsAt(editor, document.uri, at)).find(({ title }) => title.includes('“neighbours”'))!;
  expect(action.title).toBe('write expectations by the pattern “neighbours”');
  await editor.apply(action.edit!);
  expect(editor.text(document.uri)).toContain('sounds parallel(bridge, neck)');
  expect((await actionsAt(editor, document.uri, at)).filter(({ title }) => title.includes('pattern'))).toEqual([]);
});

function changes(uri: string, { edits }: ExpectationChoice): WorkspaceEdit {
  return { changes: { [uri]: edits.map(({ range, text }) => ({ range, newText: text })) } };
}
