/** SARIF logs held against the published JSON schema of SARIF 2.1.0 (OASIS; the copy is the one of the package @microsoft/jest-sarif, MIT). */
import { Ajv, type ValidateFunction } from './ajv.js';
import { realpathSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import { read, root } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { broken, clean } from './circuits.js';

const schema = JSON.parse(read('tests/command/reference/sarif-2.1.0-rtm.5.json')) as object;
const validate: ValidateFunction = new Ajv({
  schemaId: 'auto',
  meta: false,
  unknownFormats: 'ignore',
  logger: false,
  validateSchema: false,
}).compile(schema);

function log(
  words: readonly string[],
  cwd: string,
): { readonly runs: readonly { readonly results: readonly Record<string, unknown>[] }[] } {
  const { out } = inProcess(['check', '--format', 'sarif', ...words], cwd);
  const parsed = JSON.parse(out) as ReturnType<typeof log>;
  expect(validate(parsed) ? [] : validate.errors).toEqual([]);
  return parsed;
}

test('the schema refuses what is no log', () => {
  expect(validate({ version: '2.1.0' })).toBe(false);
  expect(validate({ version: '2.1.0', runs: [{ tool: { driver: { name: 'a' } }, results: [{ ruleId: 'x' }] }] })).toBe(false);
});

test('a clean circuit, a broken one, a text of errors, every faulty example', () => {
  const folder = folderWith({ 'a.lug': clean, 'b ö#.lug': broken, 'c.lug': 'part : \nwire a.b to\n' });
  expect(log(['.'], folder).runs[0]!.results.length).toBeGreaterThan(2);
  expect(log(['examples/faulty', 'examples'], root).runs[0]!.results.length).toBeGreaterThan(40);
});

test('with a baseline: states new, unchanged and absent', () => {
  const without = (text: string, wire: string): string => text.replace(new RegExp(`^wire ${wire} .*\n`, 'm'), '');
  const folder = folderWith({ 'a.lug': without(broken, 'saddle') });
  inProcess(['check', '--write-baseline', 'known.json', 'a.lug'], folder);
  writeFileSync(join(folder, 'a.lug'), without(without(clean, 'saddle'), 'selector.frame'));
  const { results } = log(['--baseline', 'known.json', 'a.lug'], folder).runs[0]!;
  const states = results.map(
    ({ baselineState, message }) => `${String(baselineState)}: ${(message as { text: string }).text.split('\n')[0]!}`,
  );
  expect(states).toContain('new: selector.frame is not on ground: nothing is soldered to it');
  expect(states).toContain('unchanged: saddle is not on ground: nothing is soldered to it');
  expect(states).toContainEqual(expect.stringMatching(/^absent: neck\.ground is not soldered to anything/));
});

test('a log that says that a search was stopped', () => {
  const folder = folderWith({ 'no-3.lug': clean.replace(/^(wire neck\.hot\s+to )selector\.\w+/m, '$1selector.B1') });
  const { runs } = log(['--effort', '0.0001', 'no-3.lug'], folder);
  expect(runs[0]).toMatchObject({ invocations: [{ toolExecutionNotifications: [{ level: 'note' }] }] });
});

test('what an allow sets aside is suppressed in source, with its reason, and does not count', () => {
  const faulty = clean.replace(/^wire saddle .*\n/m, '');
  const allow = 'allow floating-metal on saddle "a wooden bridge"';
  const folder = folderWith({ 'a.lug': `${faulty}${allow}\n`, 'b.lug': faulty });
  const { results } = log(['a.lug'], folder).runs[0]!;
  expect(inProcess(['check', '--strict', 'a.lug'], folder).code).toBe(0);
  expect(inProcess(['check', '--strict', '--format', 'sarif', 'a.lug'], folder).code).toBe(0);
  const startLine = faulty.split('\n').length;
  expect(results.map(({ ruleId, suppressions }) => ({ ruleId, suppressions }))).toMatchObject([
    {
      ruleId: 'floating-metal',
      suppressions: [
        { kind: 'inSource', justification: 'a wooden bridge', location: { physicalLocation: { region: { startLine } } } },
      ],
    },
  ]);
  // Empty for those that count: either all results of a run say it or none does.
  expect(log(['b.lug'], folder).runs[0]!.results.map(({ suppressions }) => suppressions)).toEqual([[]]);
});

test('places are given from the repository’s root, wherever the command runs; what lies elsewhere by its address', () => {
  const folder = folderWith({ 'repo/.git/HEAD': '', 'repo/a shop/new/b.lug': broken, 'far.lug': broken });
  const places = (words: readonly string[], cwd: string) => {
    const [run] = log(words, join(folder, cwd)).runs as unknown as [Run];
    const locations = run.results.map(({ locations: [at] }) => at.physicalLocation.artifactLocation);
    return { root: run.originalUriBaseIds['%SRCROOT%']!.uri, first: locations[0], artifacts: run.artifacts };
  };
  const inRepository = { uri: 'a%20shop/new/b.lug', uriBaseId: '%SRCROOT%' };
  for (const [words, cwd] of [
    [['.'], 'repo'],
    [['b.lug'], 'repo/a shop/new'],
    [[join(folder, 'repo/a shop/new/b.lug')], 'repo/a shop'],
  ] as const) {
    const { root: base, first, artifacts } = places(words, cwd);
    expect(base).toBe(`${pathToFileURL(realpathSync(join(folder, 'repo'))).href}/`);
    expect(first).toEqual(inRepository);
    expect(artifacts).toEqual([{ location: inRepository }]);
    // As SARIF 2.1.0 resolves it (3.4.4): the base address, then the relative one.
    expect(new URL(first!.uri, base).href).toBe(pathToFileURL(realpathSync(join(folder, 'repo/a shop/new/b.lug'))).href);
  }
  expect(places(['../far.lug'], 'repo').first).toEqual({ uri: pathToFileURL(join(folder, 'far.lug')).href });
  // Without a repository it is the working folder.
  const { root: base, first } = places(['far.lug'], '.');
  expect(base).toBe(`${pathToFileURL(realpathSync(folder)).href}/`);
  expect(first).toEqual({ uri: 'far.lug', uriBaseId: '%SRCROOT%' });
});

interface Place {
  readonly uri: string;
  readonly uriBaseId?: string;
}

interface Run {
  readonly originalUriBaseIds: Readonly<Record<string, { readonly uri: string }>>;
  readonly artifacts: readonly { readonly location: Place }[];
  readonly results: readonly {
    readonly locations: readonly [{ readonly physicalLocation: { readonly artifactLocation: Place } }];
  }[];
}
