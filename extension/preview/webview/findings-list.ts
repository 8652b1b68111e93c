/** The findings and what the readings suspect as lists, so that every one is reached by keyboard; a row leads to its place in the drawing. */
import type { DrawnSearch } from '../../../server/protocol.js';
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
  show(search: DrawnSearch, isDrawn: (id: string) => boolean): void;
}

export interface SuspectEvents {
  /** The first thing that a suspect names in the drawing. */
  chosen(id: string): void;
  /** The reading to take next was typed. */
  taken(line: string, text: string): void;
}

/** The likeliest first, then the reading to take next with room to type it. */
export function createSuspectList({ chosen, taken }: SuspectEvents): SuspectList {
  const list = html('ol', { class: 'suspects' });
  const asks = html('span', {});
  const where = html('p', { class: 'note' });
  const typed = html('input', {
    type: 'text',
    size: 10,
    spellcheck: false,
    'aria-label': t('What the meter reads'),
    placeholder: '6.2k',
  });
  const form = html(
    'form',
    { class: 'next-reading', hidden: true },
    html('label', {}, asks, ' ', typed),
    ' ',
    html('button', { type: 'submit' }, t('Write it')),
    where,
  );
  let line = '';
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    if (typed.value.trim() !== '') taken(line, typed.value);
  });
  const root = html('section', { 'aria-label': t('Suspected by the readings'), hidden: true }, list, form);
  return {
    root,
    show({ suspects, next }, isDrawn) {
      root.hidden = suspects.length === 0 && next === undefined;
      list.replaceChildren(
        ...suspects.map(({ says, ids }) => {
          const id = ids.find(isDrawn);
          if (id === undefined) return html('li', {}, says);
          const button = html('button', { type: 'button', class: 'plain' }, says);
          button.addEventListener('click', () => chosen(id));
          return html('li', {}, button);
        }),
      );
      form.hidden = next === undefined;
      // What is being typed belongs to the line that it was typed for.
      if (next?.line !== line) typed.value = '';
      line = next?.line ?? '';
      const setting = line.replace(/^measured\s*/, '').replace(/\s*:\s*reads …$/, '');
      asks.textContent = setting === '' ? t('Next reading, all controls at rest:') : t('Next reading, {0}:', setting);
      where.textContent = next?.where ?? '';
    },
  };
}
