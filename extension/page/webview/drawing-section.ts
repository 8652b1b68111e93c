/** The drawing of the page: what a setting lights in it, its words and key, and the control of an item where it is tapped. */
import type { Highlight, Scene } from '../../../language/drawing/index.js';
import type { Controls } from '../../preview/webview/controls.js';
import { createDetails } from '../../preview/webview/details.js';
import { html } from '../../preview/webview/dom.js';
import { createPathKey } from '../../preview/webview/path-key.js';
import { readSheet } from '../../preview/webview/sheet.js';
import { createStage } from '../../preview/webview/stage.js';
import { t } from '../../preview/webview/texts.js';
import { zoomButtons } from '../../preview/webview/toolbar.js';

export interface DrawingSection {
  readonly root: HTMLElement;
  /** What pops up at an item. */
  readonly details: HTMLElement;
  /** Shows a setting. */
  play(highlight: Highlight): void;
  /** Takes the light or the dark colours. */
  dress(): void;
}

export function createDrawingSection(scene: Scene, controls: Controls): DrawingSection {
  const says = html('p', { class: 'says', 'aria-live': 'polite' });
  const key = createPathKey();
  const details = createDetails({
    controls: (id) => controls.ofPart(stage.partOf(id)),
    left: (id) => stage.focus(id),
  });
  const open = (id: string): void => {
    const item = stage.picture?.items.get(id);
    if (item !== undefined) details.show(id, item.says, item.node.getBoundingClientRect(), true);
  };
  const stage = createStage(
    {
      go: open,
      step: (id, by) => controls.step(stage.partOf(id), by),
      // A pointer that only rests opens nothing: a finger can't take it away again.
      about: (id, takesFocus) => takesFocus && open(id),
      left: () => undefined,
      moved: () => stage.root.classList.toggle('whole', stage.view.isWhole),
    },
    'whole',
    'page',
  );
  stage.show(scene);
  const { width, height } = readSheet(scene).content;
  stage.root.classList.add('whole');
  stage.root.style.setProperty('--ratio', String(width / height));

  document.addEventListener('pointerdown', ({ target }) => {
    if (target instanceof Node && !details.root.contains(target)) details.hide();
  });
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') details.hide();
  });
  const zoom = zoomButtons({ zoom: (factor) => stage.view.zoom(factor), fit: () => stage.view.fit() });
  return {
    root: html(
      'section',
      { class: 'drawing', 'aria-label': t('Drawing') },
      html('div', { class: 'toolbar' }, zoom),
      stage.root,
      html('div', { class: 'saying' }, says, controls.reset),
      key.root,
    ),
    details: details.root,
    play(highlight) {
      stage.play(highlight);
      says.textContent = highlight.says;
      key.show(highlight);
    },
    dress: () => stage.dress(),
  };
}
