/** Zoom, fit and pan: the window through which the drawing is seen. */
import type { Box } from '../../../language/drawing/index.js';

/** A window of the user's own, or the whole drawing; undefined where the panel chooses. */
export type KeptView = Box | 'whole' | undefined;

export interface View {
  /** Takes over a new drawing, of which `content` is to be seen, `first` first where it is too large; a window of the user's own stays where it is. */
  show(root: SVGSVGElement, content: Box, first: Box): void;
  /** 1 is as it is; about the middle, or a place of the screen. */
  zoom(factor: number, at?: { readonly clientX: number; readonly clientY: number }): void;
  fit(): void;
  /** By shares of what is seen. */
  pan(right: number, down: number): void;
  /** Brings a place of the drawing to the middle. */
  centre(x: number, y: number): void;
  /** Moves as little as is needed to see the whole box, or its middle where it is larger than the window. */
  reveal(box: Box): void;
  /** What is seen of the drawing. */
  readonly seen: Box;
  readonly isWhole: boolean;
  /** What brings the same window back. */
  readonly kept: KeptView;
}

/** Pixels for each unit of the drawing: below the first the letters at wires cannot be read, and the drawing opens at the second. */
const smallest = 0.5;
const readable = 0.75;
const nearest = 6;
/** A pointer that moves less is a click. */
const slack = 4;

/** `moved` is called whenever the window is another, with whether the user did it; `wheel` says what a wheel without a key moves. */
export function createView(
  frame: HTMLElement,
  moved: (byUser: boolean) => void,
  kept: KeptView,
  wheel: 'drawing' | 'page',
): View {
  let root: SVGSVGElement | undefined;
  let content: Box = { x: 0, y: 0, width: 1, height: 1 };
  let first = content;
  let own = kept;
  const size = (): { width: number; height: number } => ({
    width: frame.clientWidth || content.width,
    height: frame.clientHeight || content.height,
  });
  const fitScale = (box: Box): number => Math.min(size().width / box.width, size().height / box.height);
  /** The window of this scale about a middle. */
  const windowAt = (scale: number, x: number, y: number): Box => {
    const [width, height] = [size().width / scale, size().height / scale];
    return { x: x - width / 2, y: y - height / 2, width, height };
  };
  const around = (box: Box): Box => windowAt(fitScale(box), box.x + box.width / 2, box.y + box.height / 2);
  const now = (): Box => {
    if (own !== undefined) return around(own === 'whole' ? content : own);
    if (fitScale(content) >= smallest) return around(content);
    // Reading begins at the left, at whatever height the first part lies.
    const { x, y, width, height } = windowAt(readable, content.x + content.width / 2, first.y + first.height / 2);
    const spare = content.height - height;
    const top = spare < 0 ? content.y + spare / 2 : Math.max(content.y, Math.min(y, content.y + spare));
    return { x: Math.min(x, content.x), y: top, width, height };
  };
  const apply = (byUser: boolean): void => {
    const { x, y, width, height } = now();
    root?.setAttribute('viewBox', `${x} ${y} ${width} ${height}`);
    moved(byUser);
  };
  const become = (next: KeptView): void => {
    own = next;
    apply(true);
  };
  const toDrawing = (clientX: number, clientY: number): DOMPoint =>
    new DOMPoint(clientX, clientY).matrixTransform(root?.getScreenCTM()?.inverse() ?? new DOMMatrix());
  new ResizeObserver(() => apply(false)).observe(frame);

  const view: View = {
    get seen() {
      return now();
    },
    get isWhole() {
      const { x, y, width, height } = now();
      const slack = 1;
      return (
        x <= content.x + slack &&
        y <= content.y + slack &&
        x + width >= content.x + content.width - slack &&
        y + height >= content.y + content.height - slack
      );
    },
    get kept() {
      return own;
    },
    show(next, box, begin) {
      root = next;
      content = box;
      first = begin;
      apply(false);
    },
    zoom(factor, at) {
      const { x, y, width, height } = now();
      const before = size().width / width;
      const after = Math.min(nearest, Math.max(fitScale(content) / 2, before * factor));
      const about = at ? toDrawing(at.clientX, at.clientY) : { x: x + width / 2, y: y + height / 2 };
      const share = before / after;
      become({
        x: about.x - (about.x - x) * share,
        y: about.y - (about.y - y) * share,
        width: width * share,
        height: height * share,
      });
    },
    fit: () => become('whole'),
    pan(right, down) {
      const { x, y, width, height } = now();
      become({ x: x + right * width, y: y + down * height, width, height });
    },
    centre(x, y) {
      const { width, height } = now();
      become({ x: x - width / 2, y: y - height / 2, width, height });
    },
    reveal(box) {
      const { x: left, y: top, width, height } = now();
      const right = shiftToSee(box.x, box.width, left, width);
      const down = shiftToSee(box.y, box.height, top, height);
      if (!view.isWhole && (right !== 0 || down !== 0)) become({ x: left + right, y: top + down, width, height });
    },
  };
  listen(frame, view, wheel, toDrawing);
  return view;
}

/** How far a window moves along one axis until it shows a length, with a margin about it. */
function shiftToSee(start: number, length: number, from: number, width: number): number {
  const margin = width * 0.08;
  const [before, past] = [start - margin - from, start + length + margin - from - width];
  if (length + 2 * margin > width) return (before + past) / 2;
  return Math.max(0, past) + Math.min(0, before);
}

function listen(
  frame: HTMLElement,
  view: View,
  wheel: 'drawing' | 'page',
  toDrawing: (clientX: number, clientY: number) => DOMPoint,
): void {
  frame.addEventListener(
    'wheel',
    (event) => {
      const isZoom = event.ctrlKey || event.metaKey;
      if (wheel === 'page' && !isZoom) return;
      event.preventDefault();
      if (isZoom) view.zoom(Math.exp(-event.deltaY / 300), event);
      else view.pan(event.deltaX / frame.clientWidth, event.deltaY / frame.clientHeight);
    },
    { passive: false },
  );
  let from: { readonly x: number; readonly y: number; readonly pointer: number; dragging: boolean } | undefined;
  frame.addEventListener('pointerdown', (event) => {
    if (event.button === 0) from = { x: event.clientX, y: event.clientY, pointer: event.pointerId, dragging: false };
  });
  let last = { x: 0, y: 0 };
  frame.addEventListener('pointermove', (event) => {
    if (from?.pointer !== event.pointerId) return;
    if (!from.dragging) {
      if (Math.hypot(event.clientX - from.x, event.clientY - from.y) < slack) return;
      from.dragging = true;
      last = { x: from.x, y: from.y };
      frame.setPointerCapture(event.pointerId);
      frame.classList.add('dragged');
    }
    const [a, b] = [toDrawing(last.x, last.y), toDrawing(event.clientX, event.clientY)];
    last = { x: event.clientX, y: event.clientY };
    view.pan((a.x - b.x) / view.seen.width, (a.y - b.y) / view.seen.height);
  });
  const end = (): void => {
    // The click that ends a drag is none.
    if (from?.dragging) frame.addEventListener('click', (event) => event.stopPropagation(), { capture: true, once: true });
    from = undefined;
    frame.classList.remove('dragged');
  };
  frame.addEventListener('pointerup', end);
  frame.addEventListener('pointercancel', end);
}
