/** What the text's hover shows, with the findings there and their fixes: beside the thing that is pointed at or asked for. */
import type { About } from '../protocol.js';
import { html } from './dom.js';
import { markdown } from './markdown.js';
import { t } from './texts.js';

export interface Details {
  readonly root: HTMLElement;
  /** Shows it beside a thing; with the focus in it where the user asked for it. */
  show(id: string, title: string, beside: DOMRect, takesFocus: boolean): void;
  /** The answer to `ask`. */
  fill(id: string, about: About): void;
  hide(): void;
  readonly id: string | undefined;
}

export interface DetailsEvents {
  /** What the text says of it; this and the next two are absent where there is no text. */
  readonly ask?: (this: void, id: string) => void;
  readonly go?: (this: void, id: string) => void;
  readonly fix?: (this: void, finding: number, title: string) => void;
  /** What is worked on the thing, live. */
  controls(id: string): readonly HTMLElement[];
  /** Hidden while it held the focus. */
  left(id: string): void;
}

export function createDetails(events: DetailsEvents): Details {
  const heading = html('h2', { id: 'details-heading' });
  const live = html('div', { class: 'live' });
  const body = html('div', { class: 'about' });
  const go = html('button', { type: 'button', hidden: events.go === undefined }, t('Show in the text'));
  const close = html('button', { type: 'button', class: 'plain', 'aria-label': t('Close') }, '×');
  const head = html('header', {}, heading, close);
  const root = html(
    'div',
    { class: 'details', role: 'dialog', 'aria-labelledby': 'details-heading', hidden: true },
    head,
    live,
    body,
    go,
  );
  let id: string | undefined;
  let place: DOMRect | undefined;

  const hide = (): void => {
    const was = id;
    const held = root.contains(document.activeElement);
    id = undefined;
    root.hidden = true;
    if (held && was !== undefined) events.left(was);
  };
  const position = (): void => {
    if (place === undefined) return;
    const { width, height } = root.getBoundingClientRect();
    const below = place.bottom + 8 + height <= innerHeight;
    const left = Math.max(8, Math.min(place.left, innerWidth - width - 8));
    const top = below ? place.bottom + 8 : Math.max(8, place.top - height - 8);
    root.style.left = `${left}px`;
    root.style.top = `${top}px`;
  };
  close.addEventListener('click', hide);
  go.addEventListener('click', () => id !== undefined && events.go?.(id));
  root.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    hide();
  });

  return {
    root,
    hide,
    get id() {
      return id;
    },
    show(next, title, beside, takesFocus) {
      place = beside;
      if (next !== id) {
        id = next;
        heading.textContent = title;
        live.replaceChildren(...events.controls(next));
        body.replaceChildren();
        events.ask?.(next);
      }
      root.hidden = false;
      position();
      if (takesFocus) (go.hidden ? close : go).focus();
    },
    fill(about, { hover, findings, fixes }) {
      if (about !== id) return;
      const items = findings.map(({ severity, message }) => {
        const [first, ...more] = message.split('\n');
        const words = html('p', {}, html('strong', {}, `${capital(severity)}: `), first ?? '');
        return html('div', { class: `finding ${severity}` }, words, ...more.map((line) => html('p', {}, line)));
      });
      const buttons = fixes.map(({ finding, title }, index) => {
        // The likeliest stands out.
        const button = html('button', { type: 'button', class: index === 0 ? 'fix' : 'fix plain' }, capital(title));
        button.addEventListener('click', () => {
          events.fix?.(finding, title);
          hide();
        });
        return button;
      });
      body.replaceChildren(...items, ...buttons, ...hover.flatMap(markdown));
      position();
    },
  };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
