/** The real editor from the command line: `all`, `install`, `suite [desktop|node|web] [--only TEXT]`, `screens [NAME…]`. */
import { takeScreens } from './drive/screens.js';
import { findDesktop } from './hosts/desktop-host.js';
import { installNodeHost } from './hosts/node-install.js';
import { runSuite, type HostName, type SuiteRun } from './hosts/run-suite.js';
import { installWebHost } from './hosts/web-install.js';

const [command = 'suite', ...rest] = process.argv.slice(3);

/** Screens that prove what no suite can see: the package installed, the Testing view, what is told after a crash. */
const proofs = [
  'packaged-error',
  'testing-view',
  'crash',
  'task',
  'drawing-played-light',
  'drawing-clicked',
  'drawing-turned',
  'drawing-saved',
  'drawing-broken',
  'drawing-accessible',
  'drawing-keyboard',
  'drawing-side',
  'drawing-wide',
  'web-drawing',
];

const counts = { passed: 0, failed: 0 };
if (command === 'install') {
  console.log(await installNodeHost());
  console.log((await installWebHost()).data);
} else if (command === 'suite') {
  await suites(rest);
} else if (command === 'screens') {
  add(await takeScreens(rest));
} else if (command === 'all') {
  await suites([]);
  add(await takeScreens(proofs));
} else {
  console.error(`unknown: ${command}`);
  process.exitCode = 2;
}
if (command !== 'install') console.log(`editor: ${counts.passed} passed, ${counts.failed} failed`);
if (counts.failed > 0) process.exitCode = 1;
// A browser or server that is slow to close must not keep the result waiting.
setTimeout(() => process.exit(), 3000).unref();

async function suites(words: readonly string[]): Promise<void> {
  const at = words.indexOf('--only');
  const only = at < 0 ? '' : words[at + 1];
  const named = (at < 0 ? words : words.slice(0, at)) as HostName[];
  const hosts = named.length > 0 ? named : usualHosts();
  for (const host of hosts) {
    const run = await runSuite(host, only);
    show(run);
    const failed = run.report?.results.filter((result) => !result.passed).length ?? 0;
    const passed = run.report?.results.filter((result) => result.passed).length ?? 0;
    add({ passed, failed: Math.max(failed, Math.min(run.reasons.length, 1)) });
  }
}

function add({ passed, failed }: { passed: number; failed: number }): void {
  counts.passed += passed;
  counts.failed += failed;
}

/** The desktop editor where one is installed, else VS Code's server; and always the web worker. */
function usualHosts(): HostName[] {
  const desktop = findDesktop();
  console.log(
    desktop === undefined
      ? 'No desktop editor is installed; the suite runs in the one from the registry.'
      : `Desktop editor: ${desktop}`,
  );
  return [desktop === undefined ? 'node' : 'desktop', 'web'];
}

function show(run: SuiteRun): void {
  console.log(`\n${run.host} (${run.report?.host ?? 'host unknown'}), ${run.seconds.toFixed(1)} s`);
  for (const result of run.report?.results ?? []) {
    console.log(`  ${result.passed ? 'ok  ' : 'FAIL'} ${result.name} (${result.milliseconds} ms)`);
  }
  if (run.reasons.length === 0) return;
  for (const reason of run.reasons) console.log(`  because ${reason}`);
  for (const line of run.log.slice(-40)) console.log(`  | ${line}`);
}
