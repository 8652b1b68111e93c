/** Quick fixes: the likeliest comes first, and once it is made the finding is gone. */
import { readFileSync } from 'node:fs';
import type { CodeAction, CodeActionContext, Diagnostic } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { formatText } from '../../language/grammar/index.js';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor } from './harness.js';

async function actionsOn(editor: Editor, uri: string, { range }: Diagnostic, context: Partial<CodeActionContext> = {}) {
  return editor.ask<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range,
    context: { diagnostics: [], ...context },
  });
}

describe('quick fixes, and which of them the editor may make unasked', () => {
  test.each<[string, Record<string, string>, string, 'sure' | 'not sure']>([
    ['a misspelt lug', { 'wire neck.hot ': 'wire neck.hott ' }, 'unknown-name', 'sure'],
    ['a misspelt part', { 'wire neck.hot ': 'wire nec.hot ' }, 'unknown-name', 'sure'],
    ['a misspelt type', { 'selector : lever-3': 'selector : lver-3' }, 'unknown-name', 'sure'],
    ['a second wire', { 'expect volume 0 ': 'wire tone.2 to volume.3\nexpect volume 0 ' }, 'repeated-joint', 'not sure'],
    ['a wire to itself', { 'expect volume 0 ': 'wire tone.2 to tone.2\nexpect volume 0 ' }, 'self-joint', 'not sure'],
    [
      'an allow that meets nothing',
      { 'expect volume 0 ': 'allow crowded-lug on neck "x"\nexpect volume 0 ' },
      'idle-allow',
      'not sure',
    ],
    ['a misspelt rule', { 'expect volume 0 ': 'allow crowded-lg on neck "x"\nexpect volume 0 ' }, 'idle-allow', 'sure'],
    [
      'a wire on the wrong lug',
      { 'wire neck.hot       to selector.B3': 'wire neck.hot       to selector.B1' },
      'expectation',
      'sure',
    ],
    // In these two all three positions have an expectation, and no other single wire meets them.
    ['a forgotten wire', { 'wire saddle         to volume.case black\n': '' }, 'floating-metal', 'sure'],
    [
      'a forgotten wire where a position has none',
      {
        'wire saddle         to volume.case black\n': '',
        'expect selector "neck"   : sounds neck, reads 6.05k within 15%\n': '',
      },
      'floating-metal',
      'not sure',
    ],
  ])('%s', async (_, marks, rule, confidence) => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups(marks));
    const finding = (await editor.diagnostics(uri)).find(({ code }) => code === rule)!;
    const fixes = (await actionsOn(editor, uri, finding)).filter(
      ({ isPreferred, diagnostics }) =>
        isPreferred !== undefined && diagnostics!.some(({ message }) => message === finding.message),
    );
    expect(fixes[0]).toMatchObject({ isPreferred: confidence === 'sure', kind: 'quickfix' });
    expect(fixes[0]!.diagnostics).toContainEqual(finding);
    expect(new Set(fixes.map(({ edit }) => JSON.stringify(edit))).size).toBe(fixes.length);
    await editor.apply(fixes[0]!.edit!);
    const left = await editor.diagnostics(uri);
    const same = left.filter(({ code, message }) => code === rule && message === finding.message);
    expect(same).toEqual([]);
  });

  test('are offered at the line that they change as well, where the finding stands elsewhere', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open(
      'a.lug',
      twoPickups({ 'wire neck.hot       to selector.B3': 'wire neck.hot       to selector.B1' }),
    );
    const found = await editor.diagnostics(uri);
    const line = editor
      .text(uri)
      .split('\n')
      .findIndex((one) => one.startsWith('wire neck.hot '));
    expect(found.filter(({ range }) => range.start.line === line)).toEqual([]);
    const range = { start: { line, character: 0 }, end: { line, character: 0 } };
    const fixes = (await actionsOn(editor, uri, { ...found[0]!, range })).filter(({ kind }) => kind === 'quickfix');
    expect(fixes.map(({ title }) => title)).toEqual([
      expect.stringMatching(/^move .*neck.* from selector\.B1 to selector\.B[23]: /),
    ]);
    await editor.apply(fixes[0]!.edit!);
    expect(await editor.diagnostics(uri)).toEqual([]);
  });

  test('say how likely they are where they are not sure', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups({ 'expect volume 0 ': 'wire tone.2 to volume.3\nexpect volume 0 ' }));
    const [finding] = await editor.diagnostics(uri);
    const [fix] = await actionsOn(editor, uri, finding!);
    expect(fix!.title).toMatch(/ \((likely|possible)\)$/);
  });

  test('belong to the lines that are asked about, and to the kinds', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups({ 'wire neck.hot ': 'wire neck.hott ' }));
    const [finding] = await editor.diagnostics(uri);
    const elsewhere = { ...finding!, range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } } };
    const isFix = ({ kind }: CodeAction) => kind === 'quickfix';
    expect((await actionsOn(editor, uri, elsewhere)).filter(isFix)).toEqual([]);
    expect((await actionsOn(editor, uri, finding!, { only: ['refactor'] })).filter(isFix)).toEqual([]);
    expect((await actionsOn(editor, uri, finding!, { only: ['quickfix'] })).filter(isFix)).not.toEqual([]);
  });
});

describe('setting a finding aside', () => {
  const idle = {
    'part saddle   : bridge-ground': 'part saddle   : bridge-ground\npart spare    : star',
    'expect volume 0          : silent\n': 'expect volume 0          : silent',
  };

  test('writes an allow line at the end, with room for the reason', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups(idle));
    const [finding] = await editor.diagnostics(uri);
    const allow = (await actionsOn(editor, uri, finding!)).find(({ title }) => /^set .* aside/.test(title))!;
    expect(allow).toMatchObject({ kind: 'quickfix', diagnostics: [finding] });
    expect(allow.isPreferred).toBeUndefined();
    await editor.apply(allow.edit!);
    expect(editor.text(uri)).toMatch(new RegExp(`: silent\\n\\nallow ${String(finding!.code)} on spare "say why"\\n$`));
    expect(await editor.diagnostics(uri)).toEqual([]);
  });

  test('goes behind the allow lines that are there', async () => {
    const editor = await startEditor();
    const more = { ...idle, 'wire bridge.hot ': 'allow crowded-lug on volume.case "short wires"\nwire bridge.hot ' };
    const { uri } = await editor.open('a.lug', twoPickups(more));
    const finding = (await editor.diagnostics(uri)).find(({ message }) => message.includes('spare'))!;
    await editor.apply((await actionsOn(editor, uri, finding)).find(({ title }) => /^set .* aside/.test(title))!.edit!);
    expect(editor.text(uri)).toMatch(/"short wires"\nallow \S+ on spare "say why"\nwire bridge/);
  });

  test('is offered once for all that one line sets aside', async () => {
    const editor = await startEditor();
    // Both claims of the line fail where the neck does not reach its position.
    const { uri } = await editor.open('a.lug', twoPickups({ 'wire selector.B3    to selector.B2': '// left off' }));
    const failed = (await editor.diagnostics(uri)).filter(({ code }) => code === 'expectation');
    expect(failed.length).toBeGreaterThan(1);
    const range = { start: failed[0]!.range.start, end: failed.at(-1)!.range.end };
    const allows = (await actionsOn(editor, uri, { ...failed[0]!, range })).filter(({ title }) => /^set .* aside/.test(title));
    expect(allows.map(({ diagnostics }) => diagnostics)).toEqual([failed]);
  });

  test('is not offered for a fault of the text', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups({ 'wire neck.hot ': 'wire neck.hott ' }));
    const [finding] = await editor.diagnostics(uri);
    expect((await actionsOn(editor, uri, finding!)).filter(({ title }) => /^set .* aside/.test(title))).toEqual([]);
  });
});

describe('a fix leaves the lines that it changes in their columns', () => {
  test.each([
    'lead-on-the-common',
    'pickup-ground-forgotten',
    'lug-that-does-not-exist',
    'part-misspelt',
    'tip-and-sleeve-exchanged',
    'jumper-of-a-lever-forgotten',
    'same-wire-twice',
    'too-many-wires-on-a-lug',
  ])('%s', async (name) => {
    const editor = await startEditor();
    const text = formatText(readFileSync(new URL(`../../examples/faulty/${name}.lug`, import.meta.url), 'utf8'));
    const { uri } = await editor.open('a.lug', text);
    const [finding] = await editor.diagnostics(uri);
    const fixes = (await actionsOn(editor, uri, finding!)).filter(({ edit }) => edit !== undefined);
    expect(fixes.length).toBeGreaterThan(0);
    for (const { edit, title } of fixes) {
      const fixed = editor.applied(edit!)[uri]!;
      expect([title, fixed]).toEqual([title, formatText(fixed)]);
    }
  });

  test('and leaves lines alone that were in none', async () => {
    const editor = await startEditor();
    const { uri, text } = await editor.open('a.lug', twoPickups({ 'wire neck.hot       to': 'wire  neck.hott to' }));
    const finding = (await editor.diagnostics(uri)).find(({ code }) => code === 'unknown-name')!;
    const [fix] = await actionsOn(editor, uri, finding);
    expect(editor.applied(fix!.edit!)[uri]).toBe(text.replace('wire  neck.hott to', 'wire  neck.hot to'));
  });
});
