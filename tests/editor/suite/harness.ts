/** A small test runner that works in a Node process and in a web worker alike: tests in order, each with a time-out, a report at the end. */
import { reportMark, type SuiteReport, type TestResult } from '../hosts/report.js';

interface Test {
  readonly name: string;
  readonly body: () => Promise<void>;
}

const tests: Test[] = [];
/** Long, for a machine that is busy with other things: no test is judged by the clock. */
const patienceMs = 100_000;

/** Declares a test. */
export function test(name: string, body: () => Promise<void>): void {
  tests.push({ name, body });
}

/** Runs all tests whose name contains `only` and hands the report on after each, so that a host that dies leaves what it did. */
export async function runAll(host: string, only: string, publish: (report: SuiteReport) => Promise<void>): Promise<SuiteReport> {
  const results: TestResult[] = [];
  const chosen = tests.filter(({ name }) => name.includes(only));
  for (const one of chosen) {
    results.push(await runOne(one));
    await publish({ host, finished: results.length === chosen.length, results });
  }
  return { host, finished: true, results };
}

/** One line of a report, for hosts whose only way out is the console. */
export function reportLine(report: SuiteReport): string {
  return reportMark + JSON.stringify(report);
}

/** Waits until the probe gives something, or fails with the sentence and what it gave last. */
export async function eventually<T>(
  what: string,
  probe: () => T | undefined | false | PromiseLike<T | undefined | false>,
  withinMs = 30_000,
): Promise<T> {
  const end = performance.now() + withinMs;
  for (;;) {
    const found = await probe();
    if (found !== undefined && found !== false) return found;
    if (performance.now() > end) throw new Error(`not within ${withinMs / 1000} s: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** Fails with the sentence unless the condition holds. */
export function ensure(condition: boolean, sentence: string): asserts condition {
  if (!condition) throw new Error(sentence);
}

/** Fails unless both are the same, written out. */
export function same(found: unknown, expected: unknown, what: string): void {
  const [is, should] = [JSON.stringify(found), JSON.stringify(expected)];
  if (is !== should) throw new Error(`${what}: ${is} instead of ${should}`);
}

async function runOne({ name, body }: Test): Promise<TestResult> {
  const begin = performance.now();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`took longer than ${patienceMs / 1000} s`)), patienceMs);
  });
  try {
    await Promise.race([body(), late]);
    return { name, passed: true, milliseconds: Math.round(performance.now() - begin) };
  } catch (error) {
    return {
      name,
      passed: false,
      milliseconds: Math.round(performance.now() - begin),
      error: error instanceof Error ? error.message : String(error),
    };
  } finally {
    clearTimeout(timer);
  }
}
