// `npm test`: makes the machine and the checkout ready, then types, lint, layout, generated files, the tests and the extension in a real editor; ends with one line of counts.
import { join } from 'node:path';
import { importTs } from '../../server/scripts/run-ts.mjs';
import { ensureBuilt, ensureInstalled, root } from '../../server/scripts/setup.mjs';
import { runAll, runCommand, summary } from './run.mjs';

// What follows the command goes to the test runner; then nothing runs but the tests that it names.
const asked = process.argv.slice(2);
const isWhole = asked.length === 0;
const report = join(root, '.cache', 'vitest.json');
// A process started on a busy machine may take long; no test is judged by the clock.
const limits = ['--maxWorkers', '2', '--testTimeout', '120000', '--hookTimeout', '120000'];
const reporters = ['--reporter', 'default', '--reporter', 'json', '--outputFile.json', report];
const runTs = join(root, 'server', 'scripts', 'run-ts.mjs');
const steps = [
  ['types', tool('tsc'), ['-b']],
  ['lint', tool('eslint'), ['--max-warnings', '0', '.']],
  ['layout', tool('prettier'), ['--check', '--log-level', 'warn', '.']],
  ['generated files', process.execPath, [join(root, 'server', 'scripts', 'generate.mjs'), '--check']],
];

process.chdir(root);
const counts = await run();
if (counts.failed > 0) process.exitCode = 1;
console.log(summary(counts));

async function run() {
  try {
    ensureInstalled();
  } catch (error) {
    console.error(`Nothing was run. ${error.message}`);
    return { passed: 0, failed: 1, skipped: 0 };
  }
  return runAll({
    prepare,
    build: ensureBuilt,
    steps: isWhole ? steps : [],
    tests: { command: tool('vitest'), words: ['run', '--dir', 'tests', ...limits, ...reporters, ...asked], report },
    editor: isWhole ? { command: process.execPath, words: [runTs, 'tests/editor/main.ts', 'all', '--prepared'] } : undefined,
  });
}

/** Installs what the run needs: in a whole run the browser and the editors, else the browser where a named file opens one. */
async function prepare() {
  const { browserTestsAmong } = await importTs('tests/scripts/browser-tests.ts');
  const { prepare, wholeRunParts } = await importTs('tests/editor/hosts/prepare.ts');
  const { code, text } = await runCommand(tool('vitest'), ['list', '--filesOnly', '--json', '--dir', 'tests', ...asked]);
  // What is wrong with the arguments the tests themselves will say.
  const files = code === 0 ? browserTestsAmong(JSON.parse(text).map(({ file }) => file)) : [];
  const unready = await prepare([...(files.length > 0 ? ['browser'] : []), ...(isWhole ? wholeRunParts() : [])]);
  return unready.has('browser') ? { files, reason: unready.get('browser') } : { files: [], reason: '' };
}

function tool(name) {
  return join(root, 'node_modules', '.bin', process.platform === 'win32' ? `${name}.cmd` : name);
}
