/** What the looks of the setting mean that is shown: each with its words, those alone that occur in it. */
import type { Highlight, HighlightState } from '../../../language/drawing/index.js';
import { html } from './dom.js';
import { t } from './texts.js';

export interface PathKey {
  readonly root: HTMLElement;
  show(highlight: Highlight): void;
}

const words: readonly (readonly [HighlightState, string])[] = [
  ['lit', t('from the coils to the tip')],
  ['return', t('back to the sleeve')],
  ['idle', t('not in the signal path')],
  ['shorted', t('shorted')],
];

export function createPathKey(): PathKey {
  const entries = words.map(([state, text]) => {
    const swatch = html('span', { class: `swatch ${state}` });
    return { state, entry: html('li', {}, swatch, text) };
  });
  const root = html('ul', { class: 'note key', 'aria-label': t('Key to the setting') }, ...entries.map(({ entry }) => entry));
  return {
    root,
    show({ states }) {
      const seen = new Set(Object.values(states).flat());
      for (const { state, entry } of entries) entry.hidden = !seen.has(state);
    },
  };
}
