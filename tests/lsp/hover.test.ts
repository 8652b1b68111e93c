/** Hover, through the protocol. Figures are worked by hand or come from the standard that is named. */
import type { Hover, MarkupContent } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { libraryText } from '../../language/parts/index.js';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor, type Opened } from './harness.js';

async function hoverOn(editor: Editor, document: Opened, mark = 0): Promise<string> {
  const hover = await editor.ask<Hover | null>('textDocument/hover', document.at(mark));
  return hover === null ? '' : (hover.contents as MarkupContent).value;
}

type Case = readonly [what: string, marks: Readonly<Record<string, string>>, told: readonly (string | RegExp)[]];

async function tells(source: string, reported: readonly (string | RegExp)[]): Promise<void> {
  const editor = await startEditor();
  const text = await hoverOn(editor, await editor.open('a.lug', source));
  for (const expected of reported) {
    if (typeof expected === 'string') expect(text).toContain(expected);
    else expect(text).toMatch(expected);
  }
  expect(editor.log).toEqual([]);
}

describe('a part', () => {
  test.each<Case>([
    // 6K2: letter code of IEC 60062. Heard where the lever's second and third throws are wired.
    [
      'pickup: its values, resonance, where it is heard',
      { 'part neck ': 'part ne<|>ck ' },
      [
        '| `neck` | `single-coil` |',
        '| resistance | 6.2 kΩ (6K2) |',
        '| inductance | 2.4 H |',
        '| capacitance | 110 pF (110p, 111) |',
        // 1/(2π√(2.4 H · 110 pF)) = 9.795 kHz.
        /peak alone \| 9\.79 kHz/,
        '| heard | at `selector "both"`, `selector "neck"` |',
      ],
    ],
    [
      'pot: what it does and takes',
      { 'part volume ': 'part vol<|>ume ' },
      ['| resistance | 250 kΩ (250K) |', '| taper | audio |', 'silent at 0', /load \| \d.* off the peak of `bridge`/],
    ],
    ['capacitor', { 'part tone-cap ': 'part tone<|>-cap ' }, ['22 nF (22n, 223)', '| kind | film |', 'takes treble to ground']],
    [
      'switch: a row a position',
      { 'part selector ': 'part selec<|>tor ' },
      // 6.9 k ∥ 6.2 k ∥ 250 k = 3.22 k; 6.2 k ∥ 250 k = 6.05 k.
      ['| `both` | parallel(bridge, neck), hum cancelled | 3.22 kΩ', '| `neck` | neck, hum present | 6.05 kΩ'],
    ],
    [
      'its doc comment',
      { 'part saddle ': '/** The strings’ *own* ground. */\npart sad<|>dle ' },
      ['The strings’ \\*own\\* ground.', '`bridge-ground`'],
    ],
  ])('%s', async (_, marks, reported) => tells(twoPickups(marks), reported));

  test('pickup with losses: the model with its K, and the inductance that acts at the peak', async () => {
    const losses = 'loss-exponent 0.94, eddy-inductance 25%, eddy-resistance 30k, loss 1M, cover-shading 40%';
    await tells(`part <|>p : humbucker 8k 4H 120pF { ${losses}, coupling 15% }\n`, [
      // K = 3 H · (2π · 120 Hz)^0.06 / sin(0.94 · 90°) = 4.484.
      '| model | R + (K (jω)^n + (jωLe ∥ Re)) ∥ P: n 0.94, K 4.484 Ω·s^n, Le 1 H, Re 30 kΩ, P 1 MΩ |',
      // 30 kΩ / (2π · 1 H) = 4.77 kHz.
      '| cover | takes up to 40 % of the voltage, from about 4.77 kHz up |',
      /\| acting inductance \| [23]\.\d+ H at [\d.]+ kHz, the peak on the lead; a meter at 120 Hz reads 4 H \|/,
    ]);
    await tells('part p : humbucker { loss-exponent 0.9 }\npart j : jack\nexpect : sounds p.nor<|>th\n', [
      // Half of 4.4 H: 2.2 H · (2π · 120 Hz)^0.1 / sin(0.9 · 90°) = 4.321.
      '| model | R + K (jω)^n: n 0.9, K 4.321 Ω·s^n |',
    ]);
  });

  test('pickup with a resonance: the inductance that was found, and why it is the better one', async () => {
    await tells('part <|>p : single-coil 7k 110pF { resonance 3.1kHz, resonance-load 500pF }\n', [
      // 7000² · 610 pF / (1 − √(1 − 2 (7000 · 610 pF · 2π · 3100)²)) = 4.306 H, see tests/circuit/pickup-losses.test.ts.
      '| inductance | 4.31 H |',
      '| resonance | 3.1 kHz |',
      '| inductance from | the peak at 3.1 kHz with 500 pF. Core losses lower the inductance towards the peak',
    ]);
    await tells('part p : single-coil 7k { reson<|>ance 3.1kHz, resonance-load 500pF }\n', [
      '| here | 3.1 kHz |',
      'core losses lower the inductance that acts at the peak below what a meter reads at 120 Hz.',
    ]);
  });

  test('says what it and its lugs are for, and why', async () => {
    const editor = await startEditor();
    const text = twoPickups({ 'part volume ': 'part vol<|>ume ' });
    expect(await hoverOn(editor, await editor.open('a.lug', text))).toContain('| for | volume: 3 input, 2 output, 1 ground |');
    expect(await hoverOn(editor, await editor.open('b.lug', text))).toContain('| because | it is called volume; ');
    const wired = twoPickups({ 'volume.3 yellow': 'volume.<|>3 yellow' });
    expect(await hoverOn(editor, await editor.open('c.lug', wired))).toContain('| for | input of the volume |');
  });

  test('shows the points of a measured taper', async () => {
    const [part, property] = ['part vol<|>ume ', 'part volume '].map((start) =>
      twoPickups({ 'part volume ': start }).replace(
        /(part [a-z<|>]+ *: pot 250k) audio/,
        '$1 { taper "0 0%, 50 16%, 100 100%" }',
      ),
    ) as [string, string];
    await tells(part, ['| taper | 0 0%, 5 16%, 10 100% |']);
    await tells(property.replace('{ taper', '{ ta<|>per'), [
      '| here | 0 0%, 5 16%, 10 100% |',
      'measured points in quotes, "0 0%, 5 15%, 10 100%": rotation',
    ]);
  });

  test('says what a place on the string is for', async () => {
    await tells(twoPickups({ '{ wound reverse': '{ from-br<|>idge 165mm, wound reverse' }), [
      '| `from-bridge` | of `single-coil` |',
      'Distance from the bridge to the middle of the pickup',
    ]);
  });

  test('says how it is usually wired, and which lugs depart from that', async () => {
    const lever =
      '| A lever with three positions and two pickups: each has a pole, with a jumper to the throw in the middle, where both sound.';
    const selector = { 'part selector ': 'part sel<|>ector ' };
    await tells(twoPickups(selector), [`| wired as usual ${lever}`]);
    await tells(twoPickups({ ...selector, 'wire selector.A1    to selector.A2\n': '' }), [
      `| departs from ${lever}`,
      'Here nothing is soldered to selector.A2, where the input usually is.',
    ]);
    await tells(twoPickups({ 'part tone-cap ': 'part tone<|>-cap ' }), ['| wired as usual | A tone capacitor that lies between']);
    await tells(twoPickups({ 'part saddle ': 'part sad<|>dle ' }), ['| wired as usual | Ground laid as a chain: ']);
  });

  test('of unknown value or type', async () => {
    await tells('part <|>p : single-coil ?\n', ['| resistance | not known yet |']);
    await tells('part <|>p : thing\nwire p.a to p.b\n', ['| `p` | thing (unknown) |', '`a`, `b`']);
  });
});

describe('a lug', () => {
  test.each<Case>([
    [
      'its net, joints, resistance to ground, and the positions that join it',
      { 'wire selector.A0 ': 'wire selector.A<|>0 ' },
      [
        '| `selector.A0` | lug of `selector` |',
        '| `selector.B0` | yellow 22 AWG wire |',
        // The bridge pickup of 6.9 k in parallel to the volume's 250 k: 6.71 k.
        '| DC to ground | 6.71 kΩ',
        '| `selector` `both` | `selector.A2`, `selector.B2` |',
      ],
    ],
    [
      'metal on ground',
      { 'wire neck.ground    to volume.case': 'wire neck.ground    to volume.c<|>ase' },
      ['metal of `volume`', '| net | ground |', '| `volume.1` | solder |'],
    ],
    [
      'nothing soldered',
      { 'expect volume 0 ': 'allow unwired-part on selector.A<|>3 "x"\nexpect volume 0 ' },
      ['Nothing is soldered to it.'],
    ],
  ])('%s', async (_, marks, reported) => tells(twoPickups(marks), reported));

  test('left, middle and right of a pot answer with the number', async () => {
    const from = {
      'pot 250k audio\npart tone  ': 'pot 250k audio { seen back }\npart tone  ',
      'wire volume.2 ': 'wire volume.mid<|>dle ',
    };
    await tells(twoPickups(from), ['| `volume.2` |', '`middle` is lug `2`']);
    // Seen from the back, lugs down, 1 2 3 stand from right to left.
    await tells(twoPickups({ ...from, 'wire volume.2 ': 'wire volume.2 ', 'solder volume.1 ': 'solder volume.ri<|>ght ' }), [
      '`right` is lug `1`',
    ]);
  });
});

describe('a wire', () => {
  test.each<Case>([
    [
      'its runs',
      { 'wire selector.A0 ': 'w<|>ire selector.A0 ' },
      ['`selector.A0` to `selector.B0` | yellow 22 AWG wire', '`selector.B0` to `volume.3`', '0.644 mm across', '53 mΩ a metre'],
    ],
    [
      'one run with its length',
      { 'to output.tip white': 't<|>o output.tip white shielded 30cm 24awg' },
      // 84.2 Ω a kilometre of 24 AWG (handbook); 30 pF a foot of shielded wire.
      [
        '`volume.2` to `output.tip` | shielded white 24 AWG wire',
        '| length | 300 mm |',
        '| resistance | 25.3 mΩ |',
        '| capacitance | about 30 pF |',
      ],
    ],
    [
      'a shielded run whose capacitance counts',
      {
        'to output.tip white':
          't<|>o output.tip white shielded screen to output.sleeve 30cm\nbuild { shielded-capacitance 150pF }',
      },
      // 0.3 m at 150 pF a metre.
      ['| length | 300 mm |', '| capacitance | 45 pF from core to screen, at 150 pF a metre |'],
    ],
    [
      'a shielded run of no stated length',
      { 'to output.tip white': 't<|>o output.tip white shielded screen to output.sleeve\nbuild { shielded-capacitance 150pF }' },
      ['| capacitance | not counted: state the length of the wire |'],
    ],
    [
      'a shielded run whose screen is connected nowhere',
      { 'to output.tip white': 't<|>o output.tip white shielded 30cm\nbuild { shielded-capacitance 150pF }' },
      ['| capacitance | not counted: the screen is not connected |'],
    ],
    [
      'a direct joint',
      { 'solder volume.1 ': 'sol<|>der volume.1 ' },
      ['`volume.1` to `volume.case` | solder', '| net | `ground` |'],
    ],
    ['a colour', { 'output.tip white': 'output.tip whi<|>te' }, ['| IEC 60757 | `WH` |']],
  ])('%s', async (_, marks, reported) => tells(twoPickups(marks), reported));
});

describe('positions, expectations, values, types, properties, rules', () => {
  test.each<Case>([
    [
      'a position',
      { 'expect selector "both"': 'expect selector "bo<|>th"' },
      [
        '| `selector` 2 | `both` |',
        '`selector.A0` `selector.A2`',
        '| sounds | parallel(bridge, neck), hum cancelled |',
        '| reads | 3.22 kΩ',
        '| peak | ',
      ],
    ],
    ['a position by its number', { 'expect selector "both"': 'expect selector <|>2' }, ['| `selector` 2 | `both` |']],
    ['an expectation that holds', { 'expect volume 0 ': 'exp<|>ect volume 0 ' }, ['| `silent` | met |']],
    [
      'one that does not',
      { 'sounds bridge, hum present': 'sou<|>nds neck, hum present' },
      ['| `sounds neck` | not met: only bridge is heard', '| `hum present` | met |'],
    ],
    [
      'one about several settings',
      { 'expect volume 0 ': 'exp<|>ect volume 5 ' },
      ['not met', '(at `selector "bridge", volume 5`)'],
    ],
    // IEC 60062 and 60063.
    ['a value of E12', { 'capacitor 22nF': 'capacitor 22<|>nF' }, ['`22nF` | 22 nF', '`22n`', '`223`', 'in E12']],
    ['a value outside', { 'single-coil 6.2k': 'single-coil 6.<|>3k' }, ['`6K3`', 'nearest in E12 6.8 kΩ, in E24 6.2 kΩ']],
    ['a letter code', { 'single-coil 6.2k': 'single-coil 6k<|>2' }, ['6.2 kΩ', 'in E24']],
    ['a gauge', { 'volume.3 yellow 22awg': 'volume.3 yellow 22a<|>wg' }, ['0.644 mm', '53 mΩ a metre']],
    [
      'a type',
      { 'selector : lever-3': 'selector : lev<|>er-3' },
      ['| `lever-3` | `switch` |', '| `2` | `A0`, `A2`; `B0`, `B2` |', '| metal | `frame` |'],
    ],
    [
      'a property',
      { 'wound reverse': 'wou<|>nd reverse' },
      ['| `wound` | of `single-coil` |', '**forward**, reverse', '| here | reverse |'],
    ],
    [
      'a rule',
      { 'expect volume 0 ': 'allow loose-le<|>ad "x"\nexpect volume 0 ' },
      ['| `loose-lead` | error |', "A pickup's lead"],
    ],
  ])('%s', async (_, marks, reported) => tells(twoPickups(marks), reported));

  test('a coil, a cavity, a plate', async () => {
    const text =
      'part p : humbucker-4\ncavity c shield\nplate top in <|>c metal size 120 60 { p }\nexpect : sounds p.nor<|>th\nwire to<|>p to c\n';
    const editor = await startEditor();
    const document = await editor.open('a.lug', text);
    expect(await hoverOn(editor, document, 0)).toContain('| cavity `c` | shielded |');
    expect(await hoverOn(editor, document, 1)).toContain('coil `north` of `p`');
    expect(await hoverOn(editor, document, 2)).toMatch(
      /plate `top` \| metal \|\n.*\n\| size \| 120 mm × 60 mm \|\n\| carries \| `p`/,
    );
  });

  test('inside an opened standard part', async () => {
    const editor = await startEditor();
    const text = libraryText('lugwork:/parts/controls.lug')!.replace('type pot-no-load : pot ', 'type pot-no-load : p<|>ot ');
    expect(await hoverOn(editor, await editor.open('lugwork:/parts/controls.lug', text))).toContain('| `pot` | `control` |');
  });
});

test('nothing is told of comments, empty lines and closed files', async () => {
  const editor = await startEditor();
  const document = await editor.open(
    'a.lug',
    twoPickups({ 'Two single-coils': 'Two <|>single-coils', '\n\npart bridge': '\n<|>\npart bridge' }),
  );
  expect(await hoverOn(editor, document, 0)).toBe('');
  expect(await hoverOn(editor, document, 1)).toBe('');
  expect(
    await editor.ask('textDocument/hover', { textDocument: { uri: 'memory:/no.lug' }, position: document.places[0] }),
  ).toBeNull();
});
