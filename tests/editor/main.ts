/** The real editor from the command line: `usual|long|all [--prepared]`, which are the tiers of `npm test`, `install`, `suite [desktop|node|web] [--only TEXT]`, `screens [NAME…]`, `walk [THEME…]`. */
import { takeScreens } from './drive/screens.js';
import { isTier, prepare, readiness, tierHosts, tierParts, usualHosts, type Unready } from './hosts/prepare.js';
import type { HostName } from './hosts/host.js';
import { runSuite, type SuiteChoice, type SuiteRun } from './hosts/run-suite.js';

const [command = 'suite', ...rest] = process.argv.slice(3);

/** Screens that prove what no suite can see: the package installed, the Testing view, what the editor says after a crash, the panels in use. */
const proofs = [
  'packaged-error',
  'testing-view',
  'crash',
  'circuit-chosen',
  'pasted-table',
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
  'sheet-reloaded',
  'sheet-printed',
  'sheet-dark',
  'sheet-stepped',
  'sheet-measured',
  'sheet-refused',
  'sheet-written',
  'web-sheet',
];

const counts = { passed: 0, failed: 0 };
if (command === 'install') {
  const unready = await prepare(['node', 'web']);
  for (const [host, reason] of unready) console.log(`NOT INSTALLED: the ${host} host (${reason}).`);
  counts.failed = unready.size;
} else if (command === 'suite') {
  const { hosts, only } = suiteWords(rest);
  await suites(hosts, { only }, await prepare(hosts));
} else if (command === 'screens') {
  add(await takeScreens(rest, await prepare(['node', 'web'])));
} else if (command === 'walk') {
  add(await takeScreens(rest.length === 0 ? ['walk-'] : rest.map((theme) => `walk-${theme}`), await prepare(['node'])));
} else if (isTier(command)) {
  const parts = tierParts(command);
  const unready = rest.includes('--prepared') ? readiness(parts) : await prepare(parts);
  await suites(tierHosts(command), { tier: command }, unready);
  if (command !== 'usual') add(await takeScreens(proofs, unready));
} else {
  console.error(`unknown: ${command}`);
  process.exitCode = 2;
}
if (command !== 'install') console.log(`editor: ${counts.passed} passed, ${counts.failed} failed`);
if (counts.failed > 0) process.exitCode = 1;
// A browser or server that is slow to close must not keep the result waiting.
setTimeout(() => process.exit(), 3000).unref();

function suiteWords(words: readonly string[]): { hosts: HostName[]; only: string } {
  const at = words.indexOf('--only');
  const named = (at < 0 ? words : words.slice(0, at)) as HostName[];
  return { hosts: named.length > 0 ? named : usualHosts(), only: at < 0 ? '' : (words[at + 1] ?? '') };
}

/** Runs the suite on each host. One that can't run counts as one failed, and the next one still runs. */
async function suites(hosts: readonly HostName[], choice: SuiteChoice, unready: Unready): Promise<void> {
  for (const host of hosts) {
    const reason = unready.get(host);
    if (reason !== undefined) {
      console.log(`\nNOT RUN: the suite in the ${host} editor (${reason}).`);
      add({ passed: 0, failed: 1 });
      continue;
    }
    try {
      const run = await runSuite(host, choice);
      show(run);
      const failed = run.report?.results.filter((result) => !result.passed).length ?? 0;
      const passed = run.report?.results.filter((result) => result.passed).length ?? 0;
      add({ passed, failed: Math.max(failed, Math.min(run.reasons.length, 1)) });
    } catch (error) {
      console.log(`\nFAILED: the suite in the ${host} editor. ${error instanceof Error ? error.message : String(error)}`);
      add({ passed: 0, failed: 1 });
    }
  }
}

function add({ passed, failed }: { passed: number; failed: number }): void {
  counts.passed += passed;
  counts.failed += failed;
}

function show(run: SuiteRun): void {
  console.log(`\n${run.host} (${run.report?.host ?? 'host unknown'}), ${run.seconds.toFixed(1)} s`);
  for (const result of run.report?.results ?? []) {
    console.log(
      `  ${result.passed ? 'ok  ' : 'FAIL'} ${result.name} (${result.milliseconds} ms)${result.passed ? '' : `: ${result.error ?? 'no reason given'}`}`,
    );
  }
  if (run.reasons.length === 0) return;
  for (const reason of run.reasons) console.log(`  because ${reason}`);
  for (const line of run.log.slice(-40)) console.log(`  | ${line}`);
}
