/** Runs tests: asks the server which `expect` lines hold, and tells of the others what is so instead. */
import {
  l10n,
  Location,
  TestMessage,
  workspace,
  type CancellationToken,
  type TestController,
  type TestItem,
  type TestRun,
  type TestRunRequest,
  type Uri,
} from 'vscode';
import type { ExpectationOutcome } from '../../server/protocol.js';
import type { ServerLink } from '../server-link.js';
import { refreshFile, toRange } from './items.js';

/** Runs what is asked for, file by file. */
export async function runTests(
  controller: TestController,
  link: ServerLink,
  request: TestRunRequest,
  token: CancellationToken,
): Promise<void> {
  const run = controller.createTestRun(request);
  try {
    for (const { uri, items } of await collect(controller, link, request)) {
      if (token.isCancellationRequested) break;
      items.forEach((item) => run.started(item));
      const outcomes = await link.request('lugwork/checkExpectations', { uri: uri.toString(), lines: items.map(lineOf) });
      run.appendOutput(`${workspace.asRelativePath(uri)}\r\n`);
      for (const item of items) {
        const outcome = outcomes.find(({ range }) => range.start.line === lineOf(item));
        if (outcome === undefined) run.errored(item, new TestMessage(l10n.t('This line has moved; run it again.')));
        else if (outcome.held) run.passed(item);
        else run.failed(item, messages(uri, outcome));
        if (outcome !== undefined) report(run, uri, item, outcome);
      }
    }
  } finally {
    run.end();
  }
}

interface FileTests {
  readonly uri: Uri;
  readonly items: readonly TestItem[];
}

/** The tests asked for, or all, without those set aside; a file that was never opened in the view is read first. */
async function collect(controller: TestController, link: ServerLink, request: TestRunRequest): Promise<FileTests[]> {
  const roots: TestItem[] = [];
  if (request.include === undefined) controller.items.forEach((item) => roots.push(item));
  else roots.push(...request.include);
  const byFile = new Map<string, { uri: Uri; items: TestItem[] }>();
  const add = (item: TestItem): void => {
    if (item.uri === undefined || request.exclude?.includes(item) === true) return;
    const file = byFile.get(item.uri.toString()) ?? { uri: item.uri, items: [] };
    file.items.push(item);
    byFile.set(item.uri.toString(), file);
  };
  for (const root of roots) {
    if (root.parent === undefined && root.uri !== undefined) {
      await refreshFile(controller, link, root.uri);
      root.children.forEach(add);
    } else add(root);
  }
  return [...byFile.values()];
}

/** Each claim on a line of the run's output. */
function report(run: TestRun, uri: Uri, item: TestItem, { claims }: ExpectationOutcome): void {
  for (const { text, held, instead, range } of claims) {
    const verdict = held ? l10n.t('met:') : l10n.t('not met:');
    run.appendOutput(
      `  ${verdict.padEnd(9)} ${text}${instead === undefined ? '' : `; ${instead}`}\r\n`,
      new Location(uri, toRange(range)),
      item,
    );
  }
}

function lineOf(item: TestItem): number {
  return item.range?.start.line ?? -1;
}

function messages(uri: Uri, { claims }: ExpectationOutcome): TestMessage[] {
  return claims
    .filter(({ held }) => !held)
    .map(({ text, instead, range }) => {
      const message = new TestMessage(
        instead === undefined ? l10n.t('Not met: {0}.', text) : l10n.t('Expected {0}; {1}.', text, instead),
      );
      message.location = new Location(uri, toRange(range));
      return message;
    });
}
