/** The budget of a search: said in every format where it is spent, raised by `--effort`, the same on a machine that is busy. */
import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { expect, test } from 'vitest';
import { generateCircuit } from '../bench/circuits.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

const spoilt = generateCircuit(60).replace('wire volume2.2 to tone2.2', 'wire volume2.2 to tone2.3');
const folder = folderWith({ 'no-60.lug': spoilt });
const sentence = 'The search for fixes stopped when its budget ran out; none found so far.';
const hint = '`lugwork check --effort 0.004` searches longer.';

function check(...words: readonly string[]): string {
  const { code, out, err } = inProcess(['check', ...words, 'no-60.lug'], folder);
  expect(err).toBe('');
  expect([0, 1]).toContain(code);
  return out;
}

interface File {
  readonly incomplete?: readonly string[];
  readonly note?: string;
  readonly findings: readonly { readonly fixes: readonly { readonly title: string }[] }[];
}

function fileOf(...words: readonly string[]): File {
  return (JSON.parse(check('--format', 'json', ...words)) as { files: readonly File[] }).files[0]!;
}

function titles({ findings }: File): readonly string[] {
  return findings.flatMap(({ fixes }) => fixes.map(({ title }) => title));
}

test('a spent budget is reported in every format', () => {
  expect(check('--effort', '0.001')).toContain(`no-60.lug: ${sentence} ${hint}\n`);
  const file = fileOf('--effort', '0.001');
  expect(file.incomplete).toEqual(['repairs']);
  expect(file.note).toBe(`${sentence} ${hint}`);
  const sarif = JSON.parse(check('--format', 'sarif', '--effort', '0.001')) as {
    runs: { invocations: { executionSuccessful: boolean; toolExecutionNotifications: { message: { text: string } }[] }[] }[];
  };
  const [invocation] = sarif.runs[0]!.invocations;
  expect(invocation!.executionSuccessful).toBe(true);
  expect(invocation!.toolExecutionNotifications.map(({ message }) => message.text)).toEqual([`${sentence} ${hint}`]);
  expect(check('--format', 'junit', '--effort', '0.001')).toContain(
    `<system-out>${sentence} ${hint}</system-out>\n  </testsuite>`,
  );
  expect(check('--format', 'github', '--effort', '0.001')).toContain(`::notice file=no-60.lug::${sentence} ${hint}\n`);
});

test('more effort finds what less did not, and a search that is through says nothing', () => {
  const whole = fileOf();
  expect(whole.incomplete).toBeUndefined();
  expect(whole.note).toBeUndefined();
  expect(titles(whole)[0]).toBe('move the yellow wire of volume2.2 from tone2.3 to tone2.2: then tone2 has an effect');
  expect(titles(fileOf('--effort', '0.001'))).toEqual([]);
  expect(titles(fileOf('--effort', '4'))).toEqual(titles(whole));
});

test('with no effort nothing is searched, and nothing is incomplete', () => {
  const file = fileOf('--effort', '0');
  expect(titles(file)).toEqual([]);
  expect(file.incomplete).toBeUndefined();
  expect(file.findings.length).toBe(fileOf().findings.length);
});

test.each(['101', '-1', 'much', ''])('an effort of “%s” is refused', (effort) => {
  const { code, err } = inProcess(['check', `--effort=${effort}`, 'no-60.lug'], folder);
  expect(code).toBe(2);
  expect(err).toContain('--effort takes a number from 0 to 100');
});

test('a busy machine gives the same report, byte for byte', () => {
  const quiet = check('--format', 'json');
  // They end by themselves, should the test not come to end them.
  const loop = 'const end = Date.now() + 60_000; while (Date.now() < end);';
  const busy = Array.from({ length: 4 * availableParallelism() }, () =>
    spawn(process.execPath, ['-e', loop], { stdio: 'ignore' }),
  );
  try {
    expect(check('--format', 'json')).toBe(quiet);
  } finally {
    for (const one of busy) one.kill();
  }
});

test('locate says that its budget was spent, and with more effort it is not', () => {
  const measured = folderWith({ 'no-60.lug': `${generateCircuit(60)}measured : reads open\n` });
  const some = inProcess(['locate', '--effort', '0.01', 'no-60.lug'], measured);
  expect(some.code).toBe(0);
  expect(some.out).toMatch(/The search for faults stopped when its budget ran out; (none|\d+) found so far\.\n$/);
  expect(some.err).toBe('`lugwork locate --effort 0.04` searches longer.\n');
  const json = JSON.parse(inProcess(['locate', '--effort', '0.01', '--format', 'json', 'no-60.lug'], measured).out) as object;
  expect(json).toMatchObject({ incomplete: ['suspects'] });
  const whole = inProcess(['locate', '--effort', '100', 'no-60.lug'], measured);
  expect(whole.out).not.toContain('was stopped');
  expect(whole.out).toContain('Single faults, most likely first:');
});
