/** Findings as they are published: what they say and lead to, what brings them up and takes them away. */
import { DiagnosticSeverity, DiagnosticTag, FileChangeType, type Diagnostic } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../language/source.js';
import { toDiagnostic } from '../../server/lsp/to-protocol.js';
import { twoPickups } from './circuits.js';
import { marked, startEditor, uriOf } from './harness.js';

/** `error rule`, line by line. */
function said(diagnostics: readonly Diagnostic[]): string[] {
  const words = ['', 'error', 'warning', 'info', 'hint'];
  return diagnostics.map(({ severity, code }) => `${words[severity ?? 0]!} ${String(code)}`);
}

const forgottenSaddle = { 'wire saddle         to volume.case black\n': '' };
const wireTwice = { 'expect volume 0 ': 'wire <|tone.2 to volume.3|>\nexpect volume 0 ' };

describe('what a finding carries', () => {
  test('a right circuit has none', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups());
    expect(await editor.diagnostics(uri)).toEqual([]);
  });

  test('its place, severity, rule, version, and a link to the page of its rule that the client can open', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups(forgottenSaddle));
    const [finding] = await editor.diagnostics(uri);
    expect(finding).toMatchObject({ code: 'floating-metal', source: 'lugwork', severity: DiagnosticSeverity.Error });
    const line = editor
      .text(uri)
      .split('\n')
      .findIndex((one) => one.startsWith('part saddle'));
    expect(finding!.range.start.line).toBe(line);
    const page = await editor.ask<string>('lugwork/builtInText', { uri: finding!.codeDescription!.href });
    expect(page).toMatch(/^# floating-metal\n/);
    expect(editor.published.at(-1)!.version).toBe(1);
  });

  test('the places that belong to it, and a tag where a wire does nothing', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups(wireTwice));
    const [finding] = await editor.diagnostics(document.uri);
    expect(finding).toMatchObject({ code: 'repeated-joint', tags: [DiagnosticTag.Unnecessary], range: document.ranges[0] });
    const first = document.text.split('\n').findIndex((line) => line.startsWith('wire volume.3 '));
    expect(finding!.relatedInformation).toMatchObject([{ location: { uri: document.uri, range: { start: { line: first } } } }]);
  });

  test('a fault of the text has no page', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups({ 'wire neck.hot ': 'wire neck.hott ' }));
    const [finding] = await editor.diagnostics(uri);
    expect(finding!.code).toBe('unknown-name');
    expect(finding!.codeDescription).toBeUndefined();
  });
});

describe('one cause, one squiggle', () => {
  /** Everything on lugs 1 and 3 of the volume exchanged, as when it is wired from the wrong side. */
  const mirrored = {
    'selector.B0 to volume.3': 'selector.B0 to volume.1',
    'wire volume.3       to tone.2': 'wire volume.1       to tone.2',
    'solder volume.1     to volume.case': 'solder volume.3     to volume.case',
    'expect volume 0          : silent\n':
      'expect volume 0          : silent\nexpect selector "neck", volume 0 : reads short\nexpect selector "bridge", volume 0 : reads short\n',
  };
  const loud = ({ severity }: Diagnostic) => severity !== DiagnosticSeverity.Hint;

  test('what follows from it is a hint at its own place, says from which line it follows, and is listed at the cause', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups(mirrored));
    const found = await editor.diagnostics(uri);
    const [cause, ...others] = found.filter(loud);
    expect(others).toEqual([]);
    expect(cause).toMatchObject({ code: 'backwards-control', severity: DiagnosticSeverity.Error });
    const followers = found.filter((one) => one !== cause);
    expect(followers.length).toBeGreaterThanOrEqual(3);
    expect(cause!.message.split('\n').at(-1)).toBe(`And ${followers.length} more follow from it.`);
    for (const one of followers) {
      expect(one.message.split('\n').at(-1)).toMatch(
        new RegExp(`^Follows from line ${cause!.range.start.line + 1}: volume works`),
      );
      expect(one.relatedInformation![0]!.location).toEqual({ uri, range: cause!.range });
    }
    const listed = cause!.relatedInformation!.map(({ location }) => location.range);
    for (const one of followers) expect(listed).toContainEqual(one.range);
  });

  test('while the next text is being checked no list grows and shrinks again', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups(mirrored));
    await editor.diagnostics(uri);
    const before = editor.published.length;
    await editor.change(uri, [{ text: twoPickups({ ...mirrored, 'single-coil 6.2k': 'single-coil 6.3k' }) }]);
    expect((await editor.diagnostics(uri)).filter(loud)).toHaveLength(1);
    for (const { diagnostics } of editor.published.slice(before)) expect(diagnostics.filter(loud).length).toBeLessThanOrEqual(1);
  });

  test('neither is it so after the edit that brings the first ones', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups());
    expect(await editor.diagnostics(uri)).toEqual([]);
    const before = editor.published.length;
    await editor.change(uri, [{ text: twoPickups(mirrored) }]);
    expect((await editor.diagnostics(uri)).filter(loud)).toHaveLength(1);
    for (const { diagnostics } of editor.published.slice(before)) expect(diagnostics.filter(loud).length).toBeLessThanOrEqual(1);
  });

  test('after the edit of one wire the first list that is whole is the last', async () => {
    const editor = await startEditor();
    const { uri, ranges } = await editor.open('a.lug', twoPickups({ 'selector.B0 to volume.3': 'selector.B0 to <|volume.3|>' }));
    expect(await editor.diagnostics(uri)).toEqual([]);
    await editor.change(uri, [{ range: ranges[0]!, text: 'volume.1' }]);
    const found = await editor.diagnostics(uri);
    expect(found.filter(loud)).toHaveLength(1);
    expect(found.length).toBeGreaterThan(2);
    const whole = editor.published.filter(({ diagnostics }) => diagnostics.length === found.length);
    expect(whole).toHaveLength(1);
  });

  test('a misspelt word is the cause of what its statement leaves open', async () => {
    const editor = await startEditor();
    const { uri, ranges } = await editor.open('a.lug', twoPickups({ 'wire neck.ground    to': 'wire <|nekc|>.ground    to' }));
    const found = await editor.diagnostics(uri);
    expect(said(found.filter(loud))).toEqual(['error unknown-name']);
    expect(found.find(loud)!.range).toEqual(ranges[0]);
    expect(said(found)).toContain('hint loose-lead');
    await editor.change(uri, [{ range: ranges[0]!, text: 'neck' }]);
    expect(await editor.diagnostics(uri)).toEqual([]);
  });

  test('of many that follow twenty are listed at the cause, and all are counted', () => {
    const finding = (line: number): Finding => {
      const range = { uri: 'memory:/a.lug', start: { line, character: 0 }, end: { line, character: 4 } };
      const claim = { rule: 'expectation' };
      return { rule: 'expectation', severity: 'error', claim, message: 'm', range, related: [], fixes: [], subjects: [] };
    };
    const [cause, ...following] = Array.from({ length: 31 }, (_, line) => finding(line));
    const follows = new Map(following.map((one) => [one, cause!]));
    const shown = toDiagnostic(cause!, { follows, followers: new Map([[cause!, following]]) });
    expect(shown.relatedInformation).toHaveLength(20);
    expect(shown.message).toContain('And 30 more follow from it.');
  });

  test('a cause is as grave as what follows from it', async () => {
    const editor = await startEditor({ settings: { rules: { 'backwards-control': 'info' } } });
    const { uri } = await editor.open('a.lug', twoPickups(mirrored));
    const [cause] = (await editor.diagnostics(uri)).filter(loud);
    expect(cause).toMatchObject({ code: 'backwards-control', severity: DiagnosticSeverity.Error });
  });
});

describe('settings', () => {
  test('give a rule another severity, or turn it off', async () => {
    const editor = await startEditor({ settings: { rules: { 'floating-metal': 'hint' } } });
    const { uri } = await editor.open('a.lug', twoPickups(forgottenSaddle));
    expect(said(await editor.diagnostics(uri))).toEqual(['hint floating-metal']);
    editor.settings = { rules: { 'floating-metal': 'off' } };
    const again = editor.checkedAgain(uri);
    await editor.tell('workspace/didChangeConfiguration', { settings: null });
    expect(await again).toEqual([]);
  });

  test('that make no sense count as not said', async () => {
    for (const settings of [null, 'x', { rules: { 'floating-metal': 'loud' }, inlayHints: 3, codeLens: null }]) {
      const editor = await startEditor({ settings });
      const { uri } = await editor.open('a.lug', twoPickups(forgottenSaddle));
      expect(said(await editor.diagnostics(uri))).toEqual(['error floating-metal']);
    }
  });

  test('are sent along by a client that cannot be asked', async () => {
    const editor = await startEditor({ initialize: { capabilities: {} } });
    const { uri } = await editor.open('a.lug', twoPickups(forgottenSaddle));
    expect(said(await editor.diagnostics(uri))).toEqual(['error floating-metal']);
    const again = editor.checkedAgain(uri);
    await editor.tell('workspace/didChangeConfiguration', { settings: { lugwork: { rules: { 'floating-metal': 'off' } } } });
    expect(await again).toEqual([]);
  });
});

describe('edits', () => {
  test('bring findings up and take them away', async () => {
    const editor = await startEditor();
    const { uri, ranges } = await editor.open('a.lug', twoPickups({ 'wire neck.hot ': 'wire neck.<|hot|> ' }));
    expect(await editor.diagnostics(uri)).toEqual([]);
    await editor.change(uri, [{ range: ranges[0]!, text: 'hat' }]);
    expect(said(await editor.diagnostics(uri))).toEqual(['error unknown-name']);
    await editor.change(uri, [{ range: ranges[0]!, text: 'hot' }]);
    expect(await editor.diagnostics(uri)).toEqual([]);
  });

  test('many at once: the last one counts, and findings never go back to an older version', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups());
    for (let i = 0; i < 50; i++) await editor.change(uri, [{ text: twoPickups(i % 2 === 0 ? forgottenSaddle : {}) }]);
    expect(await editor.diagnostics(uri)).toEqual([]);
    const versions = editor.published.map(({ version }) => version!);
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
    expect(versions.at(-1)).toBe(51);
  });

  test('that come late, or for a document that is not open, are passed over', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups());
    await editor.change(uri, [{ text: twoPickups(forgottenSaddle) }]);
    const late = { textDocument: { uri, version: 1 }, contentChanges: [{ text: '' }] };
    await editor.tell('textDocument/didChange', late);
    await editor.tell('textDocument/didChange', { ...late, textDocument: { uri: uriOf('other.lug'), version: 4 } });
    expect(said(await editor.diagnostics(uri))).toEqual(['error floating-metal']);
    expect(editor.log).toEqual([]);
  });

  test('a closed document has no findings any more', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', twoPickups(forgottenSaddle));
    expect(await editor.diagnostics(uri)).toHaveLength(1);
    await editor.close(uri);
    await editor.ask('lugwork/expectations', { uri });
    expect(editor.published.at(-1)).toMatchObject({ uri, diagnostics: [] });
  });

  test.each(['untitled:Untitled-1', 'vscode-vfs://git/repository/a.lug', 'file:///tmp/with%20space/ä.lug'])(
    'in a document at %s',
    async (uri) => {
      const editor = await startEditor();
      await editor.open(uri, twoPickups(forgottenSaddle));
      expect(said(await editor.diagnostics(uri))).toEqual(['error floating-metal']);
    },
  );
});

describe('files that a document uses', () => {
  const house = 'type dark : single-coil { takes resistance 8k }\n';
  const using = (type: string) =>
    twoPickups({
      'neck     : single-coil 6.2k': `neck     : ${type} 6.2k`,
      'instrument "Alder Lane no. 61"': 'use "house.lug"\ninstrument "Alder Lane no. 61"',
    });

  test('are read through the client', async () => {
    const editor = await startEditor({ files: { 'house.lug': house } });
    const { uri } = await editor.open('a.lug', using('dark'));
    expect(await editor.diagnostics(uri)).toEqual([]);
  });

  test('that are missing are told, until they are there', async () => {
    const editor = await startEditor();
    const { uri } = await editor.open('a.lug', using('dark'));
    expect(said(await editor.diagnostics(uri))).toContain('error use');
    editor.files.set(uriOf('house.lug'), house);
    const again = editor.checkedAgain(uri);
    await editor.tell('workspace/didChangeWatchedFiles', {
      changes: [{ uri: uriOf('house.lug'), type: FileChangeType.Created }],
    });
    expect(await again).toEqual([]);
  });

  test('that are open count as they stand in the editor, and their users are checked again', async () => {
    const editor = await startEditor({ files: { 'house.lug': '' } });
    const other = await editor.open('house.lug', house);
    const { uri } = await editor.open('a.lug', using('dark'));
    expect(await editor.diagnostics(uri)).toEqual([]);
    let again = editor.checkedAgain(uri);
    await editor.change(other.uri, [{ text: house.replace('dark', 'darker') }]);
    expect(said(await again)).toContain('error unknown-name');
    // Closed without saving: the file counts again, and it is empty.
    editor.files.set(other.uri, house);
    again = editor.checkedAgain(uri);
    await editor.close(other.uri);
    expect(await again).toEqual([]);
  });

  test('tell what is wrong in them where they are used', async () => {
    const editor = await startEditor({ files: { 'house.lug': `${house}part spare : pot 250k\nwire spare.1 to spare.9\n` } });
    const text = marked(using('dark').replace('"house.lug"', '<|"house.lug"|>'));
    const { uri } = await editor.open('a.lug', text.text);
    const use = (await editor.diagnostics(uri)).find(({ code }) => code === 'use');
    expect(use).toMatchObject({ range: text.ranges[0] });
    expect(use!.relatedInformation![0]!.location.uri).toBe(uriOf('house.lug'));
  });
});

describe('the standard parts', () => {
  test('have no findings', async () => {
    const editor = await startEditor();
    const uri = 'lugwork:/parts/pickups.lug';
    await editor.open(uri, await editor.ask<string>('lugwork/builtInText', { uri }));
    await editor.ask('lugwork/expectations', { uri });
    expect(editor.published.filter((one) => one.uri === uri && one.diagnostics.length > 0)).toEqual([]);
  });
});
