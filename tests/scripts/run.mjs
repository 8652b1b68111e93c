// The sequence of a test run: a step that fails is counted, and all others still run.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { exclusion } from './tiers.mjs';

/**
 * Runs everything and gives the counts.
 *
 * - `steps`: named commands beside the tests, `[name, command, words]`; each counts as one.
 * - `prepare`: installs what is missing; gives the test files that can't run, with the reason.
 * - `tests`: the test runner's `command`, `words` and the `report` that it writes as JSON.
 * - `editor`: the command that runs the editor suites; left out where only some tests are asked for.
 */
export async function runAll({ build, prepare, steps, tests, editor }) {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  const guard = async (name, part) => {
    try {
      const { passed = 0, failed = 0, skipped = 0 } = (await part()) ?? {};
      counts.passed += passed;
      counts.failed += failed;
      counts.skipped += skipped;
    } catch (error) {
      console.error(`${name}: FAILED. ${error.message}`);
      counts.failed += 1;
    }
  };
  let unready = { files: [], reason: '' };
  await guard('preparation', async () => {
    unready = await prepare();
  });
  await guard('build', build);
  if (steps.length > 0) console.log(`Checking ${steps.map(([name]) => name).join(', ')} …`);
  // Two steps at a time: more would only wait for each other on a machine of two cores.
  const waiting = [...steps];
  const lane = async () => {
    for (let step = waiting.shift(); step; step = waiting.shift()) await guard(step[0], () => runStep(...step));
  };
  await Promise.all([lane(), lane()]);
  await guard('tests', () => runTests(tests, unready));
  if (editor) await guard('editor', () => runEditor(editor));
  return counts;
}

/** `N passed, N failed`, with the skipped ones where there are any. */
export function summary({ passed, failed, skipped }) {
  return `${passed} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ''}`;
}

/** Runs a command to its end; gives its exit code and what it printed. `shown` hands over the terminal instead, `echoed` prints a copy at once. */
export function runCommand(command, words, output = 'kept') {
  return new Promise((resolve, reject) => {
    const pipe = output === 'shown' ? 'inherit' : 'pipe';
    const child = spawn(command, words, { stdio: ['ignore', pipe, pipe], shell: command.endsWith('.cmd') });
    let text = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream?.setEncoding('utf8').on('data', (part) => {
        text += part;
        if (output === 'echoed') process.stdout.write(part);
      });
    }
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, text }));
  });
}

async function runStep(name, command, words) {
  const { code, text } = await runCommand(command, words);
  console.log(code === 0 ? `${name}: good` : `${name}: FAILED\n${text}`);
  return code === 0 ? { passed: 1 } : { failed: 1 };
}

async function runTests({ command, words, report }, { files, reason }) {
  const left =
    files.length === 0
      ? ''
      : `NOT RUN: ${files.length} test file${files.length === 1 ? '' : 's'} (${reason}), counted as failed: ${files.join(', ')}.`;
  rmSync(report, { force: true });
  const excluded = files.flatMap(exclusion);
  // Where each file that was asked for is left out, none is an error of its own.
  const { code } = await runCommand(command, [...words, ...excluded, ...(left ? ['--passWithNoTests'] : [])], 'shown');
  if (left) console.log(left);
  if (!existsSync(report)) throw new Error(`The test runner ended with exit code ${code} and wrote no report.`);
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults } = JSON.parse(readFileSync(report, 'utf8'));
  // A file that can't be read, or whose preparation fails, has no test that failed.
  const isUnread = ({ status, assertionResults }) =>
    status === 'failed' && !assertionResults.some((result) => result.status === 'failed');
  const unread = testResults.filter(isUnread).length;
  const failed = numFailedTests + unread;
  if (!left && numPassedTests + failed === 0) throw new Error('No test ran.');
  if (code !== 0 && failed === 0)
    console.error(`tests: FAILED. No test failed, but the test runner ended with exit code ${code}.`);
  return {
    passed: numPassedTests,
    failed: failed + files.length + (code !== 0 && failed === 0 ? 1 : 0),
    skipped: numPendingTests + numTodoTests,
  };
}

/** The extension in a real editor, on the desktop's or a server's host and in a web worker. */
async function runEditor({ command, words }) {
  const { code, text } = await runCommand(command, words, 'echoed');
  const [, passed, failed] = /^editor: (\d+) passed, (\d+) failed$/m.exec(text) ?? [];
  if (passed === undefined) throw new Error(`The tests in the editor ended with exit code ${code} and gave no counts.`);
  if (code !== 0 && failed === '0') throw new Error(`The tests in the editor ended with exit code ${code}.`);
  return { passed: Number(passed), failed: Number(failed) };
}
