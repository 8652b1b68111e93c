/** Quick fixes: the likeliest comes first, and once it is made the finding is gone. */
import type { CodeAction, CodeActionContext, Diagnostic } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor } from './harness.js';

async function actionsOn(editor: Editor, uri: string, { range }: Diagnostic, context: Partial<CodeActionContext> = {}) {
  return editor.ask<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range,
    context: { diagnostics: [], ...context },
  });
}

describe('quick fixes', () => {
  test.each<[string, Record<string, string>, string]>([
    ['a misspelt lug', { 'wire neck.hot ': 'wire neck.hott ' }, 'unknown-name'],
    ['a misspelt part', { 'wire neck.hot ': 'wire nec.hot ' }, 'unknown-name'],
    ['a misspelt type', { 'selector : lever-3': 'selector : lver-3' }, 'unknown-name'],
    ['a second wire', { 'expect volume 0 ': 'wire tone.2 to volume.3\nexpect volume 0 ' }, 'repeated-joint'],
    ['a wire to itself', { 'expect volume 0 ': 'wire tone.2 to tone.2\nexpect volume 0 ' }, 'self-joint'],
    ['an allow that meets nothing', { 'expect volume 0 ': 'allow crowded-lug on neck "x"\nexpect volume 0 ' }, 'idle-allow'],
    ['a misspelt rule', { 'expect volume 0 ': 'allow crowded-lg on neck "x"\nexpect volume 0 ' }, 'idle-allow'],
    ['a wire on the wrong lug', { 'wire neck.hot       to selector.B3': 'wire neck.hot       to selector.B1' }, 'expectation'],
    ['a forgotten wire', { 'wire saddle         to volume.case black\n': '' }, 'floating-metal'],
  ])('%s', async (_, marks, rule) => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups(marks));
    const finding = (await editor.diagnostics(uri)).find(({ code }) => code === rule)!;
    const fixes = (await actionsOn(editor, uri, finding)).filter(
      ({ isPreferred, diagnostics }) =>
        isPreferred !== undefined && diagnostics!.some(({ message }) => message === finding.message),
    );
    expect(fixes[0]).toMatchObject({ isPreferred: true, kind: 'quickfix' });
    expect(fixes[0]!.diagnostics).toContainEqual(finding);
    expect(new Set(fixes.map(({ edit }) => JSON.stringify(edit))).size).toBe(fixes.length);
    await editor.apply(fixes[0]!.edit!);
    const left = await editor.diagnostics(uri);
    const same = left.filter(({ code, message }) => code === rule && message === finding.message);
    expect(same).toEqual([]);
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
