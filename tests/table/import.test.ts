/** A table of wires made a circuit: separators, headers, names, guessed types, and what can't be read. */
import { describe, expect, test } from 'vitest';
import { createProject } from '../../language/project.js';
import { circuitOfTable, type ImportedCircuit, type ImportWish } from '../../language/table/index.js';

function imported(table: string, types: ImportWish['types'] = new Map()): ImportedCircuit {
  const made = circuitOfTable(table, { name: 'wires.csv', title: 'wires', types });
  if ('problem' in made) throw new Error(JSON.stringify(made.problem));
  const { problems } = createProject({ read: () => made.text }).circuit('file:///bench/wires.lug')!;
  expect(problems, made.text).toEqual([]);
  return made;
}

const linesOf = (text: string, word: string): string[] => text.split('\n').filter((line) => line.startsWith(`${word} `));
const wiresOf = (table: string): string[] => linesOf(imported(table).text, 'wire');

describe('the table', () => {
  const wanted = ['wire neck.hot to volume.3 white 22awg 120.5mm // to the lever'];
  test.each([
    ['commas', 'from,to,colour,gauge,length,note\nneck.hot,volume.3,white,22awg,120.5mm,to the lever\n'],
    ['semicolons and a decimal comma', 'from;to;colour;gauge;length;note\nneck.hot;volume.3;white;22awg;120,5mm;to the lever'],
    ['tabs', 'from\tto\tcolour\tgauge\tlength\tnote\r\nneck.hot\tvolume.3\twhite\t22awg\t120.5mm\tto the lever\r\n'],
    ['another order and case, other words', 'Note,SIZE,TO,Color,From,Length\nto the lever,AWG 22,volume.3,WH,neck.hot,120.5 mm'],
    ['units in the header', 'from,to,colour,AWG,Length [mm],note\nneck.hot,volume.3,White,22,120.5,to the lever'],
    [
      'a byte order mark, empty rows and columns',
      '\uFEFFfrom,to,colour,gauge,,length,note\n\n,,,\nneck.hot,volume.3,white,22,,120.5mm,to the lever\n\n',
    ],
    ['quotes', '"from","to","colour","gauge","length","note"\n"neck.hot","volume.3","white","22awg","120.5mm","to the\nlever"'],
    ['no header', 'neck.hot,volume.3,white,22awg,120.5mm,to the lever'],
  ])('with %s', (_, table) => {
    expect(wiresOf(table)).toEqual(wanted);
  });

  test('a quote inside quotes is one quote, and a separator in quotes separates nothing', () => {
    expect(wiresOf('from,to,note\nneck.hot,volume.3,"the ""hot"" one, to the pot"')).toEqual([
      'wire neck.hot to volume.3 // the "hot" one, to the pot',
    ]);
  });

  test('a section in mm² and a length in inches stay what they are', () => {
    expect(wiresOf('from,to,gauge,length\nneck.hot,volume.3,0.25 mm²,"4.5"""\nneck.ground,volume.case,,3 in')).toEqual([
      'wire neck.hot    to volume.3 0.25mm2 4.5in',
      'wire neck.ground to volume.case 3in',
    ]);
  });

  test('a stripe is written in any of the usual ways', () => {
    const wires = wiresOf('from,to,colour\na.hot,b.1,white/red\na.hot,b.2,white red\na.hot,b.3,WH-RD\na.ground,b.case,Gray');
    expect(wires.map((line) => line.split(' ').at(-1))).toEqual(['white-red', 'white-red', 'white-red', 'grey']);
  });

  test('a length without a unit is in millimetres, which is said', () => {
    const { text, remarks } = imported('from,to,length,bin\nneck.hot,volume.3,120,7');
    expect(linesOf(text, 'wire')).toEqual(['wire neck.hot to volume.3 120mm']);
    expect(remarks).toEqual(['the column “bin” is not read', 'lengths without a unit are taken as millimetres']);
  });
});

test.each([
  ['', 'the table is empty', 0, 0],
  ['part,lug\nneck,hot', 'the first row must name the columns', 0, 0],
  ['\nfrom,lug\nneck.hot,1', 'there is no column to', 1, 0],
  ['from,to,awg,size\na.hot,b.1,22,22', 'two columns give the gauge of the wire, “awg” and “size”; leave one of them out', 0, 12],
  ['from,to,colour,Color\na.hot,b.1,red,red', 'two columns give the colour', 0, 15],
])('no circuit comes of %j', (table, message, line, character) => {
  const made = circuitOfTable(table, { name: 'wires.csv', title: 'wires' });
  expect(made).toMatchObject({ problem: { line, character, message: expect.stringContaining(message) as string } });
});

describe('names', () => {
  test('what is no name becomes one, and the original is kept', () => {
    const { text } = imported('from,to\nNeck PU.hot,vol 1.3\nNeck PU.ground,vol 1.case\nvol 1.2,Out.tip\n5-way.A0,vol 1.3');
    expect(text).toContain('/** In the table: “Neck PU”. */\npart neck-pu : single-coil');
    expect(text).toMatch(/^\/\*\* In the table: “vol 1”\. \*\/\npart vol-1 +: pot /m);
    expect(text).toContain('/** In the table: “5-way”. */');
    expect(linesOf(text, 'wire').map((line) => line.replace(/ +/g, ' '))).toEqual([
      'wire neck-pu.hot to vol-1.3',
      'wire neck-pu.ground to vol-1.case',
      'wire vol-1.2 to Out.tip',
      'wire part-5-way.A0 to vol-1.3',
    ]);
  });

  test('two ways to write one name are one part, which is said', () => {
    const { text, remarks } = imported('from,to\nNeck PU.hot,vol.3\nneck  pu.ground,vol.case');
    expect(linesOf(text, 'part')).toHaveLength(2);
    expect(remarks).toEqual(['“Neck PU” and “neck pu” are one part, neck-pu']);
  });

  test('a comment can’t be closed from the table', () => {
    const { text } = imported('from,to,note\nA */ part x : jack /*.hot,vol.3,*/ x');
    expect(linesOf(text, 'part')).toHaveLength(2);
  });
});

describe('types', () => {
  /** The type of the part `name` that is wired by these lugs, and the comment. */
  const typeOf = (name: string, lugs: string, types: ImportWish['types'] = new Map()): string => {
    const rows = lugs.split(' ').map((lug) => `${name}${lug === '-' ? '' : `.${lug}`},other.1`);
    const line = imported(['from,to', ...rows].join('\n'), types)
      .text.split('\n')
      .find((one) => one.startsWith(`part ${name} `));
    return line!.replace(/^part \S+ *: /, '');
  };

  test.each([
    ['neck', 'hot ground', 'single-coil'],
    ['neck-humbucker', 'hot ground', 'humbucker'],
    ['neck', 'north-start north-finish south-start south-finish', 'humbucker-4'],
    ['neck', 'hot tap ground', 'single-coil-tapped'],
    ['volume', '1 2 3 case', 'pot'],
    ['tone', '1 2', 'pot'],
    ['x', '1 2 3 A0 A1', 'pot-push-pull'],
    ['blend', '1a 2a 3a 1b 2b 3b', 'pot-blend'],
    ['selector', 'A0 A1 B0 B1 frame', 'lever-3'],
    ['x', 'A0 A1 A2 B0 B1 B2', 'mini-dpdt'],
    ['toggle', 'A B out', 'toggle-3'],
    ['output', 'tip sleeve', 'jack'],
    ['output', 'tip ring sleeve', 'jack-stereo'],
    ['tone-cap', 'a b', 'capacitor'],
    ['drain', 'a b', 'resistor'],
    ['cell', 'plus minus', 'battery'],
    ['saddle', '-', 'bridge-ground'],
    ['ground', '-', 'star'],
    ['strip', '1 2 3 4 5', 'tag-strip'],
  ])('%s with %s is taken for a %s', (name, lugs, type) => {
    expect(typeOf(name, lugs)).toMatch(new RegExp(`^${type} // guessed; `));
  });

  test('the comment names what would fit as well', () => {
    expect(typeOf('tone-cap', 'a b')).toBe('capacitor // guessed; resistor or inductor would fit, too');
    expect(typeOf('neck', 'hot tap ground')).toBe('single-coil-tapped // guessed; no other type has these lugs');
  });

  test('a lever on which three pickups are is the one with five positions', () => {
    const row = (name: string, throwLug: string): string => `${name}.hot,sel.${throwLug}\n${name}.ground,vol.case\n`;
    const two = `from,to\n${row('neck', 'A1')}${row('bridge', 'B3')}`;
    expect(imported(two).text).toMatch(/^part sel +: lever-3 /m);
    expect(imported(`${two}${row('middle', 'A2')}`).text).toMatch(/^part sel +: lever-5 /m);
  });

  test('--types says what a part is, by either of its names, and nothing is marked', () => {
    const types = new Map([
      ['Neck PU', 'humbucker'],
      ['neck-2', 'humbucker'],
      ['vol', 'trimmer'],
    ]);
    const { text, guessed } = imported('from,to\nNeck PU.hot,vol.3\nNeck 2.hot,vol.2', types);
    expect(linesOf(text, 'part').map((line) => line.replace(/ +/g, ' '))).toEqual([
      'part neck-pu : humbucker',
      'part vol : trimmer',
      'part neck-2 : humbucker',
    ]);
    expect([guessed, text.includes('guessed')]).toEqual([0, false]);
  });

  test.each([
    [new Map([['nek', 'humbucker']]), '--types: the table has no part “nek”; did you mean neck?'],
    [new Map([['neck', 'humbuker']]), '--types: there is no standard type “humbuker”; did you mean humbucker?'],
  ])('%j is refused', (types, problem) => {
    expect(circuitOfTable('from,to\nneck.hot,vol.3', { name: 'w', title: 'w', types })).toEqual({ problem });
  });
});

describe('what can’t be read', () => {
  const table = [
    'from,to,colour,gauge,length',
    'neck.hot,vol.3,mauve,22,',
    'neck.gruond,vol.case,,,',
    'vol.2,output.tip,,x,',
    'vol.1,,,,',
    'vol.left,output.sleeve,,,long',
    'thing.foo,vol.case,,,',
    'thing.bar,vol.case,,,',
    'neck.ground,vol.case,black,,"12 cm',
  ].join('\n');

  test('is reported in its place', () => {
    const { problems } = imported(table);
    expect(problems.map(({ line, character, message }) => `${line + 1}:${character + 1} ${message}`)).toEqual([
      '2:16 “mauve” is not a colour of wire; colours are words such as black, or two such as white-red',
      '3:1 neck is taken for a single-coil, which has no lug “gruond”; did you mean ground? (--types "neck=TYPE" gives it another type)',
      '4:19 “x” is not a gauge; a gauge is a number such as 22awg, or a section such as 0.25mm2',
      '5:7 the wire has no lug under “to”',
      '6:1 left of vol depends on the side that is looked at; say 1 or 3 (shaft towards you, lugs down, 1 is left)',
      '6:26 “long” is not a length; a length is a number and its unit, such as 120mm',
      '7:1 the type of thing is not known: no type has “foo” and “bar”; name it with --types "thing=TYPE"',
      '9:29 this quote is never closed',
      '9:29 “"12 cm” is not a length; a length is a number and its unit, such as 120mm',
    ]);
  });

  test('is kept as a comment, and what is whole of it is a wire', () => {
    const { text } = imported(table);
    for (const [index, row] of table.split('\n').entries())
      if (index > 0) expect(text).toContain(`// wires.csv, line ${index + 1}: ${row}\n`);
    expect(linesOf(text, 'wire').map((line) => line.replace(/ +/g, ' '))).toEqual([
      'wire neck.hot to vol.3 22awg',
      'wire vol.2 to output.tip',
      'wire neck.ground to vol.case black',
    ]);
  });
});
