/** The drawing in its frame: chosen, travelled, pointed at, zoomed. */
import type { Box, Highlight, Scene } from '../../../language/drawing/index.js';
import type { PanelFinding } from '../protocol.js';
import { html, isDarkTheme } from './dom.js';
import { WireDrawing, type DrawnWire } from './gestures/draw-wire.js';
import { drawPicture, type DrawnPicture } from './drawing.js';
import { markCursor, markFindings, markSuspects, type PlacedBadge } from './marks.js';
import { createOverview } from './overview.js';
import { readSheet } from './sheet.js';
import { nextItem } from './gestures/travel.js';
import { createView, type KeptView, type View } from './view.js';

export interface Stage {
  readonly root: HTMLElement;
  readonly view: View;
  readonly picture: DrawnPicture | undefined;
  /** The badges of the findings at their places. */
  readonly badges: readonly PlacedBadge[];
  /** Shows a drawing; gives the cautions that belong to it. */
  show(scene: Scene): string;
  play(highlight: Highlight | undefined): void;
  cursor(ids: readonly string[]): void;
  findings(findings: readonly PanelFinding[]): void;
  /** Lights what the readings suspect. */
  suspects(ids: readonly string[]): void;
  /** Takes the light or the dark colours, as the editor's theme is now. */
  dress(): void;
  /** Brings a thing into sight and puts the focus on it. */
  focus(id: string): void;
  /** The part to which a lug belongs; anything else is itself. */
  partOf(id: string): string;
}

export interface StageEvents {
  go(id: string): void;
  /** Turns on what is worked on a part, by positions or whole figures; false where there is nothing. */
  step(id: string, by: number): boolean;
  /** What stands there is asked for; `takesFocus` where a key or click asked. */
  about(id: string, takesFocus: boolean): void;
  /** A wire was drawn from lug to lug, or the end of one to another lug; absent where the drawing can't be changed. */
  readonly drawn?: (this: void, wire: DrawnWire) => void;
  /** Another name is asked for. */
  readonly rename?: (this: void, id: string) => void;
  /** The pointer has left what it pointed at. */
  left(): void;
  /** The user has moved the window. */
  moved(): void;
}

/** Milliseconds that the pointer rests before anything pops up. */
const restMs = 450;

/** `wheel` says what a wheel without a key moves: the drawing, or the page that it is part of. */
export function createStage(events: StageEvents, kept: KeptView, wheel: 'drawing' | 'page' = 'drawing'): Stage {
  const frame = html('div', { class: 'frame' });
  const overview = createOverview((x, y) => view.centre(x, y));
  const { drawn, rename } = events;
  const wires =
    drawn &&
    new WireDrawing(
      frame,
      () => picture,
      (node) => idAt(node),
      drawn,
    );
  const view = createView(
    frame,
    (byUser) => {
      overview.mark(view.seen, view.isWhole);
      if (byUser) events.moved();
    },
    kept,
    wheel,
  );
  let picture: DrawnPicture | undefined;
  let content: Box = { x: 0, y: 0, width: 1, height: 1 };
  let highlight: Highlight | undefined;
  let cursor: readonly string[] = [];
  let findings: readonly PanelFinding[] = [];
  let badges: readonly PlacedBadge[] = [];
  let current: string | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const rove = (id: string | undefined): void => {
    const items = picture?.items;
    if (items === undefined) return;
    items.get(current ?? '')?.hit.setAttribute('tabindex', '-1');
    current = id !== undefined && items.has(id) ? id : items.keys().next().value;
    items.get(current ?? '')?.hit.setAttribute('tabindex', '0');
  };
  const focus = (id: string): void => {
    const item = picture?.items.get(id);
    if (item === undefined) return;
    rove(id);
    view.reveal(item.box);
    item.hit.focus({ preventScroll: true });
  };
  const idAt = (target: EventTarget | null): string | undefined => {
    const node = target instanceof Element ? target.closest('.thing') : null;
    return [...(picture?.items.values() ?? [])].find((item) => item.node === node)?.id;
  };

  frame.addEventListener('click', (event) => {
    const id = idAt(event.target);
    if (id === undefined) return;
    rove(id);
    events.go(id);
  });
  frame.addEventListener('dblclick', (event) => {
    const id = idAt(event.target);
    if (id !== undefined) events.step(id, 1);
  });
  frame.addEventListener('focusin', (event) => {
    const id = idAt(event.target);
    if (id !== undefined && id !== current) rove(id);
  });
  frame.addEventListener('pointerover', (event) => {
    clearTimeout(timer);
    const id = idAt(event.target);
    // A drawing that changes under a pointer at rest is not pointed at.
    const isMoved = event.screenX !== pointer.x || event.screenY !== pointer.y;
    if (id !== undefined && event.buttons === 0 && isMoved) timer = setTimeout(() => events.about(id, false), restMs);
  });
  const pointer = { x: NaN, y: NaN };
  const follow = ({ screenX, screenY }: PointerEvent): void => void Object.assign(pointer, { x: screenX, y: screenY });
  for (const kind of ['pointermove', 'pointerup'] as const) frame.addEventListener(kind, follow, { capture: true });
  frame.addEventListener('pointerout', () => {
    clearTimeout(timer);
    events.left();
  });
  frame.addEventListener('pointerdown', () => clearTimeout(timer), { capture: true });
  frame.addEventListener('contextmenu', (event) => {
    const id = idAt(event.target);
    if (id === undefined) return;
    event.preventDefault();
    events.about(id, true);
  });
  frame.addEventListener('keydown', (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (!act(event)) return;
    event.preventDefault();
    event.stopPropagation();
  });

  function act({ key, shiftKey }: KeyboardEvent): boolean {
    const item = picture?.items.get(current ?? '');
    const isArrow = key.startsWith('Arrow');
    if (isArrow && shiftKey) {
      view.pan({ ArrowRight: 0.15, ArrowLeft: -0.15 }[key] ?? 0, { ArrowDown: 0.15, ArrowUp: -0.15 }[key] ?? 0);
    } else if (isArrow && item !== undefined && picture !== undefined) {
      const next = nextItem(picture.items.values(), item, key);
      if (next !== undefined) focus(next);
    } else if ((key === 'PageUp' || key === 'PageDown') && item !== undefined)
      return events.step(item.id, key === 'PageUp' ? 1 : -1);
    else if (key === '+' || key === '=') view.zoom(1.25);
    else if (key === '-') view.zoom(0.8);
    else if (key === '0') view.fit();
    else if ((key === 'Enter' || key === ' ') && item !== undefined) events.go(item.id);
    else if (key === 'w' && wires !== undefined && item?.id.startsWith('lug:') === true) wires.key(item.id);
    else if (key === 'F2' && rename !== undefined && item !== undefined) rename(item.id);
    else if (key === 'Escape') return wires?.cancel() === true;
    else if ((key === 'i' || key === 'ContextMenu') && item !== undefined) events.about(item.id, true);
    else return false;
    return true;
  }

  const showBadges = (): void => {
    badges = picture === undefined ? [] : markFindings(picture, content, findings, (id) => events.about(id, true));
  };
  const dress = (): void => {
    const isDark = isDarkTheme();
    picture?.root.classList.toggle('dark', isDark);
    picture?.root.classList.toggle('light', !isDark);
  };

  return {
    root: html('div', { class: 'stage' }, frame, overview.root, ...(wires === undefined ? [] : [wires.hint])),
    view,
    focus,
    partOf: (id) => picture?.scene.parts.find(({ lugs }) => lugs.some((lug) => lug.id === id))?.id ?? id,
    dress,
    get picture() {
      return picture;
    },
    get badges() {
      return badges;
    },
    show(scene) {
      const hadFocus = frame.contains(document.activeElement);
      const before = current;
      picture = drawPicture(scene);
      dress();
      frame.replaceChildren(picture.root);
      const sheet = readSheet(scene);
      const { cautions, outside } = sheet;
      ({ content } = sheet);
      picture.leaveOut(outside);
      overview.show(scene, content);
      view.show(picture.root, content, leftmost(scene) ?? content);
      current = undefined;
      rove(before);
      picture.play(highlight);
      markCursor(picture, cursor);
      showBadges();
      if (hadFocus && current !== undefined) focus(current);
      return cautions;
    },
    play(next) {
      highlight = next;
      picture?.play(next);
    },
    cursor(ids) {
      cursor = ids;
      if (picture === undefined) return;
      const first = markCursor(picture, ids);
      const item = first === undefined ? undefined : picture.items.get(first);
      // What the user works on in the drawing itself stays where it is.
      if (item !== undefined && !frame.contains(document.activeElement)) view.reveal(item.box);
    },
    suspects(ids) {
      if (picture !== undefined) markSuspects(picture, ids);
    },
    findings(next) {
      findings = next;
      showBadges();
    },
  };
}

/** The box of the part that lies farthest to the left. */
function leftmost({ parts }: Scene): Box | undefined {
  const [first, ...others] = parts.map(({ box }) => box);
  return first === undefined ? undefined : others.reduce((best, box) => (box.x < best.x ? box : best), first);
}
