/** The findings as a list, so that every one is reached by keyboard; a row leads to its place in the drawing and to its repairs. */
import type { PanelFinding } from '../protocol.js';
import { html } from './dom.js';
import { t } from './texts.js';

export interface FindingsList {
  readonly root: HTMLElement;
  show(findings: readonly PanelFinding[], isDrawn: (id: string) => boolean): void;
}

/** `chosen` gets the thing that a finding is about, undefined where the drawing does not hold it, and the finding's number. */
export function createFindingsList(chosen: (id: string | undefined, finding: number) => void): FindingsList {
  const list = html('ul', { class: 'findings' });
  const root = html('section', { 'aria-label': t('Findings'), hidden: true }, list);
  return {
    root,
    show(findings, isDrawn) {
      root.hidden = findings.length === 0;
      list.replaceChildren(
        ...findings.map(({ number, severity, message, ids }) => {
          const words = [html('span', { class: 'severity' }, severity), ` ${message.split('\n')[0]}`];
          const id = ids.find(isDrawn);
          const button = html('button', { type: 'button', class: 'plain' }, ...words);
          button.addEventListener('click', () => chosen(id, number));
          return html('li', { class: severity }, button);
        }),
      );
    },
  };
}
