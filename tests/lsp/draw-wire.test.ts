/** Wires drawn with the hand: what is written into the text, in its columns, and what is refused. */
import { describe, expect, test } from 'vitest';
import type { DrawnEdits } from '../../server/protocol.js';
import { formatText } from '../../language/grammar/index.js';
import { startEditor } from './harness.js';

const circuit = formatText(`instrument "Alder Lane no. 243"
type pair : assembly { lugs top bottom
part c : capacitor 680pF from top to bottom }
part neck : single-coil 6k
part volume : pot 250k
part bleed : pair from volume.3 to volume.2
part out : jack
wire neck.hot to volume.3 white
wire volume.2 to out.tip
wire neck.ground to volume.1 to out.sleeve // all grounds
solder volume.1 to volume.case
expect : sounds neck
`);

async function drawn(from: string, to: string, other?: string): Promise<string | undefined> {
  const editor = await startEditor();
  const { uri } = await editor.open('a.lug', circuit);
  const answer = await editor.ask<DrawnEdits>('lugwork/drawWire', { uri, from, to, ...(other === undefined ? {} : { other }) });
  expect(editor.log).toEqual([]);
  if ('refused' in answer) return answer.refused;
  const edits = answer.edits.map(({ range, text }) => ({ range, newText: text }));
  return editor.applied({ changes: { [uri]: edits } })[uri];
}

describe('a wire from lug to lug', () => {
  test('is written behind the last wire, in its columns', async () => {
    const text = await drawn('lug:out.sleeve', 'lug:volume.case');
    expect(text).toBe(formatText(text!));
    expect(text!.replace(/ +/g, ' ')).toContain('to out.sleeve // all grounds\nwire out.sleeve to volume.case\n');
  });

  test.each<[string, string, string]>([
    ['joined', 'lug:neck.hot', 'lug:volume.3'],
    ['joined', 'lug:volume.3', 'lug:neck.hot'],
    ['same', 'lug:neck.hot', 'lug:neck.hot'],
    ['gone', 'lug:neck.hot', 'lug:middle.hot'],
    ['inside', 'lug:neck.hot', 'lug:bleed.c.a'],
  ])('is refused where it is %s', async (why, from, to) => {
    expect(await drawn(from, to)).toBe(why);
  });
});

describe('the end of a wire', () => {
  test('goes to another lug, and the rest of its line stays', async () => {
    const text = await drawn('lug:volume.3', 'lug:volume.2', 'lug:neck.hot');
    expect(text!.replace(/ +/g, ' ')).toContain('wire neck.hot to volume.2 white\n');
    expect(text).toBe(formatText(text!));
  });

  test('in the middle of a wire with three ends too', async () => {
    const text = await drawn('lug:volume.1', 'lug:volume.case', 'lug:neck.ground');
    expect(text!.replace(/ +/g, ' ')).toContain('wire neck.ground to volume.case to out.sleeve // all grounds\n');
  });

  test('of a direct joint', async () => {
    const text = await drawn('lug:volume.case', 'lug:volume.2', 'lug:volume.1');
    expect(text!.replace(/ +/g, ' ')).toContain('solder volume.1 to volume.2\n');
  });

  test.each<[string, string, string, string]>([
    ['same', 'lug:volume.3', 'lug:neck.hot', 'lug:neck.hot'],
    ['joined', 'lug:volume.2', 'lug:neck.ground', 'lug:volume.1'],
    ['elsewhere', 'lug:out.tip', 'lug:neck.hot', 'lug:volume.case'],
  ])('is refused where it is %s', async (why, from, to, other) => {
    expect(await drawn(from, to, other)).toBe(why);
  });
});
