/** Large work leaves the loop to others: every request of the server is listed here as large or as quick, and a hover overtakes each large one. */
import { setImmediate } from 'node:timers';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { CodeAction } from 'vscode-languageserver-protocol';
import { deferredActions } from '../../server/lsp/actions/deferred.js';
import { requestParams } from '../../server/lsp/params.js';
import { generateCircuit } from '../bench/circuits.js';
import { startEditor, type Editor, type Opened } from './harness.js';

/** Without `expect` lines what writes them has most to do. */
const text = `${generateCircuit(30).replace(/^expect .*$/gm, '')}\nmeasured : reads 123k\n`;
const before = { text: text.replace('wire master.2 to output.tip', 'wire master.3 to output.tip') };

/** Requests whose work grows with the circuit's settings or wires, their parameters, and how many turns of the loop they take at least. */
const large: Readonly<Record<string, { readonly params: object; readonly turns: number }>> = {
  'textDocument/formatting': { params: { options: { tabSize: 2, insertSpaces: true } }, turns: 20 },
  'lugwork/expectationChoices': { params: {}, turns: 20 },
  'lugwork/overview': { params: {}, turns: 5 },
  'lugwork/locate': { params: {}, turns: 5 },
  'lugwork/suspects': { params: {}, turns: 5 },
  'lugwork/writeReading': { params: { line: 'measured : reads …', text: '6k' }, turns: 5 },
  'lugwork/compare': { params: { before }, turns: 50 },
  'lugwork/changedLines': { params: { before }, turns: 50 },
  'lugwork/overlay': { params: { grounds: 'auto', at: { positions: {}, rotations: {} } }, turns: 100 },
  'lugwork/response': { params: { grounds: 'auto', at: { positions: {}, rotations: {} }, points: 400 }, turns: 30 },
  'lugwork/sheet': { params: { evenBroken: true }, turns: 50 },
  'lugwork/readings': { params: { places: [{ at: '', setting: '' }] }, turns: 20 },
  'lugwork/takeReading': { params: { place: { at: '', setting: '' }, text: '6.6k' }, turns: 20 },
  'lugwork/sheetPage': { params: { form: 'html', number: 1, done: [] }, turns: 50 },
  'lugwork/page': { params: {}, turns: 20 },
};

/** Requests that look up what is known, or solve one setting. What they ask of an unchecked circuit is solved in steps as well. */
const quick: readonly string[] = [
  'textDocument/hover',
  'textDocument/completion',
  'completionItem/resolve',
  'textDocument/signatureHelp',
  'textDocument/definition',
  'textDocument/references',
  'textDocument/prepareRename',
  'textDocument/rename',
  'textDocument/documentHighlight',
  'textDocument/codeAction',
  'textDocument/codeLens',
  'textDocument/inlayHint',
  'textDocument/semanticTokens/full',
  'textDocument/semanticTokens/full/delta',
  'textDocument/semanticTokens/range',
  'textDocument/documentSymbol',
  'textDocument/documentLink',
  'textDocument/foldingRange',
  'textDocument/selectionRange',
  'textDocument/rangeFormatting',
  'textDocument/onTypeFormatting',
  'workspace/symbol',
  'lugwork/expectations',
  'lugwork/checkExpectations',
  'lugwork/positions',
  'lugwork/wiresOfTable',
  'lugwork/builtInText',
  'lugwork/drawWire',
  'lugwork/scene',
  'lugwork/prepareScene',
];

/** Whose edits are worked out when one is chosen: tried below, one by one. */
const chosen = 'codeAction/resolve';

test('every request is listed as large or as quick', () => {
  const methods = Object.keys(requestParams).filter((method) => method !== 'initialize' && method !== 'shutdown');
  expect([...Object.keys(large), ...quick, chosen].sort()).toEqual(methods.sort());
});

describe('with slices of one step each', () => {
  let now = 0;
  // A clock that is a second later whenever it is asked ends each slice after its first step, on any machine.
  beforeEach(() => void vi.spyOn(performance, 'now').mockImplementation(() => (now += 1000)));
  afterEach(() => void vi.restoreAllMocks());

  const opened = async (): Promise<{ editor: Editor; document: Opened }> => {
    const editor = await startEditor({
      initialize: {
        capabilities: { textDocument: { codeAction: { dataSupport: true, resolveSupport: { properties: ['edit'] } } } },
      },
    });
    const document = await editor.open('a.lug', text);
    await editor.diagnostics(document.uri);
    return { editor, document };
  };

  /** Turns of the loop until the answer comes, and which of it and of a hover that was asked afterwards came first. */
  async function tried({ editor, document }: { editor: Editor; document: Opened }, method: string, params: object) {
    const order: string[] = [];
    const asked = editor.ask(method, params).then((answer) => {
      order.push('answer');
      return answer;
    });
    const counted = turnsUntil(asked);
    // On a part's type, of which nothing has to be solved.
    const lines = text.split('\n');
    const line = lines.findIndex((one) => one.startsWith('part '));
    const position = { line, character: lines[line]!.indexOf(': ') + 3 };
    const hover = editor.ask('textDocument/hover', { ...document.id, position }).then(() => order.push('hover'));
    const answer = await asked;
    await hover;
    return { answer, turns: await counted, order };
  }

  test.each(Object.entries(large))('%s', async (method, { params, turns: least }) => {
    const { editor, document } = await opened();
    const { answer, turns, order } = await tried({ editor, document }, method, { uri: document.uri, ...document.id, ...params });
    expect(answer).not.toBeNull();
    expect(turns).toBeGreaterThanOrEqual(least);
    expect(order).toEqual(['hover', 'answer']);
  });

  test('the edits of actions that are worked out when they are chosen', async () => {
    const { editor, document } = await opened();
    const start = { line: text.split('\n').findIndex((line) => line.startsWith('instrument')), character: 0 };
    const context = { diagnostics: [], only: ['refactor'] };
    const asked = { ...document.id, range: { start, end: start }, context };
    const actions = await editor.ask<(CodeAction & { data: { make: string } })[]>('textDocument/codeAction', asked);
    const deferred = actions.filter(({ edit }) => edit === undefined);
    expect(deferred.map(({ data }) => data.make)).toContain('write-expectations');
    for (const action of deferred) {
      expect(Object.keys(deferredActions)).toContain(action.data.make);
      const { turns, order } = await tried({ editor, document }, chosen, action);
      // Names of positions and patterns ask for few settings, or for none.
      if (action.data.make !== 'write-expectations') continue;
      expect(turns).toBeGreaterThanOrEqual(20);
      expect(order).toEqual(['hover', 'answer']);
    }
  });

  test('a hover that has much to solve takes as many turns beside a comparison as by itself', async () => {
    const { editor, document } = await opened();
    const line = text.split('\n').findIndex((one) => one.startsWith('part tone1-cap '));
    const turnsOfHover = (): Promise<number> =>
      turnsUntil(editor.ask('textDocument/hover', { ...document.id, position: { line, character: 6 } }));
    const alone = await turnsOfHover();
    expect(alone).toBeGreaterThan(40);
    const compared = editor.ask('lugwork/compare', { uri: document.uri, before });
    expect(await turnsOfHover()).toBeLessThan(alone + 15);
    await compared;
  });

  test('opening a text: a hover on another document is answered before it is checked', async () => {
    const { editor, document } = await opened();
    const order: string[] = [];
    const second = await editor.open('b.lug', text.replace('part master', 'part other\npart master'));
    const checked = editor.diagnostics(second.uri).then(() => order.push('checked'));
    const hover = editor.ask('textDocument/hover', { ...document.id, position: { line: 1, character: 6 } });
    await hover.then(() => order.push('hover'));
    await checked;
    expect(order).toEqual(['hover', 'checked']);
  });
});

/** Turns of the loop until an answer comes. */
async function turnsUntil(answer: Promise<unknown>): Promise<number> {
  let turns = 0;
  let isAnswered = false;
  const count = (): void => {
    turns++;
    if (!isAnswered) setImmediate(count);
  };
  setImmediate(count);
  await answer;
  isAnswered = true;
  return turns;
}
