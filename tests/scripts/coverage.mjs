// `npm run coverage`: which share of each layer's lines and branches the tests run. What they start as a process, or in an editor, is not counted; arguments go to the test runner.
import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { importTs } from '../../server/scripts/run-ts.mjs';
import { ensureBuilt, ensureInstalled, root } from '../../server/scripts/setup.mjs';

ensureInstalled();
await ensureBuilt();
const { prepare } = await importTs('tests/editor/hosts/prepare.ts');
await prepare(['browser']);
const folder = join(root, '.cache', 'coverage');
rmSync(folder, { recursive: true, force: true });

const layers = ['language', 'server', 'extension'];
const words = [
  ...['run', '--reporter', 'dot'],
  // These try what is packed, in processes and editors of their own.
  ...['--exclude', 'tests/release', '--exclude', 'tests/editor'],
  ...['--coverage.enabled', '--coverage.provider', 'v8', '--coverage.reportOnFailure'],
  ...['--coverage.reporter', 'json-summary', '--coverage.reportsDirectory', folder],
  ...layers.flatMap((layer) => ['--coverage.include', `${layer}/**/*.ts`]),
  ...['--coverage.exclude', '**/generated/**'],
];
const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
const run = spawnSync(process.execPath, [vitest, ...words, ...process.argv.slice(2)], { cwd: root, stdio: 'inherit' });

const counts = new Map();
const summary = JSON.parse(readFileSync(join(folder, 'coverage-summary.json'), 'utf8'));
for (const [path, { lines, branches }] of Object.entries(summary)) {
  if (path === 'total') continue;
  const steps = relative(root, path).split(/[\\/]/);
  // The stages and hosts one by one, the editor's side as one.
  const layer = steps[0] === 'extension' || steps.length < 3 ? steps[0] : `${steps[0]}/${steps[1]}`;
  const sums = counts.get(layer) ?? { lines: 0, linesRun: 0, branches: 0, branchesRun: 0 };
  sums.lines += lines.total;
  sums.linesRun += lines.covered;
  sums.branches += branches.total;
  sums.branchesRun += branches.covered;
  counts.set(layer, sums);
}
console.log('\n| layer | lines | run | branches | run |\n| --- | --: | --: | --: | --: |');
for (const [layer, { lines, linesRun, branches, branchesRun }] of [...counts].sort(([a], [b]) => (a < b ? -1 : 1)))
  console.log(`| ${layer} | ${lines} | ${share(linesRun, lines)} | ${branches} | ${share(branchesRun, branches)} |`);
process.exitCode = run.status ?? 1;

function share(part, whole) {
  return whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`;
}
