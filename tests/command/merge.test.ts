/** Three-way merges of circuits: as git's driver in a real repository, and random edits of which no line may be lost. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { mergeTexts } from '../../language/merge-texts.js';
import { base } from '../compare/cases.js';
import { read, root } from '../harness/checkout.js';
import { createDice, type Dice } from '../harness/dice.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { repositoryWith } from '../harness/repository.js';

const two = base('two');
const linesOf = (text: string): string[] => text.split('\n');

describe('statements', () => {
  test('neighbours that one side each changed, in a text that one side laid out anew', () => {
    const ours = two.replace('neck : single-coil 7.5k', 'neck : single-coil 8k');
    const theirs = two
      .replace('bridge : single-coil 7.5k', 'bridge   :  single-coil 7k')
      .replace('part neck :', 'part neck     :');
    const { text, conflicts } = mergeTexts(two, ours, theirs);
    expect(conflicts).toBe(0);
    expect(text).toBe(theirs.replace('part neck     : single-coil 7.5k', 'part neck : single-coil 8k'));
  });

  test('a layout that one side changed stays where the other changed nothing', () => {
    const theirs = two.replaceAll(' to ', '  to  ');
    const ours = `${two}\n// a note\n`;
    expect(mergeTexts(two, ours, theirs)).toEqual({ text: `${theirs}\n// a note\n`, conflicts: 0 });
  });

  test('readings of both sides are both kept, in one order whichever side is ours', () => {
    const [mine, other] = ['measured selector "bridge" : reads 7.4k\n', 'measured selector "neck" : reads 7.38k\n'];
    const merged = mergeTexts(two, two + mine, two + other);
    expect(merged).toEqual({ text: `${two}${mine}${other}`, conflicts: 0 });
    expect(mergeTexts(two, two + other, two + mine)).toEqual(merged);
    // One reading taken by both is one.
    expect(mergeTexts(two, two + mine, two + mine).text).toBe(two + mine);
  });

  test('one statement changed on both sides is a conflict between the marks of git', () => {
    const [mine, other] = ['part volume : pot 250k audio', 'part volume : pot 300k audio'];
    const pot = 'part volume : pot 500k audio';
    const { text, conflicts } = mergeTexts(two, two.replace(pot, mine), two.replace(pot, other));
    expect(conflicts).toBe(1);
    expect(text).toBe(two.replace(pot, `<<<<<<< ours\n${mine}\n=======\n${other}\n>>>>>>> theirs`));
    // Deleted here, changed there.
    expect(mergeTexts(two, two.replace(`${pot}\n`, ''), two.replace(pot, other)).conflicts).toBe(1);
  });

  test('a type is one statement; line ends and a missing last one are kept', () => {
    const type = 'type fine-pot : pot {\n  takes resistance 500k,\n    taper audio|linear\n}\n';
    const changed = type.replace('500k', '250k');
    expect(mergeTexts(type + two, changed + two, type.replace('audio|linear', 'linear|audio') + two).conflicts).toBe(1);
    const wide = (text: string): string => text.replaceAll('\n', '\r\n');
    expect(mergeTexts(wide(two), wide(two).trimEnd(), `${wide(two)}// a note\r\n`).text).toContain('\r\n// a note\r\n');
    const { text } = mergeTexts('part a : jack', 'part a : jack\nmeasured : reads 1k', 'part a : jack\nmeasured : reads 2k');
    expect(text).toBe('part a : jack\nmeasured : reads 1k\nmeasured : reads 2k');
  });
});

/** A text with some lines gone, changed, new, doubled or laid out otherwise. */
function edit(text: string, dice: Dice, mark: string): string {
  return linesOf(text)
    .flatMap((line, index) => {
      if (dice.percent(6)) return [];
      if (dice.percent(6)) return [`${line} // ${mark}${index}`];
      if (dice.percent(4)) return [line.replaceAll(' ', '  ')];
      if (dice.percent(4)) return [line, `measured : reads ${index + 1}k // ${mark}`];
      if (dice.percent(4)) return [line, `wire ${mark}.${index} to volume.case`];
      if (dice.percent(2)) return [line, `/** ${mark}`, `${index} */`, `type ${mark}${index} : pot {`, '  lugs a b', '}'];
      return dice.percent(2) ? [line, line] : [line];
    })
    .join(dice.percent(10) ? '\r\n' : '\n');
}

describe('random edits', () => {
  const texts = ['two', 'one', 'jacks', 'tone', 'phase'].map(base);

  test('with an unchanged side the other side comes out, byte for byte', () => {
    for (let seed = 0; seed < 300; seed++) {
      const dice = createDice(seed);
      const text = dice.pick(texts);
      const other = edit(text, dice, 'x');
      expect(mergeTexts(text, text, other), `seed ${seed}`).toEqual({ text: other, conflicts: 0 });
      expect(mergeTexts(text, other, text), `seed ${seed}`).toEqual({ text: other, conflicts: 0 });
      expect(mergeTexts(text, other, other), `seed ${seed}`).toEqual({ text: other, conflicts: 0 });
    }
  });

  test('no line that a side added is lost; what both left alone is there', () => {
    let clean = 0;
    const plain = (text: string): string[] => text.split(/\r?\n/).map((line) => line.replaceAll(/\s+/g, ' ').trim());
    for (let seed = 0; seed < 300; seed++) {
      const dice = createDice(1000 + seed);
      const text = dice.pick(texts);
      const [ours, theirs] = [edit(text, dice, 'x'), edit(text, dice, 'y')];
      const merged = mergeTexts(text, ours, theirs);
      const lines = plain(merged.text);
      const old = new Set(plain(text));
      const missing = [...plain(ours), ...plain(theirs)].filter((line) => !old.has(line) && !lines.includes(line));
      expect(missing, `seed ${seed}`).toEqual([]);
      const [mine, other] = [new Set(plain(ours)), new Set(plain(theirs))];
      expect(
        plain(text).filter((line) => mine.has(line) && other.has(line) && !lines.includes(line)),
        `seed ${seed}`,
      ).toEqual([]);
      expect(merged.text.match(/^<<<<<<< ours\r?$/gm)?.length ?? 0).toBe(merged.conflicts);
      if (merged.conflicts === 0) clean += 1;
    }
    expect(clean).toBeGreaterThan(20);
  });
});

describe('as git’s merge driver', () => {
  // The lines of the reference.
  const text = read('language/reference-command.md').replaceAll(/\s+/g, ' ');
  const [, driver = ''] = /`git config merge\.lug\.driver "lugwork ([^"]*)"`/.exec(text) ?? [];
  const [, attribute = ''] = /`(\*\.lug merge=lug)`/.exec(text) ?? [];
  const path = 'a shop/no-224.lug';
  const house = '/** A pot. */\ntype house-pot : pot { takes resistance 500k, taper audio|linear }\n';
  const built = `use "../parts/house.lug"\n${two.replace('pot 500k audio', 'house-pot')}`;

  function merged(ours: string, theirs: string) {
    const { folder, git, commit } = repositoryWith({
      [path]: built,
      'parts/house.lug': house,
      '.gitattributes': `${attribute}\n`,
    });
    git('config', 'merge.lug.driver', `'${process.execPath}' '${join(root, 'dist/lugwork.mjs')}' ${driver}`);
    git('checkout', '-q', '-b', 'branch');
    commit('Theirs', { [path]: theirs });
    git('checkout', '-q', 'main');
    commit('Ours', { [path]: ours });
    let [code, said] = [0, ''];
    try {
      said = git('merge', '--no-edit', 'branch');
    } catch (error) {
      const { status, stdout, stderr } = error as { status: number; stdout: string; stderr: string };
      [code, said] = [status, stdout + stderr];
    }
    return { code, said, text: readFileSync(join(folder, path), 'utf8'), status: git('status', '--porcelain') };
  }

  test('a clean merge is committed', () => {
    expect(driver).toBe('merge %O %A %B %P');
    const reading = 'measured selector "bridge" : reads 7.4k\n';
    const theirs = built.replace('white 22awg', 'red 22awg');
    expect(merged(`${built}${reading}`, theirs)).toMatchObject({ code: 0, text: `${theirs}${reading}`, status: '' });
  });

  test('a conflict is in the file, and what each side does is said', () => {
    const line = 'wire neck.hot to selector.B3';
    const [mine, other] = ['wire neck.hot to selector.A3', 'wire neck.hot to selector.B1'];
    const { code, said, text, status } = merged(built.replace(line, mine), built.replace(line, other));
    expect(code).toBe(1);
    expect(text).toBe(built.replace(line, `<<<<<<< ours\n${mine}\n=======\n${other}\n>>>>>>> theirs`));
    expect(status).toContain('UU');
    expect(said).toContain('ours: selector "both": sounds parallel(bridge, neck) becomes bridge');
    expect(said).toMatch(/theirs: selector .*neck/);
  });
});

test('a merge without conflict says what neither side does alone', () => {
  const folder = folderWith({
    'base.lug': two,
    'ours.lug': two.replace('wire neck.hot to selector.B3', 'wire neck.hot to selector.A3'),
    'theirs.lug': two.replace('wire bridge.hot to selector.A1', 'wire bridge.hot to selector.B1'),
    'bytes.lug': new Uint8Array([0, 1, 2]),
  });
  const { code, err } = inProcess(['merge', 'base.lug', 'ours.lug', 'theirs.lug'], folder);
  expect(code).toBe(0);
  expect(err).toContain('only in the merged circuit: selector');
  // Nothing new to say where one side did nothing.
  writeFileSync(join(folder, 'ours.lug'), two);
  expect(inProcess(['merge', 'base.lug', 'ours.lug', 'theirs.lug'], folder)).toEqual({ code: 0, out: '', err: '' });
  const before = readFileSync(join(folder, 'ours.lug'));
  expect(inProcess(['merge', 'base.lug', 'ours.lug', 'bytes.lug'], folder).code).toBe(2);
  expect(inProcess(['merge', 'none.lug', 'ours.lug', 'theirs.lug'], folder).code).toBe(2);
  expect(readFileSync(join(folder, 'ours.lug'))).toEqual(before);
});
