/** Draws wires with the hand: from lug to lug a new one, from near the end of a wire that end to another lug; by keyboard from lug to lug. */
import { html, svg } from '../dom.js';
import type { DrawnPicture } from '../drawing.js';
import { t } from '../texts.js';

/** Ids of lugs; `other` is where the wire stays of which the end at `from` is moved. */
export interface DrawnWire {
  readonly from: string;
  readonly to: string;
  readonly other?: string;
}

/** A pointer that moves less is a click, in pixels. */
const slack = 4;
/** So near its end a wire is taken by that end, in units of the drawing. */
const reach = 40;

interface Begun {
  readonly from: string;
  readonly other?: string;
  readonly x: number;
  readonly y: number;
  /** Absent where it was begun by keyboard. */
  readonly pointer?: number;
  isDragged: boolean;
}

export class WireDrawing {
  /** What is under way, in one sentence. */
  readonly hint = html('p', { class: 'hint', role: 'status', hidden: true });
  readonly #line = svg('line', { class: 'drawn-wire' });
  #begun: Begun | undefined;
  #target: string | undefined;

  /** Hears the pointer on its way down, so that a wire is not taken for a drawing that is moved. */
  constructor(
    private readonly frame: HTMLElement,
    private readonly picture: () => DrawnPicture | undefined,
    private readonly idAt: (target: EventTarget | null) => string | undefined,
    private readonly drawn: (wire: DrawnWire) => void,
  ) {
    frame.addEventListener('pointerdown', (event) => this.#take(event), { capture: true });
    frame.addEventListener('pointermove', (event) => {
      if (this.#begun?.pointer === event.pointerId) this.#drag(this.#begun, event);
    });
    frame.addEventListener('pointerup', (event) => {
      if (this.#begun?.pointer !== event.pointerId) return;
      const { isDragged } = this.#begun;
      // The click that ends a drag is none.
      if (isDragged) frame.addEventListener('click', (click) => click.stopPropagation(), { capture: true, once: true });
      this.#finish(isDragged ? this.#target : undefined);
    });
    frame.addEventListener('pointercancel', () => this.#end());
  }

  /** The key at a lug: begins a wire there, or ends the one that was begun. */
  key(lug: string): void {
    if (this.#begun !== undefined) return this.#finish(lug);
    this.#begun = { from: lug, x: 0, y: 0, isDragged: true };
    this.frame.classList.add('drawing-wire');
    this.#say(t('A wire from {0}: go to another lug and press w again, or press Escape.', nameOf(lug)));
  }

  /** Gives up what was begun; false where nothing was. */
  cancel(): boolean {
    const had = this.#begun?.isDragged === true;
    this.#end();
    return had;
  }

  #take(event: PointerEvent): void {
    const taken = event.button === 0 ? this.#takenAt(event) : undefined;
    if (taken === undefined) return;
    this.#end();
    this.#begun = { ...taken, x: event.clientX, y: event.clientY, pointer: event.pointerId, isDragged: false };
    event.stopPropagation();
  }

  /** A lug, or the end of a wire that the pointer is near. */
  #takenAt(event: PointerEvent): Pick<Begun, 'from' | 'other'> | undefined {
    const id = this.idAt(event.target);
    if (id?.startsWith('lug:') === true) return { from: id };
    const wire = this.picture()?.scene.wires.find((one) => one.id === id);
    const [first, last] = [wire?.points[0], wire?.points.at(-1)];
    if (wire === undefined || first === undefined || last === undefined) return undefined;
    if (!wire.from.startsWith('lug:') || !wire.to.startsWith('lug:')) return undefined;
    const { x, y } = this.#toDrawing(event.clientX, event.clientY);
    const [toFirst, toLast] = [Math.hypot(x - first.x, y - first.y), Math.hypot(x - last.x, y - last.y)];
    if (Math.min(toFirst, toLast) > reach) return undefined;
    return toFirst <= toLast ? { from: wire.from, other: wire.to } : { from: wire.to, other: wire.from };
  }

  #drag(begun: Begun, { clientX, clientY, pointerId }: PointerEvent): void {
    if (!begun.isDragged) {
      if (Math.hypot(clientX - begun.x, clientY - begun.y) < slack) return;
      begun.isDragged = true;
      this.frame.setPointerCapture(pointerId);
      this.frame.classList.add('drawing-wire');
      const name = nameOf(begun.from);
      this.#say(
        begun.other === undefined
          ? t('A wire from {0}: let go on another lug, or press Escape.', name)
          : t('The end at {0}: let go on another lug, or press Escape.', name),
      );
    }
    this.#follow(begun, this.#toDrawing(clientX, clientY));
    const under = this.idAt(document.elementFromPoint(clientX, clientY));
    this.#mark(under?.startsWith('lug:') === true && under !== begun.from && under !== begun.other ? under : undefined);
  }

  /** The line from where the wire stays to the pointer. */
  #follow({ from, other }: Begun, { x, y }: DOMPoint): void {
    const shown = this.picture();
    const fixed = shown?.items.get(other ?? from);
    if (shown === undefined || fixed === undefined) return;
    const ends = { x1: fixed.x, y1: fixed.y, x2: x, y2: y };
    for (const [name, value] of Object.entries(ends)) this.#line.setAttribute(name, String(value));
    if (this.#line.parentNode !== shown.root) shown.root.append(this.#line);
  }

  #mark(id: string | undefined): void {
    const items = this.picture()?.items;
    items?.get(this.#target ?? '')?.node.classList.remove('target');
    items?.get(id ?? '')?.node.classList.add('target');
    this.#target = id;
  }

  #finish(to: string | undefined): void {
    const wire = this.#begun;
    this.#end();
    if (wire === undefined || to === undefined || to === wire.from || to === wire.other) return;
    this.drawn({ from: wire.from, to, ...(wire.other === undefined ? {} : { other: wire.other }) });
  }

  #end(): void {
    this.#begun = undefined;
    this.#mark(undefined);
    this.#line.remove();
    this.frame.classList.remove('drawing-wire');
    this.#say('');
  }

  #say(text: string): void {
    this.hint.textContent = text;
    this.hint.hidden = text === '';
  }

  #toDrawing(x: number, y: number): DOMPoint {
    return new DOMPoint(x, y).matrixTransform(this.picture()?.root.getScreenCTM()?.inverse() ?? new DOMMatrix());
  }
}

function nameOf(lug: string): string {
  return lug.slice('lug:'.length);
}
