/** The page for the player: every control named and drawn, positions as the hand makes them, the tone of each, the battery. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { batteries, buildOf, playerPage, sheetHtml, sheetMarkdown } from '../../language/workshop/index.js';
import { soundCircuit } from '../circuit/harness.js';
import { readMarkup } from '../harness/well-formed.js';

const pageOf = (text: string) => playerPage(buildOf(soundCircuit(text)));
const sectionOf = (text: string, title: string) => pageOf(text).sections.find((section) => section.title === title)?.blocks ?? [];
function rowsOf(text: string, title: string): readonly (readonly string[])[] {
  return sectionOf(text, title).flatMap((block) => (block.kind === 'table' ? block.rows : []));
}
function picturesOf(text: string, title: string): readonly string[] {
  return sectionOf(text, title).flatMap((block) => (block.kind === 'table' ? (block.pictures ?? []) : []));
}
const CONTROLS = 'What is on the instrument';
const POSITIONS = 'What each position gives';
const TONE = 'What changes the tone';

const folder = new URL('../../examples/', import.meta.url);
const example = (name: string): string => readFileSync(new URL(`${name}.lug`, folder), 'utf8');

/** One pickup for each of two switches, which pass it or not. */
const TWO_SWITCHES = `part a, b : single-coil 6k 2H 100pF
part first, second : SWITCH { positions "on" "off" }
part o : jack
wire a.hot to first.A0
wire first.A1 to o.tip
wire b.hot to second.A0
wire second.A1 to o.tip
wire a.ground to b.ground to o.sleeve
`;

describe('what the hand does', () => {
  test.each(['mini-spdt', 'mini-dpdt'])('both small switches (%s) are named together where they are in one position', (type) => {
    expect(rowsOf(TWO_SWITCHES.replace('SWITCH', type), POSITIONS).map(([how, heard]) => [how, heard])).toEqual([
      ['Both small switches on', 'The a pickup and the b pickup together'],
      ['The small switch “first” on, the small switch “second” off', 'The a pickup'],
      ['The small switch “first” off, the small switch “second” on', 'The b pickup'],
      ['Both small switches off', 'Nothing: the instrument is muted'],
    ]);
  });

  test('two of three in one position are named together', () => {
    const third = 'part third : mini-spdt { positions "on" "off" }\npart c : single-coil 6k 2H 100pF\n';
    const text = `${TWO_SWITCHES.replace('SWITCH', 'mini-spdt')}${third}wire c.hot to third.A0\nwire third.A1 to o.tip\nwire c.ground to o.sleeve\n`;
    const ways = rowsOf(text, POSITIONS).map(([how]) => how);
    expect(ways[0]).toBe('All 3 small switches on');
    expect(ways).toContain('The small switches “first” and “third” on, the small switch “second” off');
  });

  test('a toggle goes up and down, a knob is pulled', () => {
    expect(rowsOf(example('push-pull-coil-split'), POSITIONS).map(([how]) => how)).toEqual([
      'The toggle up (“neck”); push the tone knob down',
      'The toggle up (“neck”); pull the tone knob up',
      'The toggle in the middle (“both”); push the tone knob down',
      'The toggle in the middle (“both”); pull the tone knob up',
      'The toggle down (“bridge”); push the tone knob down',
      'The toggle down (“bridge”); pull the tone knob up',
    ]);
  });

  test('a push-push knob is pushed to stay up or down, and its page says so', () => {
    const text = example('push-pull-coil-split').replace('pot-push-pull', 'pot-push-push');
    expect(rowsOf(text, POSITIONS).map(([how]) => how)).toEqual([
      'The toggle up (“neck”); push the tone knob to stay down',
      'The toggle up (“neck”); push the tone knob to stay up',
      'The toggle in the middle (“both”); push the tone knob to stay down',
      'The toggle in the middle (“both”); push the tone knob to stay up',
      'The toggle down (“bridge”); push the tone knob to stay down',
      'The toggle down (“bridge”); push the tone knob to stay up',
    ]);
    const [row] = rowsOf(text, CONTROLS).filter(([name]) => name === 'tone');
    expect(row![1]).toContain('which a push brings up and the next one down');
    expect(row!.join(' ')).not.toContain('pull');
  });

  test('a connector is no control of the player, and has one way to be mated in the table of positions', () => {
    const text = `part a : single-coil 6k 2H 100pF
part plug : connector-2 { reversible }
part o : jack
wire a.hot to plug.1a
wire a.ground to plug.2a
wire plug.1b to o.tip
wire plug.2b to o.sleeve
`;
    expect(rowsOf(text, CONTROLS).map(([name]) => name)).toEqual(['o']);
    expect(rowsOf(text, POSITIONS).map(([how, heard]) => [how, heard])).toEqual([['in every setting', 'The a pickup']]);
  });

  test('a trimmer is no control of the player', () => {
    const names = (type: string) =>
      rowsOf(
        `part a : single-coil
part v : pot 250k
part t : ${type} 250k
part o : jack
wire a.hot to v.3
wire v.2 to o.tip
wire v.1 to a.ground to o.sleeve
wire t.3 to v.3
wire t.2 to t.1 to o.sleeve
`,
        CONTROLS,
      ).map(([name]) => name);
    expect(names('pot')).toEqual(['v', 't', 'o']);
    expect(names('trimmer')).toEqual(['v', 'o']);
  });

  test('a lever goes to what is written there; the middle pickup is no middle position', () => {
    const ways = rowsOf(example('three-single-coils-lever-5'), POSITIONS).map(([how]) => how);
    expect(ways).toContain('The lever at “middle”');
    const bare = example('three-single-coils-lever-5')
      .replace(/\{ positions [^}]*\}/, '')
      .replace(/^expect.*$/gm, '');
    expect(rowsOf(bare, POSITIONS).map(([how]) => how)[1]).toBe('The lever in position 2 of 5');
  });

  test('a rotary switch that changes the tone is described click by click, against the first', () => {
    // Capacitors across the signal take treble away, each larger one from lower down (f = 1/(2πRC)).
    const rows = rowsOf(example('bass-two-circuits-four-cavities'), TONE);
    expect(rows.map(([how]) => how).slice(0, 4)).toEqual(
      ['open', 'soft', 'round', 'deep'].map((name, index) => `The rotary switch at click ${index + 1} of 4 (“${name}”)`),
    );
    for (const [, heard] of rows.slice(1, 4)) expect(heard).toContain('less treble');
    // A capacitor in series with the signal takes bass away.
    expect(rows.at(-1)).toEqual(['The on-off switch at “cut”', 'less bass']);
  });

  test('a knob says with which positions it works, and a button what it does while it is held', () => {
    const rows = rowsOf(example('kill-switch-straight-to-jack'), CONTROLS);
    const does = (name: string) => rows.find(([control]) => control === name)?.[2];
    expect(does('kill')).toBe('silences the instrument while you hold it');
    expect(does('volume')).toBe('loudness: silent at 0, full at 10; only with the small switch at “controls”');
  });

  test('a switch with a resistor before it is one that changes the loudness', () => {
    // A voltage divider of equal resistances, 10 MΩ of amplifier besides: half the voltage, −6 dB at every frequency.
    const text = `rig { cable 0pF, input 10M }
part a : single-coil 10R 1mH 1pF
part s : mini-spdt { positions "full" "half" }
part r : resistor 100k from a.hot to s.A2
part q : resistor 100k from s.A2 to o.sleeve
part o : jack
wire a.hot to s.A1
wire s.A0 to o.tip
wire a.ground to o.sleeve
`;
    expect(rowsOf(text, TONE)).toEqual([
      ['The small switch at “full”', 'the first position, with which the others are compared'],
      ['The small switch at “half”', 'less loud'],
    ]);
  });
});

test('no control of any example is left out', () => {
  const names = readdirSync(folder).filter((name) => name.endsWith('.lug') && !/house|no-2|two-files/.test(name));
  expect(names.length).toBeGreaterThan(15);
  for (const name of names) {
    const circuit = soundCircuit(readFileSync(new URL(name, folder), 'utf8'));
    // A relay is worked by its battery, not by a player.
    const parts = circuit.parts.filter(
      ({ family, ancestry }) =>
        family === 'control' || (family === 'switch' && !ancestry.includes('relay')) || ancestry.includes('jack'),
    );
    const shown = playerPage(buildOf(circuit)).sections.flatMap(({ title, blocks }) =>
      title === CONTROLS ? blocks.flatMap((block) => (block.kind === 'table' ? block.rows.map(([first]) => first!) : [])) : [],
    );
    for (const part of parts) {
      const plain = part.name.replace(/[-.]/g, ' ');
      expect(
        shown.some((one) => one === plain || one.startsWith(`${plain} `)),
        `${name}: ${part.name}`,
      ).toBe(true);
    }
  }
});

describe('the pictures', () => {
  test('each row has one, well-formed, with nothing but shapes and names', () => {
    for (const title of [CONTROLS, POSITIONS, TONE]) {
      const text = example('bass-two-circuits-four-cavities');
      expect(picturesOf(text, title)).toHaveLength(rowsOf(text, title).length);
      for (const svg of picturesOf(text, title)) {
        const { problem, elements } = readMarkup(svg);
        expect(problem).toBeUndefined();
        for (const element of elements) expect(['svg', 'g', 'rect', 'circle', 'line', 'text']).toContain(element);
      }
    }
  });

  test('no two positions of a switch look alike', () => {
    const types = [
      'lever-3',
      'lever-4',
      'lever-5',
      'lever-5x4',
      'lever-6',
      'toggle-3',
      'slide-dpdt',
      'mini-dpdt',
      'mini-dpdt-on',
      'rotary-1x12',
      'spst',
      'pot-push-pull',
      'pot-push-push',
    ];
    for (const type of types) {
      // Another pickup at the first throw only, so that positions differ in what sounds.
      const [common, first] = type.startsWith('toggle') ? ['out', 'A'] : ['A0', 'A1'];
      const text = `part a : single-coil 6k 2H 100pF\npart s : ${type}\npart o : jack\nwire a.hot to s.${first}\nwire s.${common} to o.tip\nwire a.ground to o.sleeve\n`;
      const pictures = picturesOf(text, POSITIONS);
      expect(pictures.length, type).toBe(rowsOf(text, POSITIONS).length);
      expect(pictures.length, type).toBeGreaterThan(1);
      expect(new Set(pictures).size, type).toBe(pictures.length);
    }
  });

  test('a lever’s handle is at its notch, evenly from one end to the other', () => {
    const handles = picturesOf(example('three-single-coils-lever-5'), POSITIONS).map((svg) =>
      Number(/circle cx="([\d.]+)"/.exec(svg)?.[1]),
    );
    const steps = handles.slice(1).map((x, index) => x - handles[index]!);
    expect(handles).toHaveLength(5);
    for (const step of steps) expect(step).toBeCloseTo(steps[0]!, 3);
    expect(steps[0]).toBeGreaterThan(1);
  });

  test('nothing is drawn outside its frame', () => {
    for (const name of ['bass-two-circuits-four-cavities', 'push-pull-coil-split', 'kill-switch-straight-to-jack'])
      for (const svg of [CONTROLS, POSITIONS, TONE].flatMap((title) => picturesOf(example(name), title)))
        for (const [, y = '', r = ''] of svg.matchAll(/circle cx="[\d.]+" cy="([-\d.]+)" r="([\d.]+)"/g)) {
          expect(Number(y) - Number(r)).toBeGreaterThan(0.15);
          expect(Number(y) + Number(r)).toBeLessThan(9);
        }
  });
});

describe('the battery', () => {
  const circuit = (wires: string, more = ''): string => `part a : single-coil 6k 2H 100pF
part stage : buffer { current 0.75mA }
part second : buffer { current 0.5mA }
part cell : battery 9V { capacity 500mAh }
part o : jack-stereo
wire a.hot to stage.in
wire stage.out to second.in
wire second.out to o.tip
wire a.ground to stage.minus to second.minus to o.sleeve
wire cell.plus to stage.plus to second.plus
${wires}
${more}`;
  const ring = 'wire cell.minus to o.ring';
  const direct = 'wire cell.minus to o.sleeve';
  const said = (text: string) => sheetMarkdown(pageOf(text));

  test('lasts its capacity over the sum of the currents: 500 mAh / 1.25 mA = 400 h', () => {
    expect(batteries(buildOf(soundCircuit(circuit(ring))))).toMatchObject([
      { isEstimated: false, hours: expect.closeTo(400, 6) as number },
    ]);
    expect(said(circuit(ring))).toContain('The battery lasts about 400 hours with the lead plugged in: change it before that.');
  });

  test('a lamp takes its part: 500 mAh / (1.25 + (9 − 1.8) V / 4.7 kΩ) mA = 180 h', () => {
    const lamp = 'part r : resistor 4.7k from cell.plus to lamp.anode\npart lamp : led 1.8V\nwire lamp.cathode to o.sleeve';
    const [one] = batteries(buildOf(soundCircuit(circuit(ring, lamp))));
    expect(one!.hours! / (500 / (1.25 + 7.2 / 4.7))).toBeCloseTo(1, 1);
  });

  test('where a current is not in the text it is the usual one, and the page says so: 500 mAh / (1 + 0.5) mA = 333 h', () => {
    const usual = circuit(ring).replace('buffer { current 0.75mA }', 'buffer');
    expect(said(usual)).toContain('about 330 hours with the lead plugged in, if the electronics take what is usual for them');
  });

  test('without a capacity there is no figure, only what is common practice', () => {
    const page = said(circuit(ring).replace(' { capacity 500mAh }', ''));
    expect(page).not.toMatch(/hours/);
    expect(page).toContain('It is common practice to change a battery at least once a year');
  });

  test('unplugging switches it off where its return goes by the ring, and not where it goes to the sleeve', () => {
    expect(said(circuit(ring))).toContain('pull the lead out when you stop playing, since that switches it off');
    expect(said(circuit(direct))).toContain('it stays on when you pull the lead out');
    expect(said(circuit(direct))).toContain('lasts about 400 hours in all, played or not');
    const switched = circuit('wire cell.minus to s.A0\nwire s.A1 to o.sleeve', 'part s : spst\n');
    expect(batteries(buildOf(soundCircuit(switched)))).toMatchObject([{ unplugged: 'partly' }]);
  });

  test('where nothing that it feeds is in the text, its return to the jack decides, or it is not known', () => {
    const bare = (wire: string): string =>
      `part a : single-coil 6k 2H 100pF\npart cell : battery 9V\npart o : jack-stereo\nwire a.hot to o.tip\nwire a.ground to o.sleeve\n${wire}\n`;
    expect(batteries(buildOf(soundCircuit(bare(ring))))).toMatchObject([{ unplugged: 'off' }]);
    expect(batteries(buildOf(soundCircuit(bare(direct))))).toMatchObject([{ unplugged: 'unknown' }]);
  });

  test('two in series carry one current, so each lasts as long as alone', () => {
    const two = circuit(
      'wire cell.minus to other.plus\nwire other.minus to o.ring',
      'part other : battery 9V { capacity 250mAh }\n',
    );
    expect(batteries(buildOf(soundCircuit(two))).map(({ hours }) => hours)).toEqual([
      expect.closeTo(400, 6),
      expect.closeTo(200, 6),
    ]);
  });

  test('a page without a battery has no word of one', () => {
    expect(said(example('three-single-coils-lever-5'))).not.toMatch(/battery/i);
  });
});

test('names that mean harm stay text in pictures, tables and the battery’s lines', () => {
  const evil = '</text></svg><script>alert(1)</script>"&\u202e';
  const text = example('bass-two-circuits-four-cavities').replace('"passive" "active"', `${JSON.stringify(evil)} "active"`);
  const html = sheetHtml(pageOf(text.replace(/^expect.*$/gm, '')));
  expect(html).not.toMatch(/<script|\u202e/);
  expect(html).toContain('&lt;script&gt;');
  const outside = html.replace(/<style>[^]*?<\/style>/g, '').replace(/<svg[^]*?<\/svg>/g, '');
  expect(outside).not.toContain('</svg>');
});
