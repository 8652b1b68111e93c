/** Sections beside the drawing, each of which can be folded away, and the bar between the drawing and them. */
import type { SectionName } from '../protocol.js';
import { html } from './dom.js';
import { t } from './texts.js';

export interface Sections {
  readonly root: HTMLElement;
  /** Between the drawing and the sections: drawn with the pointer, or moved with the arrow keys. */
  readonly bar: HTMLElement;
  /** Opens a section, and brings it into sight with the keyboard on its heading. */
  goTo(name: SectionName): void;
}

/** What is kept over a reload: the drawing's share of the panel in percent, and the names of folded sections. */
export interface KeptSections {
  readonly share: number;
  readonly folded: readonly string[];
}

/** The drawing has two thirds unless the bar was moved. */
export const usualShare = 66;
const [least, most] = [25, 85];
const keyStep = 4;

interface Section {
  readonly name: SectionName;
  readonly title: string;
  readonly content: HTMLElement;
}

/** `main` is divided; `changed` gets what to keep. */
export function createSections(
  main: HTMLElement,
  all: readonly Section[],
  kept: Partial<KeptSections>,
  changed: (kept: KeptSections) => void,
): Sections {
  let share = Math.min(most, Math.max(least, kept.share ?? usualShare));
  const folded = new Set(kept.folded ?? []);
  const bar = html('div', {
    class: 'bar',
    role: 'separator',
    tabindex: 0,
    'aria-label': t('Room for the drawing'),
    'aria-valuemin': least,
    'aria-valuemax': most,
  });
  const divide = (to: number): void => {
    share = Math.min(most, Math.max(least, to));
    main.style.setProperty('--share', `${share}%`);
    bar.setAttribute('aria-valuenow', String(Math.round(share)));
  };
  const done = (): void => changed({ share, folded: [...folded] });
  divide(share);

  /** Side by side, or one below the other, as the style sheet has it for the panel's shape. */
  const isBeside = (): boolean => getComputedStyle(bar).cursor === 'ew-resize';
  const orient = (): void => bar.setAttribute('aria-orientation', isBeside() ? 'vertical' : 'horizontal');
  new ResizeObserver(orient).observe(document.documentElement);

  followPointer(bar, main, isBeside, { divide, done });
  bar.addEventListener('dblclick', () => {
    divide(usualShare);
    done();
  });
  bar.addEventListener('keydown', (event) => {
    const step = { ArrowLeft: -keyStep, ArrowUp: -keyStep, ArrowRight: keyStep, ArrowDown: keyStep }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    divide(share + step);
    done();
  });

  const fold = (name: string, isFolded: boolean): void => {
    if (isFolded) folded.add(name);
    else folded.delete(name);
    done();
  };
  const made = new Map(
    all.map((one) => [one.name, createSection(one, folded.has(one.name), (isFolded) => fold(one.name, isFolded))]),
  );
  const root = html('div', { class: 'sections', tabindex: -1 }, ...made.values());
  const goTo = (name: SectionName): void => {
    const section = made.get(name);
    if (section === undefined) return;
    section.open = true;
    section.querySelector('summary')?.focus({ preventScroll: true });
    section.scrollIntoView({ block: 'nearest' });
  };
  return { root, bar, goTo };
}

/** Divides `main` where the pointer draws the bar to. */
function followPointer(
  bar: HTMLElement,
  main: HTMLElement,
  isBeside: () => boolean,
  { divide, done }: { divide(this: void, to: number): void; done(this: void): void },
): void {
  bar.addEventListener('pointerdown', (event) => {
    bar.setPointerCapture(event.pointerId);
    event.preventDefault();
    bar.focus();
  });
  bar.addEventListener('pointermove', ({ pointerId, clientX, clientY }) => {
    if (!bar.hasPointerCapture(pointerId)) return;
    const { left, top, width, height } = main.getBoundingClientRect();
    divide(isBeside() ? (100 * (clientX - left)) / width : (100 * (clientY - top)) / height);
  });
  bar.addEventListener('pointerup', done);
}

/** Out of sight while there is nothing in it. */
function createSection({ title, content }: Section, isFolded: boolean, changed: (isFolded: boolean) => void): HTMLDetailsElement {
  const section = html('details', { class: 'section', open: !isFolded }, html('summary', {}, title), content);
  section.addEventListener('toggle', () => changed(!section.open));
  const follow = (): void => void (section.hidden = content.hidden);
  new MutationObserver(follow).observe(content, { attributes: true, attributeFilter: ['hidden'] });
  follow();
  return section;
}
