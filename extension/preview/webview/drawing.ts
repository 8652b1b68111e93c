/** A scene as elements of the page. The renderer's text is read as XML and copied piece by piece: only shapes, labels and their looks come through. */
import { pairwise } from '../../../language/collections.js';
import {
  grow,
  joinBoxes,
  renderSvg,
  shapeBox,
  wirePath,
  type Box,
  type Highlight,
  type HighlightState,
  type Point,
  type Scene,
} from '../../../language/drawing/index.js';
import { svg } from './dom.js';
import { t } from './texts.js';

export interface DrawnItem {
  readonly id: string;
  readonly node: SVGGElement;
  /** What is focused and named. */
  readonly hit: SVGElement;
  readonly says: string;
  /** Where a mark on it stands. */
  readonly x: number;
  readonly y: number;
  /** What is brought into sight with it. */
  readonly box: Box;
}

export interface DrawnPicture {
  readonly root: SVGSVGElement;
  readonly scene: Scene;
  /** What can be pointed at, chosen and read, in reading order. */
  readonly items: ReadonlyMap<string, DrawnItem>;
  /** Takes notes out of the picture, by their order in the scene. */
  leaveOut(notes: readonly number[]): void;
  /** Shows one setting, or none. */
  play(highlight: Highlight | undefined): void;
}

const elements = new Set(['svg', 'g', 'path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon', 'text', 'tspan']);
const attributes = new Set(
  'class d x y x1 y1 x2 y2 cx cy r rx ry points width height viewBox font-size textLength lengthAdjust transform'.split(' '),
);
const states: readonly HighlightState[] = ['closed', 'lit', 'return', 'idle', 'shorted'];

export function drawPicture(scene: Scene): DrawnPicture {
  const parsed = new DOMParser().parseFromString(withoutStyle(renderSvg(scene)), 'image/svg+xml');
  const nodes = new Map<string, SVGElement>();
  const root = copy(parsed.documentElement, nodes) as SVGSVGElement;
  root.removeAttribute('width');
  root.removeAttribute('height');
  root.setAttribute('role', 'group');
  root.setAttribute('aria-label', scene.title === '' ? t('Wiring drawing') : t('Wiring of {0}', scene.title));

  const items = new Map<string, DrawnItem>();
  const add = (id: string, says: string, { x, y }: Point, hit: SVGElement, box: Box = { x, y, width: 0, height: 0 }): void => {
    const node = nodes.get(id);
    if (!(node instanceof SVGGElement)) return;
    // The button holds no text of its own, so that what is read is the sentence and not every word on the part.
    for (const [name, value] of Object.entries({ class: 'hit', role: 'button', 'aria-label': says, tabindex: '-1' }))
      hit.setAttribute(name, value);
    node.prepend(hit);
    node.classList.add('thing');
    items.set(id, { id, node, hit, says, x, y, box });
  };
  const addBox = (id: string, says: string, box: Box): void => {
    const { x, y, width, height } = box;
    add(id, says, { x: x + width / 2, y }, svg('rect', { x, y, width, height, rx: 6 }), box);
  };
  for (const { id, says, labels } of [...scene.groups, ...scene.channels]) if (labels[0]) addBox(id, says, labels[0]);
  for (const { id, says, box, lugs } of scene.parts) {
    addBox(id, says, box);
    for (const lug of lugs) add(lug.id, t('lug {0}', lug.label), lug, svg('circle', { cx: lug.x, cy: lug.y, r: lug.radius + 3 }));
  }
  for (const { id, says, points } of scene.wires) {
    add(id, says, middleOf(points), svg('path', { d: wirePath(points) }));
  }
  for (const { id, says, labels, shapes } of scene.marks)
    addBox(id, says, joinBoxes([...shapes.map(shapeBox), ...labels].map((box) => grow<Box>(box, 3))));

  return {
    root,
    scene,
    items,
    leaveOut(notes) {
      const texts = [...root.querySelectorAll('.note > text')];
      for (const index of notes) texts[index]?.remove();
    },
    play(highlight) {
      root.classList.toggle('played', highlight !== undefined);
      for (const [id, node] of nodes)
        for (const state of states) node.classList.toggle(state, highlight?.states[id]?.includes(state) === true);
    },
  };
}

/** The style is taken over by the page itself; a parser would already refuse it. Names cannot hold a tag: the renderer escapes them. */
function withoutStyle(text: string): string {
  return text.replace(/<style>[^<]*<\/style>/, '');
}

/** A copy without anything that runs, loads or is named for others. */
function copy(from: Element, nodes: Map<string, SVGElement>): SVGElement {
  const to = svg(from.localName as 'g');
  for (const { name, value } of from.attributes) if (attributes.has(name)) to.setAttribute(name, value);
  if (from.localName === 'text') to.setAttribute('aria-hidden', 'true');
  if (from.localName !== 'svg' && from.id !== '') nodes.set(from.id, to);
  for (const child of from.childNodes) {
    if (child instanceof Element) {
      if (elements.has(child.localName)) to.append(copy(child, nodes));
    } else if (from.localName === 'text' || from.localName === 'tspan') to.append(child.textContent ?? '');
  }
  return to;
}

/** Halfway along the longest stretch. */
function middleOf(points: readonly { readonly x: number; readonly y: number }[]): { x: number; y: number } {
  let best = { length: -1, x: points[0]?.x ?? 0, y: points[0]?.y ?? 0 };
  pairwise(points).forEach(([a, b]) => {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    if (length > best.length) best = { length, x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  });
  return best;
}
