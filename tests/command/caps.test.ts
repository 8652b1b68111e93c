/** A circuit with thousands of findings in every format that lists findings: the caps, what is left out, `--all`, and what counts all of them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { commands } from '../../server/command/commands/index.js';
import { inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { readMarkup } from '../harness/well-formed.js';
import { startEditor } from '../lsp/harness.js';

const repeat = (times: number, line: (index: number) => string): string[] =>
  Array.from({ length: times }, (_, index) => line(index));

/** Errors of five rules and warnings of one: 210 + 300 + 600 + 600 + 500 and 20, so that both caps are met. */
const many = [
  'instrument "Alder Lane no. 40"',
  'part volume : pot 250k',
  'part output : jack',
  'wire volume.2 to output.tip',
  'wire volume.1 to output.sleeve',
  ...repeat(21, () => 'wire volume.3 to volume.case'),
  ...repeat(301, () => 'part spare : resistor 10k'),
  ...repeat(600, () => 'wire volume.3'),
  ...repeat(600, () => 'wire volume.9 to volume.3'),
  ...repeat(500, (index) => `part c${index} : capacitor 12parsec`),
  '',
].join('\n');

/** The rules of the findings that an output lists, in its order, and the text that says how many are left out. */
interface Read {
  readonly rules: readonly string[];
  readonly said?: number;
}

const leftOut = /([\d,]+) more findings? (?:is|are) not listed/;

function saidIn(text: string | undefined): Pick<Read, 'said'> {
  const number = leftOut.exec(text ?? '')?.[1];
  return number === undefined ? {} : { said: Number(number.replaceAll(',', '')) };
}

/** With an entry of the rule `omitted` at the end, where any is left out. */
function withLast(entries: readonly (readonly [rule: string, text: string])[]): Read {
  const last = entries.at(-1);
  const isNote = last?.[0] === 'omitted';
  expect(entries.filter(([rule]) => rule === 'omitted')).toHaveLength(isNote ? 1 : 0);
  return { rules: (isNote ? entries.slice(0, -1) : entries).map(([rule]) => rule), ...(isNote ? saidIn(last[1]) : {}) };
}

interface Sarif {
  readonly runs: readonly { readonly results: readonly { readonly ruleId: string; readonly message: { text: string } }[] }[];
}

/** How each format is read. A format of a command that lists findings and has no reader here fails the test below. */
const readers: Readonly<Record<string, (out: string) => Read>> = {
  'check text': (out) => ({
    rules: [...out.matchAll(/: (?:error|warning|info|hint) \[([\w-]+)\]/g)].map(([, rule]) => rule!),
    ...saidIn(out),
  }),
  'check json': (out) => {
    const { files } = JSON.parse(out) as { files: { findings: { rule: string }[]; omitted?: number }[] };
    const [{ findings, omitted }] = files as [(typeof files)[0]];
    return { rules: findings.map(({ rule }) => rule), ...(omitted === undefined ? {} : { said: omitted }) };
  },
  'check sarif': (out) =>
    withLast((JSON.parse(out) as Sarif).runs[0]!.results.map(({ ruleId, message }) => [ruleId, message.text])),
  'check junit': (out) => {
    expect(readMarkup(out).problem).toBeUndefined();
    const cases = [...out.matchAll(/<testcase name="([\w-]+) [\d:]+"[^>]*>(.*?)<\/testcase>/gs)];
    expect(out).toContain(`<testsuites name="lugwork" tests="${cases.length}"`);
    return withLast(cases.map(([, rule, text]) => [rule!, text!]));
  },
  'check github': (out) =>
    withLast([...out.matchAll(/^::\w+ .*?,title=([\w-]+)::(.*)$/gm)].map(([, rule, text]) => [rule!, text!])),
  'compare text': (out) => ({
    rules: [...out.matchAll(/^ {2}[+~-] (?:error|warning|info) \[([\w-]+)\]/gm)].map(([, rule]) => rule!),
    ...saidIn(out),
  }),
  'compare markdown': (out) => ({
    rules: [...out.matchAll(/^- \*\*\w+\*\* (?:error|warning|info) \\\[([\w-]+)\\\]/gm)].map(([, rule]) => rule!),
    ...saidIn(out),
  }),
  'compare json': (out) => {
    const { findings, omitted } = JSON.parse(out) as { findings: { rule: string }[]; omitted?: number };
    return { rules: findings.map(({ rule }) => rule), ...(omitted === undefined ? {} : { said: omitted }) };
  },
};
/** They show no list of findings. */
const without = ['compare svg', 'compare github', 'compare release-note'];

const formats = commands
  .filter(({ options }) => options.some(({ name }) => name === 'all'))
  .flatMap(({ name, options }) =>
    options.find((option) => option.name === 'format')!.choices!.map((choice) => [name, choice] as const),
  );

let folder: string;
beforeAll(() => {
  folder = folderWith({ 'many.lug': many, 'none.lug': 'instrument "Alder Lane no. 40"\n' });
});

const lugwork = (...words: string[]) => inProcessAsync(words, folder);

test('every format of a command that lists findings has a reader', () => {
  const names = formats.map((words) => words.join(' '));
  expect(names.filter((name) => readers[name] === undefined)).toEqual(without);
  expect(Object.keys(readers).filter((name) => !names.includes(name))).toEqual([]);
  expect(names.length).toBeGreaterThanOrEqual(9);
});

describe.each(formats.filter((words) => !without.includes(words.join(' '))))('%s --format %s', (name, format) => {
  const operands = name === 'compare' ? ['none.lug', 'many.lug'] : ['many.lug'];
  test('lists at most 200 of a rule and 1,000 in all, says how many more, and with --all everything', async () => {
    const read = readers[`${name} ${format}`]!;
    const capped = read((await lugwork(name, '--format', format, ...operands)).out);
    const whole = read((await lugwork(name, '--format', format, '--all', ...operands)).out);
    expect(whole.rules.length).toBeGreaterThan(1900);
    expect(whole.said).toBeUndefined();
    const counts = new Map<string, number>();
    for (const rule of capped.rules) counts.set(rule, (counts.get(rule) ?? 0) + 1);
    expect(Math.max(...counts.values())).toBe(200);
    expect(capped.rules.length).toBeGreaterThanOrEqual(800);
    expect(capped.rules.length).toBeLessThanOrEqual(1000);
    expect(capped.said).toBe(whole.rules.length - capped.rules.length);
  });
});

describe('what counts all findings', () => {
  test('the summary and the exit code', async () => {
    const { code, out } = await lugwork('check', 'many.lug');
    expect(code).toBe(1);
    const [, errors, warnings] = /1 file checked: (\d+) errors, (\d+) warnings/.exec(out)!;
    expect(Number(errors)).toBeGreaterThanOrEqual(2000);
    expect(Number(warnings)).toBeGreaterThanOrEqual(20);
  });

  test('a baseline: it holds everything, and then nothing is left to count', async () => {
    const { out } = await lugwork('check', '--write-baseline', 'known.json', 'many.lug');
    const { findings } = JSON.parse(readFileSync(join(folder, 'known.json'), 'utf8')) as { findings: object[] };
    expect(findings.length).toBeGreaterThan(1900);
    expect(out).toBe(`${findings.length} findings of 1 file written to known.json\n`);
    const known = await lugwork('check', '--strict', '--baseline', 'known.json', 'many.lug');
    expect(known.code).toBe(0);
    expect(known.out).toContain(`${findings.length} known findings set aside`);
    // A log of what a baseline knows lists it, and keeps to the caps as well.
    const sarif = await lugwork('check', '--format', 'sarif', '--baseline', 'known.json', 'many.lug');
    const read = readers['check sarif']!(sarif.out);
    expect(read.rules.length).toBeLessThanOrEqual(1000);
    expect(read.rules.length + read.said!).toBe(findings.length);
  });

  test('fixed findings are counted, and listed up to the caps', async () => {
    await lugwork('check', '--write-baseline', 'before.json', 'many.lug');
    const before = readFileSync(join(folder, 'before.json'), 'utf8');
    const { findings } = JSON.parse(before) as { findings: object[] };
    const kept = folderWith({ 'many.lug': 'instrument "Alder Lane no. 40"\n', 'before.json': before });
    const { out } = await inProcessAsync(['check', '--baseline', 'before.json', 'many.lug'], kept);
    expect(out.match(/^ {2}fixed: .*\[/gm)!.length).toBeLessThanOrEqual(1000);
    const [, more] = /fixed: (\d+) more; --all lists them/.exec(out)!;
    expect(out.match(/^ {2}fixed: .*\[/gm)!.length + Number(more)).toBe(findings.length);
    expect(out).toContain(`${findings.length} of them fixed`);
  });
});

test('the editor’s list of problems keeps to the caps, with a last one that says how many there are more', async () => {
  const editor = await startEditor();
  const { uri } = await editor.open('many.lug', many);
  const listed = await editor.diagnostics(uri);
  const read = withLast(listed.map(({ code, message }) => [String(code), message]));
  const counts = read.rules.map((rule) => read.rules.filter((other) => other === rule).length);
  expect(Math.max(...counts)).toBe(200);
  expect(read.rules.length).toBeLessThanOrEqual(1000);
  expect(read.said! + read.rules.length).toBeGreaterThan(1900);
  for (const { message } of listed.slice(-1)) expect(message).toContain('`lugwork check --all` lists them');
});
