/** One of the two drawings, its changes marked by letter and line style, with a way through it by keyboard. */
import { type Badge, placeMarks } from '../../../language/compare/index.js';
import type { ComparedSide } from '../../../server/protocol.js';
import { html, svg } from '../../preview/webview/dom.js';
import { drawPicture, type DrawnPicture } from '../../preview/webview/drawing.js';
import { readSheet } from '../../preview/webview/sheet.js';

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
  // What is gone or has moved away is seen on the drawing beside this one, so no old routes here.
  const shown = marks.map(({ kind, ids, says }) => ({ kind, ids, says }));
  for (const { mark, text, badge } of placeMarks(scene, shown, content)) {
    for (const id of mark.ids) {
      const item = picture.items.get(id);
      if (item === undefined) continue;
      item.node.classList.add('marked', mark.kind);
      item.hit.setAttribute('aria-label', `${item.says}; ${mark.says}`);
    }
    if (badge !== undefined) picture.root.append(badgeNode(text, mark.kind, badge));
  }

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
function badgeNode(text: string, kind: string, { x, y, width, height, leader }: Badge): SVGElement {
  return svg(
    'g',
    { class: `change-badge ${kind}`, 'aria-hidden': 'true' },
    ...(leader === undefined ? [] : [leaderNode(leader)]),
    svg('rect', { x, y, width, height, rx: 3 }),
    svg('text', { x: x + width / 2, y: y + height / 2 + 4, 'font-size': 11, class: 'bold' }, text),
  );
}

function leaderNode([from, to]: NonNullable<Badge['leader']>): SVGElement {
  return svg('line', { x1: from.x, y1: from.y, x2: to.x, y2: to.y });
}
