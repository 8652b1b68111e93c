/** Growing a selection through the protocol. */
import type { SelectionRange } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor } from './harness.js';

/** What is selected step by step, from the cursor outwards. */
async function grown(source: string): Promise<string[]> {
  const editor = await startEditor();
  const document = await editor.open('a.lug', source);
  const [found] = await editor.ask<SelectionRange[]>('textDocument/selectionRange', {
    ...document.id,
    positions: document.places,
  });
  const text = TextDocument.create('', 'lugwork', 0, document.text);
  const steps: string[] = [];
  for (let step: SelectionRange | undefined = found; step !== undefined; step = step.parent) steps.push(text.getText(step.range));
  return steps;
}

test('word, lug, wire, paragraph, file', async () => {
  const steps = await grown(twoPickups({ 'volume.2       to output.tip white': 'volume.2       to out<|>put.tip white' }));
  expect(steps.slice(0, 4)).toEqual(['', 'output', 'output.tip', 'wire volume.2       to output.tip white']);
  expect(steps[4]).toMatch(/^wire bridge\.hot[^]*output\.sleeve black$/);
  expect(steps[5]).toBe(twoPickups());
  expect(steps).toHaveLength(6);
});

test('property, part', async () => {
  const steps = await grown(twoPickups({ 'wound reverse': 'wound re<|>verse' }));
  expect(steps.slice(0, 4)).toEqual([
    '',
    'reverse',
    'wound reverse',
    'part bridge   : single-coil 6.9k 2.9H 120pF { wound reverse, magnet south }',
  ]);
});

test('arrangement, claim, expectation', async () => {
  const steps = await grown(twoPickups({ 'parallel(neck,': 'parallel(ne<|>ck,' }));
  expect(steps.slice(0, 5)).toEqual([
    '',
    'neck',
    'parallel(neck, bridge)',
    'sounds parallel(neck, bridge)',
    'expect selector "both"   : sounds parallel(neck, bridge), hum cancelled',
  ]);
});

test('a statement in a body, the type, an empty text', async () => {
  expect(await grown('type t : switch {\n  lugs A0 A<|>1\n}\n')).toEqual([
    '',
    'A1',
    'lugs A0 A1',
    'type t : switch {\n  lugs A0 A1\n}',
    'type t : switch {\n  lugs A0 A1\n}\n',
  ]);
  expect(await grown('<|>')).toEqual(['']);
});
