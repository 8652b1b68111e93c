/** The status item beside the language's name: what the server is at, and one click to its output or its restart. */
import { l10n, languages, LanguageStatusSeverity, type Disposable } from 'vscode';
import type { LinkState, ServerLink } from './server-link.js';

const words: Record<LinkState, string> = {
  starting: l10n.t('Starting'),
  ready: l10n.t('Ready'),
  checking: l10n.t('Checking'),
  restarting: l10n.t('Starting again'),
  failed: l10n.t('Not running'),
  stopped: l10n.t('Stopped'),
};

/** Registers the item and keeps it true. */
export function registerStatus(link: ServerLink): Disposable {
  const item = languages.createLanguageStatusItem('lugwork.server', { language: 'lugwork' });
  item.name = l10n.t('Lugwork Server');
  const show = (): void => {
    const isDown = link.state === 'failed' || link.state === 'stopped';
    item.text = `Lugwork: ${words[link.state]}`;
    item.detail = link.message;
    item.busy = link.state === 'starting' || link.state === 'restarting' || link.state === 'checking';
    item.severity = isDown ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
    item.command = isDown
      ? { title: l10n.t('Restart Server'), command: 'lugwork.restartServer' }
      : { title: l10n.t('Show Output'), command: 'lugwork.showOutput' };
  };
  const listening = link.onDidChangeState(show);
  show();
  return {
    dispose: () => {
      listening.dispose();
      item.dispose();
    },
  };
}
