/** Actions whose edit is worked out when they are chosen: offering them solves nothing, others are answered meanwhile, and an old one writes nothing. */
import { CancellationTokenSource, LSPErrorCodes, type CodeAction } from 'vscode-languageserver-protocol';
import { describe, expect, test, vi } from 'vitest';
import * as solver from '../../language/electrics/solver/solver.js';
import type { ExpectationOutcome } from '../../server/protocol.js';
import { generateCircuit } from '../bench/circuits.js';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor, type Opened } from './harness.js';

const resolving = {
  capabilities: { textDocument: { codeAction: { dataSupport: true, resolveSupport: { properties: ['edit'] } } } },
};
const unexpected = generateCircuit(30)
  .replace(/^expect .*$/m, '')
  .replace('instrument', 'instru<|>ment');

async function actionsAt(editor: Editor, { uri, places }: Opened): Promise<CodeAction[]> {
  const range = { start: places[0]!, end: places[0]! };
  const context = { diagnostics: [], only: ['refactor'] };
  return editor.ask('textDocument/codeAction', { textDocument: { uri }, range, context });
}

const writing = ({ title }: CodeAction): boolean => title === 'write the current behaviour as expectations';

describe('a client that resolves', () => {
  test('is offered actions that nothing was solved for', async () => {
    const editor = await startEditor({ initialize: resolving });
    const document = await editor.open('a.lug', unexpected);
    const solved = vi.spyOn(solver, 'createSolver');
    await editor.diagnostics(document.uri);
    expect(solved).toHaveBeenCalled();
    solved.mockClear();
    const actions = await actionsAt(editor, document);
    expect(actions.some(writing)).toBe(true);
    expect(actions.filter(({ edit }) => edit !== undefined)).toEqual([]);
    expect(solved).not.toHaveBeenCalled();
    solved.mockRestore();
  });

  test('gets the edit when one is chosen, and what it writes holds', async () => {
    const editor = await startEditor({ initialize: resolving });
    const document = await editor.open('a.lug', unexpected);
    const action = (await actionsAt(editor, document)).find(writing)!;
    const { edit } = await editor.ask<CodeAction>('codeAction/resolve', action);
    await editor.apply(edit!);
    const outcomes = await editor.ask<ExpectationOutcome[]>('lugwork/checkExpectations', { uri: document.uri });
    expect(outcomes.length).toBeGreaterThan(0);
    expect(outcomes.filter(({ held }) => !held)).toEqual([]);
  });

  test('is told in a sentence where the text has changed meanwhile', async () => {
    const editor = await startEditor({ initialize: resolving });
    const document = await editor.open('a.lug', unexpected);
    const action = (await actionsAt(editor, document)).find(writing)!;
    await editor.change(document.uri, [{ text: `// more\n${editor.text(document.uri)}` }]);
    await expect(editor.ask('codeAction/resolve', action)).rejects.toMatchObject({
      code: LSPErrorCodes.RequestFailed,
      message: 'The text has changed since this action was offered. Choose it again.',
    });
  });

  test('is told in a sentence where it changes while the edit is worked out', async () => {
    const editor = await startEditor({ initialize: resolving });
    const document = await editor.open('a.lug', unexpected);
    const action = (await actionsAt(editor, document)).find(writing)!;
    let now = 0;
    // A clock that is a second later whenever it is asked ends each slice after its first step, so the change comes in between.
    const clock = vi.spyOn(performance, 'now').mockImplementation(() => (now += 1000));
    const answer = editor.ask('codeAction/resolve', action);
    await editor.change(document.uri, [{ text: `// more\n${editor.text(document.uri)}` }]);
    await expect(answer).rejects.toMatchObject({ message: expect.stringContaining('has changed') as string });
    clock.mockRestore();
  });

  test('can take the question back', async () => {
    const editor = await startEditor({ initialize: resolving });
    const document = await editor.open('a.lug', unexpected);
    const action = (await actionsAt(editor, document)).find(writing)!;
    const source = new CancellationTokenSource();
    const answer = editor.connection.sendRequest('codeAction/resolve', action, source.token);
    source.cancel();
    await expect(answer).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  });

  test('is told in a sentence why there is no edit', async () => {
    const editor = await startEditor({ initialize: resolving });
    // Each combination of seven pickups sounds otherwise, so no two of the 128 share a line.
    const many = Array.from(
      { length: 7 },
      (_, i) =>
        `part p${i} : single-coil\npart s${i} : mini-spdt\nwire p${i}.hot to s${i}.A1\nwire s${i}.A0 to out.tip\nwire p${i}.ground to out.sleeve`,
    );
    const text = `<|>instrument "Alder Lane no. 3"\npart out : jack\n${many.join('\n')}\n`;
    const document = await editor.open('a.lug', text);
    const action = (await actionsAt(editor, document)).find(writing)!;
    await expect(editor.ask('codeAction/resolve', action)).rejects.toMatchObject({
      message: 'This would write more than 64 lines. Write expectations for the positions that matter instead.',
    });
  });
});

test('a circuit that is silent in every position gets a sentence, and no line that records it', async () => {
  const editor = await startEditor({ initialize: resolving });
  const dead = twoPickups({ 'instrument "Alder': 'instru<|>ment "Alder', 'wire volume.2       to output.tip white\n': '' });
  const document = await editor.open('a.lug', dead.replace(/^expect .*$/gm, ''));
  const action = (await actionsAt(editor, document)).find(writing)!;
  await expect(editor.ask('codeAction/resolve', action)).rejects.toMatchObject({
    message: 'It is silent in every position, however its pots are turned: expectations would record the mistake.',
  });
});

test('lines of one’s own that say something else are kept and named', async () => {
  const editor = await startEditor({ initialize: resolving });
  // None of the lines says what sounds, so every position is open; each says something else than is so.
  const text = twoPickups({
    'instrument "Alder': 'instru<|>ment "Alder',
    'expect selector "bridge" : sounds bridge, hum present': 'expect selector "bridge" : hum cancelled',
    'expect selector "both"   : sounds parallel(neck, bridge), hum cancelled': 'expect selector "both"   : hum present',
    'expect selector "neck"   : sounds neck, reads 6.05k within 15%': 'expect selector "neck"   : hum cancelled',
  });
  const document = await editor.open('a.lug', text);
  const action = (await actionsAt(editor, document)).find(writing)!;
  await expect(editor.ask('codeAction/resolve', action)).rejects.toMatchObject({
    message: 'There is nothing to add: your own lines say something else and were kept (lines 27, 28 and 29).',
  });
});

test('a hover asked after the choices of expectations is answered before them', async () => {
  const editor = await startEditor({ initialize: resolving });
  const document = await editor.open('a.lug', unexpected);
  await editor.diagnostics(document.uri);
  const order: string[] = [];
  const choices = editor.ask('lugwork/expectationChoices', { uri: document.uri }).then(() => order.push('choices'));
  const hover = editor.ask('textDocument/definition', document.at()).then(() => order.push('definition'));
  await Promise.all([choices, hover]);
  expect(order).toEqual(['definition', 'choices']);
});

test('a client that does not resolve gets every action with its edit', async () => {
  const editor = await startEditor();
  const document = await editor.open(
    'a.lug',
    twoPickups({ 'instrument "Alder': 'instru<|>ment "Alder' }).replace(/^expect .*$/gm, ''),
  );
  const actions = await actionsAt(editor, document);
  expect(actions.some(writing)).toBe(true);
  expect(actions.filter(({ edit }) => edit === undefined)).toEqual([]);
  expect(actions.filter((action) => 'data' in action)).toEqual([]);
});
