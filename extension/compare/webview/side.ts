/** One of the two drawings, its changes marked by letter and line style, with a way through it by keyboard. */
import type { ComparedSide } from '../../../server/protocol.js';
import { html, svg } from '../../preview/webview/dom.js';
import { drawPicture, type DrawnPicture } from '../../preview/webview/drawing.js';
import { readSheet } from '../../preview/webview/sheet.js';

export const letters = { new: 'N', gone: 'G', moved: 'M', changed: 'C' } as const;

export interface Side {
  readonly root: HTMLElement;
  readonly picture: DrawnPicture;
  select(id: string | undefined): void;
}

/** `chosen` gets the id and the sentence of what was chosen by pointer or key. */
export function createSide(title: string, { scene, marks }: ComparedSide, chosen: (id: string, says: string) => void): Side {
  const picture = drawPicture(scene);
  const { content, outside } = readSheet(scene);
  picture.leaveOut(outside);
  picture.root.setAttribute('viewBox', `${content.x} ${content.y} ${content.width} ${content.height}`);
  picture.root.setAttribute('aria-label', title);
  marks.forEach((mark, index) => {
    const text = `${letters[mark.kind]}${index + 1}`;
    for (const id of mark.ids) {
      const item = picture.items.get(id);
      if (item === undefined) continue;
      item.node.classList.add('marked', mark.kind);
      item.hit.setAttribute('aria-label', `${item.says}; ${mark.says}`);
      picture.root.append(badge(text, mark.kind, item));
    }
  });

  const ids = [...picture.items.keys()];
  let current = ids[0];
  const focus = (id: string | undefined): void => {
    const item = picture.items.get(id ?? '');
    if (item === undefined) return;
    picture.items.get(current ?? '')?.hit.setAttribute('tabindex', '-1');
    current = id;
    item.hit.setAttribute('tabindex', '0');
  };
  focus(current);
  for (const { id, node, hit, says } of picture.items.values()) {
    const choose = (): void => {
      focus(id);
      chosen(id, hit.getAttribute('aria-label') ?? says);
    };
    node.addEventListener('click', (event) => {
      event.stopPropagation();
      choose();
    });
    hit.addEventListener('keydown', (event) => {
      const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
      if (event.key === 'Enter' || event.key === ' ') choose();
      else if (step !== undefined) {
        focus(ids[(ids.indexOf(id) + step + ids.length) % ids.length]);
        picture.items.get(current ?? '')?.hit.focus();
      } else return;
      event.preventDefault();
    });
  }
  return {
    root: html('figure', {}, html('figcaption', {}, title), picture.root),
    picture,
    select(id) {
      for (const item of picture.items.values()) item.node.classList.toggle('chosen', item.id === id);
      if (id !== undefined) focus(id);
    },
  };
}

/** The small label at a changed item, which refers to the list of changes. */
function badge(text: string, kind: string, { x, y }: { readonly x: number; readonly y: number }): SVGElement {
  const width = 9 + 7 * text.length;
  return svg(
    'g',
    { class: `change-badge ${kind}`, transform: `translate(${x} ${y})`, 'aria-hidden': 'true' },
    svg('rect', { x: -width / 2, y: -8, width, height: 16, rx: 3 }),
    svg('text', { y: 4, 'font-size': 11, class: 'bold' }, text),
  );
}
