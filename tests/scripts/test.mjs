// `npm test`: makes the checkout ready, then types, lint, layout, generated files, the tests and the extension in a real editor; ends with one line of counts.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBuilt, ensureInstalled, root } from '../../server/scripts/setup.mjs';

const report = join(root, '.cache', 'vitest.json');

/** Named steps beside the tests; each counts as one. */
const steps = [
  ['types', 'tsc', ['-b']],
  ['lint', 'eslint', ['--max-warnings', '0', '.']],
  ['layout', 'prettier', ['--check', '--log-level', 'warn', '.']],
  ['generated files', process.execPath, [join(root, 'server', 'scripts', 'generate.mjs'), '--check']],
];

const counts = { passed: 0, failed: 0, skipped: 0 };
try {
  ensureInstalled();
  await ensureBuilt();
  // Two steps at a time: more would only wait for each other on a machine of two cores.
  const waiting = [...steps];
  await Promise.all([lane(waiting), lane(waiting)]);
  await tests();
  // Where only some tests are asked for, the editor is not among them.
  if (process.argv.length === 2) await editor();
} catch (error) {
  console.error(error.message);
  counts.failed += 1;
}
if (counts.failed > 0) process.exitCode = 1;
console.log(`${counts.passed} passed, ${counts.failed} failed${counts.skipped ? `, ${counts.skipped} skipped` : ''}`);

async function lane(waiting) {
  for (let step = waiting.shift(); step; step = waiting.shift()) {
    const [name, command, words] = step;
    const { code, text } = await run(command, words, false);
    console.log(code === 0 ? `${name}: good` : `${name}: FAILED\n${text}`);
    counts[code === 0 ? 'passed' : 'failed'] += 1;
  }
}

async function tests() {
  rmSync(report, { force: true });
  // A process started on a busy machine may take long; no test is judged by the clock.
  const limits = ['--maxWorkers', '2', '--testTimeout', '120000', '--hookTimeout', '120000'];
  const words = ['run', '--dir', 'tests', ...limits, '--reporter', 'default', '--reporter', 'json', '--outputFile.json', report];
  const { code } = await run('vitest', [...words, ...process.argv.slice(2)], true);
  if (!existsSync(report)) throw new Error('The tests did not run.');
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults } = JSON.parse(readFileSync(report, 'utf8'));
  const unread = testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0).length;
  counts.passed += numPassedTests;
  counts.failed += numFailedTests + unread;
  counts.skipped += numPendingTests + numTodoTests;
  if (numPassedTests + numFailedTests === 0) throw new Error('No test ran.');
  if (code !== 0 && counts.failed === 0) throw new Error(`The test runner ended with exit code ${code}.`);
}

/** The extension in a real editor, on the desktop's or a server's host and in a web worker. */
async function editor() {
  const { code, text } = await run(
    process.execPath,
    [join(root, 'server', 'scripts', 'run-ts.mjs'), 'tests/editor/main.ts', 'all'],
    false,
  );
  console.log(text);
  const [, passed, failed] = /^editor: (\d+) passed, (\d+) failed$/m.exec(text) ?? [];
  if (passed === undefined) throw new Error('The tests in the editor did not run.');
  counts.passed += Number(passed);
  counts.failed += Number(failed);
  if (code !== 0 && failed === '0') throw new Error(`The tests in the editor ended with exit code ${code}.`);
}

function run(command, words, isShown) {
  const isNode = command === process.execPath;
  const path = isNode ? command : join(root, 'node_modules', '.bin', process.platform === 'win32' ? `${command}.cmd` : command);
  return new Promise((resolve, reject) => {
    const child = spawn(path, words, {
      cwd: root,
      stdio: ['ignore', isShown ? 'inherit' : 'pipe', isShown ? 'inherit' : 'pipe'],
      shell: path.endsWith('.cmd'),
    });
    let text = '';
    child.stdout?.on('data', (part) => (text += part));
    child.stderr?.on('data', (part) => (text += part));
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, text }));
  });
}
