/** What the readings suspect as a list, the likeliest first; a row leads to its place in the drawing. */
import type { DrawnSuspect } from '../../../server/protocol.js';
import { html } from './dom.js';
import { t } from './texts.js';

export interface SuspectList {
  readonly root: HTMLElement;
  show(suspects: readonly DrawnSuspect[], isDrawn: (id: string) => boolean): void;
}

/** `chosen` gets the first thing that a suspect names in the drawing. */
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
