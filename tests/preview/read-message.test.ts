/** Both sides of the panel believe only what has the form of the protocol. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readMessage as readFromPanel } from '../../extension/preview/read-message.js';
import { readMessage as readToPanel, readView } from '../../extension/preview/webview/read-message.js';
import { root } from '../harness/checkout.js';
import { messagesOf } from './messages.js';

test('what the extension makes of a circuit is believed as it is, even where it is silent', async () => {
  const text = readFileSync(join(root, 'tests/editor/workspace/two-pickups.lug'), 'utf8');
  const others = [
    { kind: 'banner', text: '' },
    { kind: 'cursor', ids: ['lug:volume.3'] },
    { kind: 'findings', findings: [{ number: 0, severity: 'error', message: 'x', ids: [] }] },
    { kind: 'about', id: 'part:volume', about: { hover: ['x'], findings: [], fixes: [{ finding: 0, title: 'x' }] } },
    { kind: 'suspects', search: { suspects: [{ says: 'x', ids: ['lug:volume.3'] }] } },
    { kind: 'export', format: 'png' },
  ];
  const silent = await messagesOf(text, { positions: {}, rotations: { volume: 0 } });
  for (const message of [...silent, ...others])
    // As it comes from the server: written and read again.
    expect(readToPanel(JSON.parse(JSON.stringify(message)))).toEqual(JSON.parse(JSON.stringify(message)));
});

test.each([
  undefined,
  null,
  'ready',
  {},
  { kind: 'toString' },
  { kind: 'picture' },
  { kind: 'picture', scene: { version: 2 }, controls: [], remarks: [] },
  { kind: 'played', at: { positions: {}, rotations: {} }, highlight: { states: {}, says: 'x' }, curve: { hz: [1, 2], db: [1] } },
  { kind: 'cursor', ids: [1] },
  { kind: 'findings', findings: [{ message: 'x' }] },
  { kind: 'suspects', search: { suspects: [{ says: 1, ids: [] }] } },
  { kind: 'export', format: 'pdf' },
])('the panel passes over %j', (value) => expect(readToPanel(value)).toBeUndefined());

test.each([
  { kind: 'ready' },
  { kind: 'go', id: 'lug:a.b' },
  { kind: 'goFinding', finding: 2 },
  { kind: 'ask', id: 'part:a' },
  { kind: 'fix', finding: 0, title: 'write ground' },
  { kind: 'rename', id: 'part:a' },
  { kind: 'wire', from: 'lug:a.b', to: 'lug:c.d' },
  { kind: 'wire', from: 'lug:a.b', to: 'lug:c.d', other: 'lug:e' },
  { kind: 'reading', line: 'measured : reads …', text: '6k' },
  { kind: 'set', at: { positions: { s: '2' }, rotations: { v: 3 } } },
  { kind: 'look', side: 'player', grounds: 'marks' },
  { kind: 'exported', format: 'svg', text: '<svg xmlns="x"></svg>' },
  { kind: 'exported', format: 'png', bytes: new Uint8Array([0x89]) },
  { kind: 'failed', message: 'x' },
])('the extension believes %j', (value) => expect(readFromPanel(value)).toEqual(value));

test.each([
  undefined,
  7,
  { kind: 'constructor' },
  { kind: 'go', id: 3 },
  { kind: 'goFinding', finding: -1 },
  { kind: 'fix', finding: 0.5, title: 'x' },
  { kind: 'wire', from: 'lug:a.b' },
  { kind: 'reading', line: 3, text: '6k' },
  { kind: 'look', side: 'above', grounds: 'auto' },
  { kind: 'exported', format: 'svg', text: '#!/bin/sh' },
  { kind: 'exported', format: 'png', bytes: 'x' },
])('the extension passes over %j', (value) => expect(readFromPanel(value)).toBeUndefined());

test('of a message only what belongs to it comes through, and controls only as far as they are some', () => {
  expect(readFromPanel({ kind: 'ready', more: 1 })).toEqual({ kind: 'ready' });
  expect(readFromPanel({ kind: 'set', at: { positions: { s: 2 }, rotations: { v: 1, w: 'x' } } })).toEqual({
    kind: 'set',
    at: { positions: {}, rotations: { v: 1 } },
  });
});

test('a window that was kept is one, or the panel chooses', () => {
  expect(readView('whole')).toBe('whole');
  expect(readView({ x: 1, y: 2, width: 3, height: 4, more: 5 })).toEqual({ x: 1, y: 2, width: 3, height: 4 });
  expect([null, 'all', { x: 1 }, { x: 0, y: 0, width: 0, height: 1 }].map(readView)).toEqual(Array(4).fill(undefined));
});
