/** What runs again after an edit, and what does not: trees, circuits, nets, solutions. Whatever was kept, findings are those of a fresh check. */
import { describe, expect, test } from 'vitest';
import { createAnalysis } from '../../language/analysis.js';
import { lower } from '../../language/circuit/index.js';
import { findings } from '../../language/findings.js';
import { parseText } from '../../language/grammar/index.js';
import { createProject } from '../../language/project.js';
import { corrected } from '../examples/corrected.js';
import { filesUnder, read } from '../harness/checkout.js';
import { twoPickups } from './circuits.js';

const uri = 'memory:/a.lug';
const house = 'memory:/house.lug';

function bench(text: string, others: Readonly<Record<string, string>> = {}) {
  const project = createProject({ read: (other) => others[other] });
  const analysis = createAnalysis(project);
  const check = () => analysis.findings(analysis.circuit(uri)!);
  /** How many circuits were lowered, checked, folded to nets and solved because of this text. */
  const edit = (now: string, file = uri) => {
    const before = { ...analysis.counters, lowerings: project.counters.lowerings };
    project.update(file, now);
    const found = check();
    analysis.positions(analysis.circuit(uri)!);
    const tree = parseText(uri, project.text(uri)!);
    expect(found).toEqual(findings(lower(tree, { tree: (other) => project.tree(other) })));
    const { checks, folded, solved } = analysis.counters;
    return {
      lowered: project.counters.lowerings - before.lowerings,
      checked: checks - before.checks,
      folded: folded - before.folded,
      solved: solved - before.solved,
    };
  };
  return { edit, first: edit(text) };
}

const nothing = { lowered: 0, checked: 0, folded: 0, solved: 0 };
/** Made again from the text, while everything that was computed is kept. */
const textOnly = { lowered: 1, checked: 1, folded: 0, solved: 0 };
const valuesOnly = { lowered: 1, checked: 1, folded: 0, solved: 1 };
const everything = { lowered: 1, checked: 1, folded: 1, solved: 1 };

type Marks = Readonly<Record<string, string>>;

describe('an edit of one line', () => {
  const commented = twoPickups({ 'wire saddle ': '// The strings.\nwire saddle ' });
  test('the first check does everything', () => expect(bench(twoPickups()).first).toEqual(everything));

  test.each<[string, string, string, typeof nothing]>([
    ['the same text again', commented, commented, nothing],
    ['a comment', commented, commented.replace('The strings.', 'The strings, by the bridge.'), nothing],
    [
      'a comment behind a wire',
      twoPickups({ 'output.tip white': 'output.tip white // hot' }),
      twoPickups({ 'output.tip white': 'output.tip white // hot!' }),
      nothing,
    ],
    ['an empty line at the end', twoPickups(), `${twoPickups()}\n`, nothing],
    ['a comment on a line of its own, all below moved down', twoPickups(), commented, textOnly],
    [
      'the length of a shielded wire whose capacitance counts',
      `${twoPickups({ 'output.tip white': 'output.tip white shielded 20cm' })}build { shielded-capacitance 150pF }\n`,
      `${twoPickups({ 'output.tip white': 'output.tip white shielded 40cm' })}build { shielded-capacitance 150pF }\n`,
      valuesOnly,
    ],
    ['a doc comment', twoPickups(), twoPickups({ 'one volume, one tone. */': 'a volume, a tone. */' }), textOnly],
  ])('%s', (_, before, after, expected) => expect(bench(before).edit(after)).toEqual(expected));

  test.each<[string, Marks, typeof nothing]>([
    ['a colour', { 'output.tip white': 'output.tip red' }, textOnly],
    ['a gauge and a length', { 'output.tip white': 'output.tip white 24awg 20cm' }, textOnly],
    ['spaces', { 'volume.2       to': 'volume.2 to' }, textOnly],
    ['the title', { 'no. 61': 'no. 65' }, textOnly],
    ['a position’s name', { '"both" "neck" }': '"two" "neck" }', 'selector "both"': 'selector "two"' }, textOnly],
    ['an expectation', { 'hum cancelled': 'hum present' }, textOnly],
    [
      'the order of statements',
      { 'wire neck.hot       to selector.B3\n': '', 'part bridge ': 'wire neck.hot       to selector.B3\npart bridge ' },
      everything,
    ],
    ['a value', { 'single-coil 6.2k': 'single-coil 6.4k' }, valuesOnly],
    ['a taper', { 'tone     : pot 250k audio': 'tone     : pot 250k linear' }, valuesOnly],
    ['the winding', { 'wound reverse, ': '' }, valuesOnly],
    ['the lead', { 'expect volume 0 ': 'rig { cable 6m }\nexpect volume 0 ' }, valuesOnly],
    ['a pot’s rest', { 'tone     : pot 250k audio': 'tone     : pot 250k audio { rest 7 }' }, everything],
    ['a wire', { 'wire neck.hot       to selector.B3': 'wire neck.hot       to selector.B1' }, everything],
    ['a part more', { 'part saddle ': 'part spare : pot\npart saddle ' }, everything],
  ])('%s', (_, marks, expected) => expect(bench(twoPickups()).edit(twoPickups(marks))).toEqual(expected));

  test('taken back costs no solving', () => {
    const { edit } = bench(twoPickups());
    expect(edit(twoPickups({ 'single-coil 6.2k': 'single-coil 6.4k' }))).toEqual(valuesOnly);
    expect(edit(twoPickups())).toEqual(textOnly);
  });

  test('half a line while it is typed: what stood before is known again once it is whole', () => {
    const { edit } = bench(twoPickups());
    edit(twoPickups({ 'wire neck.hot       to selector.B3': 'wire neck.hot       to' }));
    expect(edit(twoPickups({ 'wire neck.hot       to selector.B3': 'wire neck.hot       to selector.B3 white' }))).toEqual(
      textOnly,
    );
  });
});

test('findings step by step are those in one go, for every example', () => {
  const files = Object.fromEntries(filesUnder('examples').map((path) => [`memory:/${path}`, read(path)]));
  const project = createProject({ read: (other) => files[other] });
  const analysis = createAnalysis(project);
  for (const path of Object.keys(files).filter((one) => one.endsWith('.lug'))) {
    const circuit = analysis.circuit(path)!;
    expect(analysis.findings(circuit), path).toEqual(findings(project.circuit(path)!));
  }
});

test('findings after an edit that changes no meaning are those of a fresh check, for every faulty example', () => {
  const files = Object.fromEntries(filesUnder('examples').map((path) => [`memory:/${path}`, read(path)]));
  const project = createProject({ read: (other) => files[other] });
  const analysis = createAnalysis(project);
  const edits = [
    (text: string) => `// Looked at again.\n${text}`,
    (text: string) => text.replace(/^(wire .*?)( +\/\/.*)?$/m, (line) => line.replace(/ (white|red|black|yellow)\b/, ' green')),
    (text: string) => text.replace(/\n/g, '\n\n'),
    (text: string) => text.replace(/ (white|red|black|yellow)\b/g, ' green-yellow'),
  ];
  for (const path of Object.keys(files).filter((one) => one.startsWith('memory:/examples/faulty/') && one.endsWith('.lug'))) {
    analysis.findings(analysis.circuit(path)!);
    let text = files[path]!;
    for (const edit of edits) {
      text = edit(text);
      project.update(path, text);
      const fresh = lower(parseText(path, text), { tree: (other) => project.tree(other) });
      expect(analysis.findings(analysis.circuit(path)!), `${path}\n${text}`).toEqual(findings(fresh));
    }
  }
});

test('findings after a mistake is corrected, and after it is made, are those of a fresh check, for every faulty example', () => {
  for (const path of filesUnder('examples/faulty').filter((one) => one.endsWith('.lug'))) {
    const [faulty, right] = [read(path), corrected(read(path))];
    for (const texts of [
      [right, faulty],
      [faulty, right],
    ]) {
      const project = createProject({ read: () => undefined });
      const analysis = createAnalysis(project);
      for (const text of texts) {
        project.update(uri, text);
        const fresh = lower(parseText(uri, text), { tree: (other) => project.tree(other) });
        expect(analysis.findings(analysis.circuit(uri)!), path).toEqual(findings(fresh));
      }
    }
  }
});

describe('an edit of a used file', () => {
  const types = 'type dark : single-coil { takes resistance 8k } // wound here\n';
  const text = twoPickups({
    'instrument "Alder': 'use "house.lug"\ninstrument "Alder',
    'neck     : single-coil': 'neck     : dark',
  });

  test.each([
    ['its comment', types.replace('wound here', 'wound by hand'), nothing],
    ['a default that nobody takes', types.replace('8k', '9k'), textOnly],
    ['another type beside it', `${types}type dim : single-coil { takes resistance 9k }\n`, textOnly],
  ])('%s', (_, after, expected) => expect(bench(text, { [house]: types }).edit(after, house)).toEqual(expected));
});
