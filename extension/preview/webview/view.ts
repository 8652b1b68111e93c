/** Zoom, fit and pan: the window through which the drawing is seen. */

export interface ViewBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface View {
  /** Takes over a new drawing; the window stays where it is unless all was in sight. */
  show(root: SVGSVGElement, width: number, height: number): void;
  /** 1 is as it is; about the middle, or a place of the screen. */
  zoom(factor: number, at?: { readonly clientX: number; readonly clientY: number }): void;
  fit(): void;
  /** By shares of what is seen. */
  pan(right: number, down: number): void;
  /** Moves as little as is needed to see the place. */
  reveal(x: number, y: number): void;
  /** Nothing where all is in sight. */
  readonly box: ViewBox | undefined;
}

/** A pointer that moves less is a click. */
const slack = 4;

/** `moved` is called when the window was moved by the user. */
export function createView(frame: HTMLElement, moved: () => void, kept: ViewBox | undefined): View {
  let root: SVGSVGElement | undefined;
  let whole: ViewBox = { x: 0, y: 0, width: 1, height: 1 };
  let box = kept;
  const now = (): ViewBox => box ?? whole;
  const apply = (): void => {
    const { x, y, width, height } = now();
    root?.setAttribute('viewBox', `${x} ${y} ${width} ${height}`);
  };
  const become = (next: ViewBox | undefined): void => {
    box = next;
    apply();
    moved();
  };
  const toDrawing = (clientX: number, clientY: number): DOMPoint =>
    new DOMPoint(clientX, clientY).matrixTransform(root?.getScreenCTM()?.inverse() ?? new DOMMatrix());

  const view: View = {
    get box() {
      return box;
    },
    show(next, width, height) {
      root = next;
      whole = { x: 0, y: 0, width, height };
      apply();
    },
    zoom(factor, at) {
      const { x, y, width, height } = now();
      const scale = Math.min(whole.width / width / 0.5, Math.max(whole.width / width / 12, 1 / factor));
      const about = at ? toDrawing(at.clientX, at.clientY) : { x: x + width / 2, y: y + height / 2 };
      become({
        x: about.x - (about.x - x) * scale,
        y: about.y - (about.y - y) * scale,
        width: width * scale,
        height: height * scale,
      });
    },
    fit: () => become(undefined),
    pan(right, down) {
      const { x, y, width, height } = now();
      become({ x: x + right * width, y: y + down * height, width, height });
    },
    reveal(x, y) {
      const { x: left, y: top, width, height } = now();
      const [edgeX, edgeY] = [width * 0.08, height * 0.08];
      const right = Math.max(0, x + edgeX - left - width) + Math.min(0, x - edgeX - left);
      const down = Math.max(0, y + edgeY - top - height) + Math.min(0, y - edgeY - top);
      if (right !== 0 || down !== 0) become({ x: left + right, y: top + down, width, height });
    },
  };
  listen(frame, view, toDrawing, () => now());
  return view;
}

function listen(
  frame: HTMLElement,
  view: View,
  toDrawing: (clientX: number, clientY: number) => DOMPoint,
  now: () => ViewBox,
): void {
  frame.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      if (event.ctrlKey || event.metaKey) view.zoom(Math.exp(-event.deltaY / 300), event);
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
    view.pan((a.x - b.x) / now().width, (a.y - b.y) / now().height);
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
