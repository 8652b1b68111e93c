/** Completion through the protocol: what is offered first, what is offered at all, and that what is taken fits. */
import type { CompletionItem, CompletionList, TextEdit } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { parseText, statementWords } from '../../language/grammar/index.js';
import { findings } from '../../language/findings.js';
import { createProject } from '../../language/project.js';
import { templates, wholeCircuit } from '../../server/lsp/completion/templates.js';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor, type Opened } from './harness.js';

interface Offered {
  readonly editor: Editor;
  readonly document: Opened;
  readonly items: readonly CompletionItem[];
  readonly isIncomplete: boolean;
  readonly labels: readonly string[];
}

/** The list at the mark, in the order in which an editor shows it. */
async function offered(source: string, context: unknown = { triggerKind: 1 }): Promise<Offered> {
  const editor = await startEditor({ files: { 'parts/house.lug': '', 'b.lug': '' } });
  const document = await editor.open('a.lug', source);
  const found = await editor.ask<CompletionList | null>('textDocument/completion', { ...document.at(), context });
  const items = [...(found?.items ?? [])].sort((a, b) => (a.sortText! < b.sortText! ? -1 : 1));
  expect(editor.log).toEqual([]);
  return { editor, document, items, isIncomplete: found?.isIncomplete === true, labels: items.map(({ label }) => label) };
}

/** A circuit with a line put in before its expectations. */
function withLine(line: string): string {
  return twoPickups({ 'black\n\nexpect selector "bridge"': `black\n${line}\n\nexpect selector "bridge"` });
}

type Case = readonly [typed: string, first: readonly string[], absent?: readonly string[]];

function cases(list: readonly Case[]) {
  return list.map(([typed, first, absent = []]) => ({ typed, first, absent }));
}

async function offers(
  typed: string,
  first: readonly string[],
  absent: readonly string[],
  put: (line: string) => string,
): Promise<void> {
  const { labels } = await offered(put(typed));
  expect(labels.slice(0, first.length)).toEqual(first);
  for (const label of absent) expect(labels).not.toContain(label);
}

describe('where a statement begins', () => {
  test('all statements that may stand there are offered, as snippets', async () => {
    const { items, labels } = await offered('<|>\n');
    const words = [...statementWords, wholeCircuit.word, ...templates.map(({ word }) => word)];
    expect([...labels].sort()).toEqual([...words].sort());
    expect(items.every(({ insertTextFormat }) => insertTextFormat === 2)).toBe(true);
  });

  test.each([
    ['a file', '<|>\n', (text: string) => text],
    ['a switch', 'type own : switch {\n  <|>\n}\n', (text: string) => `type own : switch {\n${text}\n}\n`],
    ['a pickup', 'type own : pickup {\n  <|>\n}\n', (text: string) => `type own : pickup {\n${text}\n}\n`],
  ])('each snippet of %s is a statement that can be read', async (_, source, around) => {
    const { items } = await offered(source);
    for (const { label, textEdit } of items) {
      const written = fillIn(textEdit!.newText);
      // What is claimed is chosen last.
      const whole = label === 'expect' ? `${written}neck` : written;
      expect([label, parseText('', around(whole)).problems]).toEqual([label, []]);
    }
  });

  test('whole pieces only where a statement begins, a whole circuit only in an empty file', async () => {
    expect((await offered('<|>\n')).labels).toContain('circuit');
    expect((await offered(withLine('<|>'))).labels).toContain('volume');
    expect((await offered(withLine('<|>'))).labels).not.toContain('circuit');
    const pieces = new Set(templates.map(({ text }) => text));
    for (const line of ['part x : <|>', 'part x<|>', 'wire <|>', 'expect selector 1 : <|>', 'part x : pot 250k { <|> }']) {
      const { items } = await offered(withLine(line));
      expect(items.filter(({ textEdit }) => pieces.has(textEdit!.newText))).toEqual([]);
    }
    const inType = await offered('type own : switch {\n  <|>\n}\n');
    expect(inType.items.filter(({ textEdit }) => pieces.has(textEdit!.newText))).toEqual([]);
  });

  test('a whole circuit with its proposals filled in has no findings', () => {
    const text = fillIn(wholeCircuit.text);
    expect(findings(createProject({ read: () => text }).circuit('untitled:new.lug')!)).toEqual([]);
  });

  test('the type of a part is chosen from all types', async () => {
    const { items } = await offered(withLine('<|>'));
    const text = items.find(({ label }) => label === 'part')!.textEdit!.newText;
    const chosen = /^part \$\{1:name\} : \$\{2\|([^|]*)\|\} \$0$/.exec(text)![1]!.split(',');
    const { items: types } = await offered(withLine('part x : <|>'));
    expect([...chosen].sort()).toEqual(types.map(({ label }) => label).sort());
    expect(chosen[0]).toBe('single-coil');
  });

  test('a title and a rig stand once', async () => {
    const { labels } = await offered(withLine('rig { cable 3m }\n<|>'));
    expect(labels).not.toContain('instrument');
    expect(labels).not.toContain('rig');
    expect(labels).toContain('wire');
  });

  test.each(['wi<|>', 'part<|>', 'w<|>ire neck.'])('while its word is typed: %s', async (line) => {
    const { items, document } = await offered(withLine(line));
    const wire = items.find(({ label }) => label === 'wire')!;
    // What is taken takes the place of the whole word.
    const { range } = wire.textEdit as TextEdit;
    expect(range.start.character).toBe(0);
    expect(range.end.character).toBe(/^\w+/.exec(line.replace('<|>', ''))![0].length);
    expect(range.end.line).toBe(document.places[0]!.line);
  });

  test.each([
    ['switch', ['lugs', 'positions', 'at'], ['expect', 'instrument']],
    ['pickup', ['lugs', 'coil', 'takes'], ['positions', 'track']],
  ])('in the body of a %s', async (base, wanted, absent) => {
    const { labels } = await offered(`type own : ${base} {\n  <|>\n}\n`);
    expect(labels).toEqual(expect.arrayContaining(wanted));
    for (const label of absent) expect(labels).not.toContain(label);
  });
});

describe('a part', () => {
  test('its type, with lugs and docs; one’s own types first', async () => {
    const { items, labels, editor } = await offered(`type own : switch { lugs A B }\n${withLine('part x : <|>')}`);
    expect(labels[0]).toBe('own');
    const lever = items.find(({ label }) => label === 'lever-3')!;
    expect(lever.detail).toBe('A0 A1 A2 A3 B0 B1 B2 B3 frame');
    expect(lever.documentation).toBeUndefined();
    const resolved = await editor.ask<CompletionItem>('completionItem/resolve', lever);
    expect((resolved.documentation as { value: string }).value).toContain('| `2` | `A0`, `A2`; `B0`, `B2` |');
  });

  // Common practice: what luthiers call their parts.
  test.each([
    ['sel', /^(lever|rotary|toggle|slide|mini|spst|push)/],
    ['neck', /^(single-coil|humbucker)/],
    ['bridge', /^(single-coil|humbucker)/],
    ['bass-volume', /^pot/],
    ['saddle', /^(single-coil|humbucker|piezo|bridge-ground|star)/],
    ['out', /^jack/],
    ['tone-cap', /^capacitor/],
    ['mini-toggle', /^(mini|toggle)/],
  ])('first come the types that the name %s speaks for', async (name, wanted) => {
    const { labels } = await offered(`${withLine(`part ${name} : <|>`)}`);
    expect(labels[0]).toMatch(wanted);
    // Nothing else comes between them.
    const all = labels.filter((label) => wanted.test(label));
    expect(labels.slice(0, all.length)).toEqual(all);
  });

  test('a lead that has its colour is not offered again; the colour is that of the other pickup', async () => {
    const other = 'part far : single-coil { lead hot white-red 300mm, lead ground green }\n';
    expect((await offered(`${other}part x : single-coil { lead hot black, lead <|> }\n`)).labels).toEqual([
      'ground',
      'cover',
      'base',
    ]);
    const { items, labels } = await offered(`${other}part x : single-coil { lead ground <|> }\n`);
    expect(labels[0]).toBe('green');
    expect(items[0]!.detail).toBe('as on far');
    expect(labels.filter((label) => label === 'green')).toHaveLength(1);
    expect((await offered(`${other}part x : humbucker { lead ground <|> }\n`)).items[0]!.detail).not.toBe('as on far');
  });

  test('names of the positions begin as the type has them', async () => {
    const { items } = await offered('part x : pot-push-pull { <|> }\n');
    expect(items.find(({ label }) => label === 'positions')!.textEdit!.newText).toMatch(/^positions "\$\{1:down\}" "\$\{2:up\}"/);
  });

  test('half a type is taken whole', async () => {
    const { items } = await offered(withLine('part x : lev<|>'));
    expect(items.find(({ label }) => label === 'lever-5')!.textEdit).toMatchObject({
      range: { start: { character: 9 }, end: { character: 12 } },
    });
  });

  test.each(
    cases([
      ['part x : pot <|>', ['linear', 'audio', 'reverse-audio']],
      ['part x : pot 250k <|>', ['linear', 'audio'], ['250k', '500k']],
      ['part x : pot 250k audio <|>', ['right', 'left'], ['linear']],
      ['part x : pot 250k { taper <|>', ['linear', 'audio', 'reverse-audio', '"0 0%, 5 15%, 10 100%"']],
      ['part x : pot 25<|>', ['linear', 'audio', 'reverse-audio', 'right', 'left', '25k', '25M', '25R']],
      ['part x : capacitor 2<|>', ['film', 'ceramic', 'paper', '2nF', '2pF', '2uF', '2V']],
      ['part x : capacitor 22nF f<|>', ['film', 'ceramic']],
      ['part x : resistor 4.<|>', ['4k', '4M', '4R', '4.7k']],
    ]),
  )('$typed', async ({ typed, first: wanted, absent }) => {
    const { labels } = await offered(withLine(typed));
    expect(labels).toEqual(expect.arrayContaining([...wanted]));
    for (const label of absent) expect(labels).not.toContain(label);
  });

  test('a list of values is asked for again at the next digit', async () => {
    expect((await offered(withLine('part x : resistor 4<|>'))).isIncomplete).toBe(true);
    expect((await offered(withLine('part x : res<|>'))).isIncomplete).toBe(false);
  });

  test('a preferred value says its code', async () => {
    const { items } = await offered(withLine('part x : capacitor 2<|>'));
    // 22 nF: 22n by IEC 60062, 223 by three digits.
    expect(items.find(({ label }) => label === '22nF')!.detail).toBe('capacitance, E12, 22n, 223');
  });

  test.each(
    cases([
      ['part x : capacitor 22nF from <|>', ['bridge', 'neck', 'selector', 'volume']],
      ['part x : capacitor 22nF from tone.1 <|>', ['to']],
      ['part x : capacitor 22nF across tone.1 <|>', ['and']],
      ['part x : capacitor 22nF across tone.1 and tone.<|>', ['3']],
      ['part x : single-coil { <|>', ['resistance', 'inductance', 'capacitance', 'wound', 'magnet']],
      ['part x : single-coil { wound <|>', ['forward', 'reverse']],
      ['part x : single-coil { resonance 3kHz, resonance-load <|>', ['500pF', '470pF']],
      ['part x : humbucker { loss-exponent <|>', ['0.94', '0.9']],
      ['part x : humbucker { eddy-resistance 3<|>', ['3k', '3M', '3R']],
      ['part x : single-coil { wound reverse, <|>', ['resistance', 'inductance'], ['wound']],
      ['part x : single-coil {\n    wound reverse\n    <|>\n  }', ['resistance', 'inductance'], ['wound']],
      ['part x : lever-3 { <|>', ['positions']],
      ['part x : single-coil { lead <|>', ['hot', 'ground', 'cover', 'base']],
      ['part x : single-coil { lead hot <|>', ['black', 'brown', 'red']],
      ['part x : jack-stereo { rest <|>', ['empty', 'mono', 'stereo']],
      ['part x : pot 250k { seen <|>', ['front', 'back']],
    ]),
  )('$typed', async ({ typed, first, absent }) => offers(typed, first, absent, withLine));
});

describe('a wire', () => {
  test.each(
    cases([
      ['wire <|>', ['bridge', 'neck', 'selector', 'volume', 'tone', 'tone-cap', 'saddle', 'output', 'selector.A3']],
      ['wire selector.<|>', ['A3', 'B1']],
      ['wire selector.A<|>', ['A3', 'B1']],
      ['wire neck.<|>', ['cover', 'base', 'hot', 'ground']],
      ['wire neck.hot <|>', ['to'], ['black']],
      ['wire neck.hot to <|>', ['bridge', 'neck']],
      ['wire neck.hot to volume.<|>', ['1', '2', '3', 'case']],
      ['wire neck.hot to volume.3 <|>', ['to', 'black', 'brown', 'red']],
      ['wire neck.hot to volume.3 red 2<|>', ['to', '2awg'], ['black']],
      ['wire neck.hot to volume.3 red shielded screen <|>', ['to']],
      ['wire neck.hot to volume.3 shielded screen to <|>', ['bridge', 'neck']],
      ['solder volume.1 to volume.<|>', ['2', '3', 'case'], ['1']],
      ['solder volume.1 to volume.case <|>', ['to'], ['black']],
    ]),
  )('$typed', async ({ typed, first, absent }) => offers(typed, first, absent, withLine));

  test('free lugs come first and say so', async () => {
    const { items } = await offered(withLine('wire selector.<|>'));
    const by = (name: string) => items.find(({ label }) => label === name)!;
    expect(by('A3').detail).toBe('at neck, free');
    expect(by('A1').detail).toBe('at bridge, joined twice');
    expect(by('frame').detail).toBe('metal, joined once');
  });

  test('colours by name and by their letters in IEC 60757', async () => {
    const { items } = await offered(withLine('wire neck.hot to volume.3 <|>'));
    expect(items.find(({ label }) => label === 'yellow')!.detail).toBe('YE');
    expect(items.find(({ label }) => label === 'GN')!.detail).toBe('green');
  });
});

describe('expectations and readings', () => {
  test.each(
    cases([
      ['expect <|>', ['selector', 'volume', 'tone'], ['neck']],
      ['expect selector <|>', ['"bridge"', '"both"', '"neck"']],
      ['expect selector "b<|>', ['"bridge"', '"both"', '"neck"']],
      ['expect volume <|>', ['0', '5', '7', '10']],
      ['expect selector "both", <|>', ['volume', 'tone'], ['selector']],
      // What the circuit does now, then what may be claimed. Nodal analysis of both coils beside 250k, 22 nF + 250k, 1M and 500 pF: a peak at 4938 Hz, a level (the median
      // from 80 Hz to 1.3 kHz) of -0.213 dB, and 3.01 dB less than that at 7795 Hz; 6.9k beside 6.2k and 250k is 3223.5 ohm.
      [
        'expect selector "both" : <|>',
        [
          'sounds parallel(bridge, neck)',
          'hum cancelled',
          'reads 3.22k',
          'peak 4.94kHz',
          'cutoff 7.8kHz',
          'level -0.2dB',
          'sounds',
          'silent',
        ],
      ],
      ['expect selector 3 : sounds <|>', ['neck', 'bridge', 'series', 'parallel', 'reversed']],
      ['expect selector "both" : sounds parallel(<|>', ['bridge', 'neck', 'series']],
      ['expect selector "both" : sounds parallel(bridge, <|>', ['neck', 'series'], ['bridge']],
      ['expect selector "both" : hum <|>', ['cancelled', 'partly', 'present']],
      // 6.2 k beside the volume's 250 k.
      ['expect selector "neck" : reads <|>', ['6.05k', 'open']],
      ['expect selector "neck" : reads 6.05k <|>', ['within']],
      ['expect selector "neck" : reads 6.05k within <|>', ['5%', '10%']],
      ['measured <|>', ['selector', 'volume', 'tone']],
      ['measured between <|>', ['bridge', 'neck']],
      ['measured between neck.hot <|>', ['and']],
      ['measured selector 1 : reads <|>', ['6.71k', 'open', 'short']],
    ]),
  )('$typed', async ({ typed, first, absent }) => offers(typed, first, absent, withLine));

  test('what the circuit does at the jack that the line names', async () => {
    const text =
      'part neck, middle : single-coil 6k\npart volume : pot\npart first, second : jack\nwire neck.hot to first.tip\nwire middle.hot to volume.3\nwire volume.2 to second.tip\nwire neck.ground to middle.ground to volume.1 to first.sleeve to second.sleeve\n';
    expect((await offered(`${text}expect : <|>`)).labels[0]).toBe('sounds neck');
    expect((await offered(`${text}expect at second.tip : <|>`)).labels[0]).toBe('sounds middle');
    expect((await offered(`${text}expect at second.tip, volume 0 : <|>`)).labels[0]).toBe('silent');
  });

  test('bare names of a type, shafts of a part, coils of a pickup', async () => {
    const text = 'part p : humbucker-4\npart v : pot-push-pull\npart c : pot-concentric\npart out : jack\n';
    expect((await offered(`${text}expect v <|>`)).labels.slice(0, 3)).toEqual(['down', 'up', '0']);
    expect((await offered(`${text}expect c.<|>`)).labels).toEqual(['a', 'b']);
    expect((await offered(`${text}expect v up : sounds p.<|>`)).labels).toEqual(['north', 'south']);
  });
});

describe('other statements', () => {
  test.each(
    cases([
      ['allow <|>', []],
      ['allow crowded-lug on <|>', ['bridge', 'neck']],
      ['allow crowded-lug on volume.<|>', []],
      ['allow crowded-lug <|>', ['on', '"why"']],
      ['cavity control <|>', ['shield', 'depth']],
      ['cavity main shield\nchannel <|>', ['main']],
      ['cavity main shield\nplate top in <|>', ['main']],
      ['cavity main\nplate top in main metal <|>', ['shield', 'thick', 'size', '{ }']],
      ['cavity main\nplate top in main metal { <|>', ['bridge', 'neck']],
      ['cavity main\nplate top in main metal { volume <|>', ['at']],
      ['cavity main\nplace volume <|>', ['in']],
      ['cavity main\nplace volume in <|>', ['main']],
      ['instrument "x" { <|>', ['batch', 'hand', 'seen', 'scale', 'tuning']],
      ['instrument "x" { scale <|>', ['648mm']],
      ['instrument "x" { scale 648mm, tuning <|>', ['"E2 A2 D3 G3 B3 E4"']],
      ['rig { <|>', ['cable', 'input']],
      ['rig { cable <|>', ['500pF', '700pF']],
    ]),
  )('$typed', async ({ typed, first, absent }) => offers(typed, first, absent, withLine));

  test('rules, with their pages', async () => {
    const { items, editor } = await offered(withLine('allow cr<|>'));
    const rule = items.find(({ label }) => label === 'crowded-lug')!;
    expect(rule.detail).toMatch(/three wires/);
    const resolved = await editor.ask<CompletionItem>('completionItem/resolve', rule);
    expect((resolved.documentation as { value: string }).value).toContain('| `crowded-lug` |');
  });

  test('files of the folder', async () => {
    const { items } = await offered('use "<|>\npart x : star\n');
    expect(items.map(({ textEdit }) => textEdit!.newText)).toEqual(['"parts/house.lug"', '"b.lug"']);
  });

  test.each(
    cases([
      ['type own : <|>', ['pickup', 'switch', 'control']],
      ['type own : switch {\n  lugs A0 A1 frame\n  metal <|>\n}', ['A0', 'A1', 'frame']],
      ['type own : switch {\n  lugs A0 A1\n  positions "play" "mute"\n  at <|>\n}', ['"play"', '"mute"']],
      ['type own : switch {\n  lugs A0 A1\n  positions "play" "mute"\n  at "play" <|>\n}', ['joins', 'where']],
      ['type own : passive {\n  lugs a b\n  takes loose, size 1mm\n  positions on off\n  at off where <|>\n}', ['loose']],
      ['type own : passive {\n  lugs a b\n  takes loose\n  positions on off\n  at off where loose <|>\n}', ['joins']],
      ['type own : passive {\n  lugs a b\n  takes loose\n  positions on off\n  at off where loose joins <|>\n}', ['a', 'b']],
      ['type own : switch {\n  lugs A0 A1\n  positions "play" "mute"\n  at "play" joins <|>\n}', ['A0', 'A1']],
      ['type own : pickup {\n  lugs hot ground\n  coil main from <|>\n}', ['hot', 'ground']],
      [
        'type own : pickup {\n  lugs hot ground\n  coil main from ground to hot { <|> }\n}',
        ['resistance', 'inductance', 'capacitance'],
      ],
      [
        'type own : pickup {\n  lugs hot ground\n  takes resistance 8k\n  coil main from ground to hot { resistance <|> }\n}',
        ['resistance'],
      ],
      ['type own : control {\n  lugs 1 2 3\n  track from 1 to 3 <|>\n}', ['wiper', '{ }']],
      ['type own : assembly {\n  lugs top bottom\n  part c : capacitor 680pF from <|>\n}', ['top', 'bottom', 'c']],
    ]),
  )('$typed', async ({ typed, first, absent }) => offers(typed, first, absent, (text) => text));
});

describe('quiet', () => {
  test.each([
    '// a co<|>mment',
    '/** do<|>c */',
    'part <|>',
    'part na<|>me',
    'instrument "Ti<|>tle"',
    'wire neck.hot to volume.3 // <|>',
  ])('%s', async (line) => {
    expect((await offered(withLine(line))).labels.filter((label) => !statementWords.includes(label as 'part'))).toEqual([]);
  });

  test('a space opens a list only where something must follow', async () => {
    const bySpace = { triggerKind: 2, triggerCharacter: ' ' };
    expect((await offered(withLine('wire neck.hot to <|>'), bySpace)).labels).not.toEqual([]);
    expect((await offered(withLine('part x : <|>'), bySpace)).labels).not.toEqual([]);
    expect((await offered(withLine('expect selector <|>'), bySpace)).labels).not.toEqual([]);
    expect((await offered(withLine('wire neck.hot to volume.3 <|>'), bySpace)).labels).toEqual([]);
    expect((await offered(withLine('part x : pot 250k <|>'), bySpace)).labels).toEqual([]);
    expect((await offered(withLine('part x : single-coil { lead hot <|>'), bySpace)).labels).not.toEqual([]);
    expect((await offered(withLine('part x : single-coil { lead hot black <|>'), bySpace)).labels).toEqual([]);
  });
});

/** What an editor would insert: the proposal of each place, repeated where the place is named again. */
function fillIn(body: string): string {
  const fields = new Map<string, string>();
  const first = body.replace(
    /\$\{(\d+)(?::([^}]*)|\|([^,|}]*)[^}]*\|)\}/g,
    (_all, id: string, text?: string, choice?: string) => {
      const value = (text ?? choice ?? '').replace(/\$(\d+)/g, (_field, other: string) => fields.get(other) ?? '');
      fields.set(id, value);
      return value;
    },
  );
  return first.replace(/\$(\d+)/g, (_all, id: string) => fields.get(id) ?? '');
}
