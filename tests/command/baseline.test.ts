/** `check --baseline`: an old circuit adopted with what is wrong in it, so that only new findings count. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { broken, clean } from './circuits.js';

function adopt(text: string): string {
  const folder = folderWith({ 'circuits/a.lug': text });
  const { code, out } = inProcess(['check', '--write-baseline', 'known.json', 'circuits'], folder);
  expect([code, out]).toEqual([0, expect.stringMatching(/^\d+ findings? of 1 file written to known\.json\n$/) as string]);
  return folder;
}

const check = (folder: string, ...words: string[]) =>
  inProcess(['check', '--baseline', 'known.json', ...words, 'circuits'], folder);

describe('a circuit with faults is adopted', () => {
  test('what is known does not count and is not told', () => {
    const folder = adopt(broken);
    const { code, out } = check(folder, '--strict');
    expect(code).toBe(0);
    expect(out).toMatch(/^1 file checked: no errors, no warnings\n\d+ known findings set aside by known\.json\n$/);
  });

  test('lines may move, comments come, statements change places', () => {
    const folder = adopt(broken);
    const [title, ...rest] = broken.split('\n');
    writeFileSync(join(folder, 'circuits/a.lug'), `// as bought\n\n${title!}\n// traced\n${rest.reverse().join('\n')}\n`);
    expect(check(folder, '--strict').code).toBe(0);
  });

  test('what is new counts, and alone is told', () => {
    const folder = adopt(broken);
    writeFileSync(join(folder, 'circuits/a.lug'), broken.replace('wire saddle         to volume.case\n', ''));
    const { code, out } = check(folder);
    expect(code).toBe(1);
    const reported = out.split('\n').filter((line) => /: (error|warning|info) \[/.test(line));
    expect(reported).toEqual([expect.stringContaining('[floating-metal] saddle is not on ground') as string]);
  });

  test('what is fixed is listed as fixed, in text and in JSON', () => {
    const folder = adopt(broken);
    writeFileSync(join(folder, 'circuits/a.lug'), clean);
    const { code, out } = check(folder);
    expect(code).toBe(0);
    expect(out).toContain('fixed: circuits/a.lug [loose-lead] neck.ground is not soldered to anything');
    const { baseline } = JSON.parse(check(folder, '--format', 'json').out) as { baseline: { gone: { rule: string }[] } };
    expect(baseline.gone.map(({ rule }) => rule)).toContain('loose-lead');
  });

  test('a second fault of the same kind is new', () => {
    const folder = adopt(broken);
    writeFileSync(join(folder, 'circuits/b.lug'), broken);
    expect(check(folder).code).toBe(1);
  });

  test('a file that was not checked has nothing fixed', () => {
    const folder = adopt(broken);
    writeFileSync(join(folder, 'circuits/c.lug'), clean);
    const { out } = inProcess(['check', '--baseline', 'known.json', 'circuits/c.lug'], folder);
    expect(out).not.toContain('fixed:');
  });

  test('paths are those from the baseline’s own folder, whatever the working folder', () => {
    const folder = adopt(broken);
    const { code } = inProcess(['check', '--baseline', '../known.json', 'a.lug'], join(folder, 'circuits'));
    expect(code).toBe(0);
    const { findings } = JSON.parse(readFileSync(join(folder, 'known.json'), 'utf8')) as { findings: { path: string }[] };
    expect(new Set(findings.map(({ path }) => path))).toEqual(new Set(['circuits/a.lug']));
  });
});

test.each([
  ['there is none', undefined, /can’t read the baseline.*--write-baseline known\.json creates one/],
  ['it is not JSON', '{', /is not JSON/],
  ['it is something else', '{"findings":[]}', /is not a baseline of version 1 or 2/],
  ['an entry is something else', '{"version":1,"findings":[{"path":1}]}', /is not a baseline of version 1 or 2/],
])('does not run where %s', (_, text, message) => {
  const folder = folderWith({ 'circuits/a.lug': clean, ...(text === undefined ? {} : { 'known.json': text }) });
  const { code, err } = check(folder);
  expect(code).toBe(2);
  expect(err).toMatch(message);
});
