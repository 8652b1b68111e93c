/** The findings and what the readings suspect as lists, so that every one is reached by keyboard; a row leads to its place in the drawing. */
import type { DrawnSuspect } from '../../../server/protocol.js';
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

export interface SuspectList {
  readonly root: HTMLElement;
  show(suspects: readonly DrawnSuspect[], isDrawn: (id: string) => boolean): void;
}

/** The likeliest first; `chosen` gets the first thing that a suspect names in the drawing. */
export function createSuspectList(chosen: (id: string) => void): SuspectList {
  const list = html('ol', { class: 'suspects' });
  const root = html('section', { 'aria-label': t('Suspected by the readings'), hidden: true }, list);
  return {
    root,
    show(suspects, isDrawn) {
      root.hidden = suspects.length === 0;
      list.replaceChildren(
        ...suspects.map(({ says, ids }) => {
          const id = ids.find(isDrawn);
          if (id === undefined) return html('li', {}, says);
          const button = html('button', { type: 'button', class: 'plain' }, says);
          button.addEventListener('click', () => chosen(id));
          return html('li', {}, button);
        }),
      );
    },
  };
}
