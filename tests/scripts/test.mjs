// `npm test`: makes the machine and the checkout ready, then types, lint, layout, generated files, the tests and the extension in a real editor, by tiers; ends with one line of counts.
import { join } from 'node:path';
import { importTs } from '../../server/scripts/run-ts.mjs';
import { ensureBuilt, ensureInstalled, root } from '../../server/scripts/setup.mjs';
import { runAll, runCommand, summary } from './run.mjs';
import { fileWords, parseCall } from './tiers.mjs';

const report = join(root, '.cache', 'vitest.json');
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
  let call;
  try {
    call = parseCall(process.argv.slice(2));
    ensureInstalled();
  } catch (error) {
    console.error(`Nothing was run. ${error.message}`);
    return { passed: 0, failed: 1, skipped: 0 };
  }
  const { tier } = call;
  // What is named goes to the test runner, and nothing else runs.
  const words = tier === undefined ? call.words : fileWords(tier);
  const editor = { command: process.execPath, words: [runTs, 'tests/editor/main.ts', tier, '--prepared'] };
  return runAll({
    prepare: () => prepare(words, tier),
    build: ensureBuilt,
    steps: tier === 'usual' || tier === 'all' ? steps : [],
    tests: { command: tool('vitest'), words: ['run', ...reporters, ...words], report },
    editor: tier === undefined ? undefined : editor,
  });
}

/** Installs what the run needs: for a tier the browser and the editors, else the browser where a named file opens one. */
async function prepare(words, tier) {
  const { browserTestsAmong } = await importTs('tests/scripts/browser-tests.ts');
  const { prepare, tierParts } = await importTs('tests/editor/hosts/prepare.ts');
  // Last, since a word after it would be taken for the file to write the list to.
  const { code, text } = await runCommand(tool('vitest'), ['list', '--filesOnly', ...words, '--json']);
  // What is wrong with the arguments the tests themselves will say.
  const files = code === 0 ? browserTestsAmong(JSON.parse(text).map(({ file }) => file)) : [];
  const unready = await prepare([...(files.length > 0 ? ['browser'] : []), ...(tier === undefined ? [] : tierParts(tier))]);
  return unready.has('browser') ? { files, reason: unready.get('browser') } : { files: [], reason: '' };
}

function tool(name) {
  return join(root, 'node_modules', '.bin', process.platform === 'win32' ? `${name}.cmd` : name);
}
