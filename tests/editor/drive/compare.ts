/** A comparison on a screen: with the last commit from the source control view, with another file, and in the gutter. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from '../hosts/place.js';
import { panelOf } from './drawing.js';
import type { Group } from './pictures.js';
import type { Screen } from './screen.js';

const size = { width: 1700, height: 1100 };

/** A repository with one commit, and a wire moved since; made when it is first asked for. */
function repository(): string {
  const folder = mkdtempSync(join(tmpdir(), 'lw-repository-'));
  const git = (...words: string[]): void => {
    const names = ['-c', 'user.name=Alder Lane', '-c', 'user.email=bench@example.invalid', '-c', 'commit.gpgsign=false'];
    execFileSync('git', [...names, ...words], { cwd: folder });
  };
  const text = readFileSync(join(root, 'examples', 'phase-switch.lug'), 'utf8');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'no-14.lug'), text);
  writeFileSync(join(folder, 'no-3.lug'), readFileSync(join(root, 'examples', 'two-single-coils-lever-3.lug')));
  git('init', '-q', '-b', 'main');
  git('add', '.');
  git('commit', '-qm', 'As built');
  const moved = text
    .replace('wire phase.B1    to phase.A2 bare 24awg', 'wire phase.B1    to phase.A1 bare 24awg')
    .replace('wire volume.2    to output.tip white 22awg', 'wire volume.2    to output.tip yellow 22awg');
  writeFileSync(join(folder, 'no-14.lug'), moved);
  return folder;
}

async function withCommit(screen: Screen): Promise<void> {
  await screen.openFile('no-14.lug');
  await screen.page.keyboard.press('Control+Shift+KeyG');
  const row = screen.page.locator('.scm-view .monaco-list-row', { hasText: 'no-14.lug' });
  await row.waitFor({ timeout: 60_000 });
  await row.click({ button: 'right' });
  await screen.page.locator('.monaco-menu .action-label', { hasText: 'Compare with the Last Commit' }).click();
  const panel = panelOf(screen);
  await panel.locator('.changes button', { hasText: 'wire phase.B1 to phase.A2' }).click({ timeout: 60_000 });
  await panel.locator('.chosen').nth(1).waitFor();
}

async function inTheGutter(screen: Screen): Promise<void> {
  await screen.openFile('no-14.lug');
  await screen.page.locator('.cgmr[class*=TextEditorDecorationType]').first().waitFor({ timeout: 60_000 });
  await screen.goTo('wire phase.B1');
  await screen.command('Show or Focus Hover');
  await screen.page.locator('.monaco-hover', { hasText: 'Since the last commit' }).first().waitFor();
}

async function withFile(screen: Screen): Promise<void> {
  await screen.openFile('no-14.lug');
  await screen.command('Lugwork: Compare with Another Circuit…');
  await screen.pick('no-3.lug');
  await panelOf(screen).locator('h1', { hasText: 'no-14.lug: electrical change' }).waitFor({ timeout: 60_000 });
}

export const compareGroups: readonly Group[] = [
  {
    options: {
      host: 'node',
      get workspace() {
        return repository();
      },
      size,
      settings: { 'git.enabled': true },
    },
    pictures: {
      'compare-gutter': inTheGutter,
      'compare-with-the-last-commit': withCommit,
      'compare-with-another-circuit': withFile,
    },
  },
];
