/** How `lugwork check` lists findings that follow from another, format by format, and what counts all of them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { readMarkup } from '../harness/well-formed.js';
import { clean } from './circuits.js';

/** Everything on the ends of the volume exchanged: the pot works backwards, and no reading with it turned down is as it was. */
const mirrored = `${clean
  .replace('selector.B0 to volume.3', 'selector.B0 to volume.1')
  .replace('solder volume.1 ', 'solder volume.3 ')}
expect selector "bridge" : sounds bridge
expect selector "neck" : sounds neck
expect volume 0 : silent
expect volume 0 : reads short
expect selector "both", volume 0 : reads short
`;

interface Json {
  readonly files: readonly [
    {
      readonly findings: readonly {
        readonly rule: string;
        readonly follows?: number;
        readonly fixes: readonly { readonly confidence: string }[];
      }[];
    },
  ];
}

const folder = folderWith({ 'a.lug': mirrored });
const lugwork = (...words: string[]) => inProcess(['check', ...words, 'a.lug'], folder);
const { findings } = (JSON.parse(lugwork('--format', 'json').out) as Json).files[0];
const total = findings.length;
const following = findings.filter(({ follows }) => follows !== undefined);

test('in JSON what follows from another has the number of its cause', () => {
  expect(following.length).toBeGreaterThanOrEqual(3);
  for (const { follows } of following) expect(findings[follows!]).toMatchObject({ rule: 'backwards-control' });
  expect(findings.filter(({ rule }) => rule === 'backwards-control').map(({ follows }) => follows)).toEqual([undefined]);
  const words = new Set(findings.flatMap(({ fixes }) => fixes.map(({ confidence }) => confidence)));
  for (const word of words) expect(['sure', 'likely', 'possible']).toContain(word);
});

describe('as text', () => {
  const places = (out: string) => [...out.matchAll(/^a\.lug:\d+:\d+: \w+ \[([\w-]+)\]/gm)].map(([, rule]) => rule);

  test('only the cause is listed and says how many follow, and the summary counts all', () => {
    const { code, out } = lugwork();
    expect(code).toBe(1);
    expect(places(out)).toEqual(['backwards-control']);
    expect(out).toContain(`\n  and ${following.length} more follow from it\n`);
    expect(out).toMatch(
      new RegExp(`^1 file checked: ${total} errors; ${following.length} of them follow from another, --all lists them$`, 'm'),
    );
  });

  test('with --all everything is listed, with the place of its cause', () => {
    const { out } = lugwork('--all');
    expect(places(out)).toHaveLength(total);
    expect(out.match(/^ {2}follows from a\.lug:\d+:\d+ \[backwards-control\]$/gm)).toHaveLength(following.length);
    expect(out).toMatch(new RegExp(`^1 file checked: ${total} errors$`, 'm'));
  });

  test('a fix that is not sure says so', () => {
    const unstated = folderWith({ 'a.lug': mirrored.replace(/^expect.*\n/gm, '') });
    expect(inProcess(['check', 'a.lug'], unstated).out).toMatch(/^ {2}try \(possible\): \S/m);
  });
});

test('beside a change in a hosted build only causes are shown', () => {
  const lines = lugwork('--format', 'github').out.trimEnd().split('\n');
  expect(lines).toHaveLength(1);
  expect(lines[0]).toMatch(new RegExp(`title=backwards-control::.*and ${following.length} more follow from it$`));
  expect(lugwork('--format', 'github', '--all').out.trimEnd().split('\n')).toHaveLength(total);
});

test('as JUnit each is a case, causes first', () => {
  const { out } = lugwork('--format', 'junit');
  expect(readMarkup(out).problem).toBeUndefined();
  expect(out).toContain(`tests="${total}" failures="${total}"`);
  expect(/<testcase name="([\w-]+) /.exec(out)![1]).toBe('backwards-control');
  expect(out.match(/follows from \d+:\d+/g)).toHaveLength(following.length);
});

test('as SARIF causes come first, and what follows refers to them', () => {
  interface Result {
    readonly ruleId: string;
    readonly partialFingerprints: Readonly<Record<string, string>>;
    readonly relatedLocations?: readonly { readonly message: { readonly text: string } }[];
    readonly properties?: { readonly follows: string };
  }
  const log = JSON.parse(lugwork('--format', 'sarif').out) as { runs: [{ results: Result[] }] };
  const [cause, ...others] = log.runs[0].results;
  expect(cause!.ruleId).toBe('backwards-control');
  expect(others).toHaveLength(following.length);
  for (const { properties, relatedLocations } of others) {
    expect(Object.values(cause!.partialFingerprints)).toContain(properties!.follows);
    expect(relatedLocations!.at(-1)!.message.text).toMatch(/^follows from: volume works backwards/);
  }
});

test('a baseline holds all of them, and what is new follows from nothing that is known', () => {
  expect(lugwork('--write-baseline', 'known.json').out).toBe(`${total} findings of 1 file written to known.json\n`);
  const known = JSON.parse(readFileSync(join(folder, 'known.json'), 'utf8')) as { findings: { rule: string }[] };
  expect(known.findings).toHaveLength(total);
  expect(lugwork('--baseline', 'known.json').code).toBe(0);
});

test('with --effort 0 nothing is searched, so nothing is said to follow', () => {
  const { out } = lugwork('--effort', '0');
  expect(out).toMatch(new RegExp(`^1 file checked: ${total} errors$`, 'm'));
});
