/** Where one is in a drawing that is larger than its frame: its parts in small, with the window on them. */
import { grow, joinBoxes, shapeBox, wirePath, type Box, type Scene } from '../../../language/drawing/index.js';
import { html, svg } from './dom.js';

export interface Overview {
  readonly root: HTMLElement;
  show(scene: Scene, content: Box): void;
  /** What is seen; nothing is shown where that is all. */
  mark(seen: Box, isWhole: boolean): void;
}

/** `chosen` gets the place of the drawing that is to be seen. For the pointer alone: keys move the drawing itself. */
export function createOverview(chosen: (x: number, y: number) => void): Overview {
  let area: Box = { x: 0, y: 0, width: 1, height: 1 };
  const marker = svg('rect', { class: 'seen' });
  const picture = svg('svg', {});
  const root = html('div', { class: 'overview', 'aria-hidden': 'true', hidden: true }, picture);
  const point = ({ clientX, clientY }: PointerEvent): void => {
    const place = new DOMPoint(clientX, clientY).matrixTransform(picture.getScreenCTM()?.inverse() ?? new DOMMatrix());
    chosen(place.x, place.y);
  };
  root.addEventListener('pointerdown', (event) => {
    root.setPointerCapture(event.pointerId);
    point(event);
  });
  root.addEventListener('pointermove', (event) => {
    if (root.hasPointerCapture(event.pointerId)) point(event);
  });
  return {
    root,
    show({ groups, parts, wires }, content) {
      area = grow(content, 12);
      picture.setAttribute('viewBox', `${area.x} ${area.y} ${area.width} ${area.height}`);
      picture.replaceChildren(
        ...groups.map(({ shapes }) => svg('rect', { class: 'around', ...sides(joinBoxes(shapes.map(shapeBox))) })),
        ...wires.map(({ points }) => svg('path', { class: 'line', d: wirePath(points) })),
        ...parts.map(({ box }) => svg('rect', { class: 'thing', ...sides(box) })),
        marker,
      );
    },
    mark(seen, isWhole) {
      root.hidden = isWhole;
      // A corner of the frame, whatever the drawing's shape.
      const { clientWidth, clientHeight } = root.parentElement ?? root;
      const scale = Math.min((clientWidth * 0.28) / area.width, (clientHeight * 0.26) / area.height);
      root.style.width = `${area.width * scale}px`;
      root.style.height = `${area.height * scale}px`;
      for (const [name, value] of Object.entries(sides(seen))) marker.setAttribute(name, String(value));
    },
  };
}

function sides({ x, y, width, height }: Box): Record<string, number> {
  return { x, y, width, height };
}
