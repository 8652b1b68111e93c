/** The outline through the protocol. */
import type { DocumentSymbol, Range } from 'vscode-languageserver-protocol';
import { expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor } from './harness.js';

/** `name (detail)` with what lies inside indented. */
function drawn(symbols: readonly DocumentSymbol[], indent = ''): string[] {
  return symbols.flatMap(({ name, detail, children }) => [
    `${indent}${name}${detail ? ` (${detail})` : ''}`,
    ...drawn(children ?? [], `${indent}  `),
  ]);
}

function holds(outer: Range, inner: Range): boolean {
  const at = ({ line, character }: Range['start']) => line * 10_000 + character;
  return at(outer.start) <= at(inner.start) && at(inner.end) <= at(outer.end);
}

async function outline(source: string): Promise<DocumentSymbol[]> {
  const editor = await startEditor();
  const document = await editor.open('a.lug', source);
  const symbols = await editor.ask<DocumentSymbol[]>('textDocument/documentSymbol', document.id);
  const check = (symbol: DocumentSymbol): void => {
    expect(symbol.name).not.toBe('');
    expect(holds(symbol.range, symbol.selectionRange), symbol.name).toBe(true);
    symbol.children?.forEach(check);
  };
  symbols.forEach(check);
  expect(editor.log).toEqual([]);
  return symbols;
}

test('parts, wires and expectations under headings of their own', async () => {
  expect(drawn(await outline(twoPickups()))).toEqual([
    'Alder Lane no. 61',
    'Parts (8)',
    '  bridge (single-coil 6.9k 2.9H 120pF)',
    '  neck (single-coil 6.2k 2.4H 110pF)',
    '  selector (lever-3)',
    '    bridge',
    '    both',
    '    neck',
    '  volume (pot 250k audio)',
    '  tone (pot 250k audio)',
    '  tone-cap (capacitor 22nF film)',
    '  saddle (bridge-ground)',
    '  output (jack)',
    'Wires (13)',
    '  bridge.hot to selector.A1',
    '  neck.hot to selector.B3',
    '  selector.A1 to selector.A2',
    '  selector.B3 to selector.B2',
    '  selector.A0 to selector.B0 to volume.3 yellow 22awg',
    '  volume.3 to tone.2',
    '  volume.2 to output.tip white',
    '  volume.1 to volume.case (solder)',
    '  bridge.ground to volume.case',
    '  neck.ground to volume.case',
    '  selector.frame to volume.case black',
    '  saddle to volume.case black',
    '  volume.case to tone.case to output.sleeve black',
    'Expectations (4)',
    '  selector "bridge" : sounds bridge, hum present',
    '  selector "both" : sounds parallel(neck, bridge), hum cancelled',
    '  selector "neck" : sounds neck, reads 6.05k within 15%',
    '  volume 0 : silent',
  ]);
});

test('a part whose name does not say what it is for shows its role', async () => {
  expect(drawn(await outline('part v1 : pot 250k audio\npart volume : pot 250k audio\npart x : pot { role preset }\n'))).toEqual([
    'Parts (3)',
    '  v1 (pot 250k audio · volume)',
    '  volume (pot 250k audio)',
    '  x (pot · preset)',
  ]);
});

test('types with what they are made of, and everything else that a text may hold', async () => {
  const symbols = drawn(
    await outline(`use "house.lug"
type slide : switch {
  lugs A0 A1
  positions "play" "mute"
  at "play" joins A0 A1
}
type bleed : assembly {
  lugs top bottom
  part c : capacitor 680pF from top to bottom
}
part a, b : pot
cavity main shield
channel main to main 85mm
plate top in main metal { a }
place b in main
rig { cable 3m }
measured : reads 6k
allow crowded-lug on a "short wires"
`),
  );
  expect(symbols).toEqual([
    'rig ({ cable 3m })',
    'Other files (1)',
    '  house.lug',
    'Types (2)',
    '  slide (switch)',
    '    A0',
    '    A1',
    '    play',
    '    mute',
    '  bleed (assembly)',
    '    top',
    '    bottom',
    '    c',
    'Parts (2)',
    '  a (pot)',
    '  b (pot)',
    'Cavities and plates (4)',
    '  main (cavity)',
    '  channel main to main 85mm',
    '  top (plate)',
    '  place b in main',
    'Readings (1)',
    '  : reads 6k',
    'Set aside (1)',
    '  crowded-lug (short wires)',
  ]);
});

test('half a text has an outline as well', async () => {
  const names = drawn(await outline('instrument\npart\npart x :\nwire\ntype {\n  lugs\nexpect\nallow\nuse\ncavity\nplate\n'));
  expect(names.length).toBeGreaterThan(3);
});
