/** The status item beside the language's name: what the server is at, and one click to its output or its restart. */
import { languages, LanguageStatusSeverity, type Disposable } from 'vscode';
import type { LinkState, ServerLink } from './server-link.js';

const words: Record<LinkState, string> = {
  starting: 'Starting',
  ready: 'Ready',
  checking: 'Checking',
  restarting: 'Starting again',
  failed: 'Not running',
  stopped: 'Stopped',
};

/** Registers the item and keeps it true. */
export function registerStatus(link: ServerLink): Disposable {
  const item = languages.createLanguageStatusItem('lugwork.server', { language: 'lugwork' });
  item.name = 'Lugwork Server';
  const show = (): void => {
    const isDown = link.state === 'failed' || link.state === 'stopped';
    item.text = `Lugwork: ${words[link.state]}`;
    item.detail = link.message;
    item.busy = link.state === 'starting' || link.state === 'restarting' || link.state === 'checking';
    item.severity = isDown ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
    item.command = isDown
      ? { title: 'Restart Server', command: 'lugwork.restartServer' }
      : { title: 'Show Output', command: 'lugwork.showOutput' };
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
