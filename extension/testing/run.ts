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
  Uri,
} from 'vscode';
import type { ExpectationOutcome } from '../../server/protocol.js';
import type { ServerLink } from '../server-link.js';
import { toRange, type Items } from './items.js';

/** Runs, and which files have results. */
export interface Runs {
  /** Runs what is asked for, file by file; what is not kept leaves no trace in the list of earlier runs. */
  run(request: TestRunRequest, token?: CancellationToken, options?: { readonly isKept: boolean }): Promise<void>;
  has(file: TestItem): boolean;
}

export function createRuns(controller: TestController, link: ServerLink, items: Items): Runs {
  const withResults = new WeakSet<TestItem>();
  return {
    has: (file) => withResults.has(file),
    async run(request, token, { isKept } = { isKept: true }) {
      const run = controller.createTestRun(request, undefined, isKept);
      try {
        for (const { file, uri, lines } of await collect(items, request)) {
          if (token?.isCancellationRequested === true) break;
          await runFile(link, run, uri, lines);
          withResults.add(file);
        }
      } finally {
        run.end();
      }
    },
  };
}

async function runFile(link: ServerLink, run: TestRun, uri: Uri, lines: readonly TestItem[]): Promise<void> {
  lines.forEach((item) => run.started(item));
  const outcomes = await link.request('lugwork/checkExpectations', { uri: uri.toString(), lines: lines.map(lineOf) });
  run.appendOutput(`${workspace.asRelativePath(uri)}\r\n`);
  for (const item of lines) {
    const outcome = outcomes.find(({ range }) => range.start.line === lineOf(item));
    if (outcome === undefined) run.errored(item, new TestMessage(l10n.t('This line has moved; run it again.')));
    else if (outcome.held) run.passed(item);
    else run.failed(item, messages(uri, outcome));
    if (outcome !== undefined) report(run, item, outcome);
  }
}

interface FileTests {
  readonly file: TestItem;
  readonly uri: Uri;
  readonly lines: readonly TestItem[];
}

/** The tests asked for, or all, without those set aside; a file that was never opened in the view is read first. */
async function collect(items: Items, { include, exclude = [] }: TestRunRequest): Promise<FileTests[]> {
  const tests: FileTests[] = [];
  const chosen = include ?? [undefined];
  for (const root of chosen) {
    const files = items.filesBelow(root).filter((file) => !exclude.includes(file) && (root === file || !isLeftOut(file, root)));
    for (const file of files) {
      const { uri } = file;
      if (uri === undefined) continue;
      await items.refresh(uri);
      const lines: TestItem[] = [];
      file.children.forEach((line) => lines.push(line));
      tests.push({ file, uri, lines: lines.filter((line) => !exclude.includes(line)) });
    }
    if (root?.uri !== undefined && root.range !== undefined && root.parent !== undefined)
      tests.push({ file: root.parent, uri: root.uri, lines: [root] });
  }
  return joined(tests);
}

/** Each file once, with all that is wanted of it. */
function joined(tests: readonly FileTests[]): FileTests[] {
  const byFile = new Map<TestItem, FileTests>();
  for (const { file, uri, lines } of tests)
    byFile.set(file, { file, uri, lines: [...new Set([...(byFile.get(file)?.lines ?? []), ...lines])] });
  return [...byFile.values()];
}

/** True where a file lies in a folder that is run only when it is chosen, and the one chosen is not in it. */
function isLeftOut({ uri }: TestItem, root: TestItem | undefined): boolean {
  const folder = uri && workspace.getWorkspaceFolder(uri);
  if (uri === undefined || folder === undefined) return false;
  const leftOut = workspace.getConfiguration('lugwork', uri).get<readonly string[]>('testing.leaveOut', []);
  return leftOut.some((path) => {
    const address = `${Uri.joinPath(folder.uri, path).toString().replace(/\/$/, '')}/`;
    return uri.toString().startsWith(address) && !`${root?.uri?.toString() ?? ''}/`.startsWith(address);
  });
}

/** Each claim on a line of the run's output. With a place an editor would write it behind the line too, where the text says it already. */
function report(run: TestRun, item: TestItem, { setting, claims }: ExpectationOutcome): void {
  run.appendOutput(`  ${setting === '' ? l10n.t('all controls at rest') : setting}\r\n`, undefined, item);
  for (const { text, held, instead } of claims) {
    const verdict = held ? l10n.t('met:') : l10n.t('not met:');
    run.appendOutput(`    ${verdict.padEnd(9)} ${text}${instead === undefined ? '' : `; ${instead}`}\r\n`, undefined, item);
  }
}

function lineOf(item: TestItem): number {
  return item.range?.start.line ?? -1;
}

function messages(uri: Uri, { setting, claims }: ExpectationOutcome): TestMessage[] {
  const at = setting === '' ? l10n.t('all controls at rest') : setting;
  return claims
    .filter(({ held }) => !held)
    .map(({ text, instead, range }) => {
      const message = new TestMessage(
        instead === undefined ? l10n.t('{0}: not met: {1}.', at, text) : l10n.t('{0}: expected {1}; {2}.', at, text, instead),
      );
      message.location = new Location(uri, toRange(range));
      return message;
    });
}
