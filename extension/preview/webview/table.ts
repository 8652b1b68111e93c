/** The table of positions: what each sounds like; a row chooses its position. */
import type { ControlsAt, DrawnControl, PositionRow } from '../../../server/protocol.js';
import { html } from './dom.js';

export interface PositionsTable {
  readonly root: HTMLElement;
  show(rows: readonly PositionRow[], leftOut: readonly string[]): void;
  /** Marks the row of the setting. */
  mark(at: ControlsAt, controls: readonly DrawnControl[]): void;
}

/** More rows than this nobody reads; the controls choose among the rest. */
const mostRows = 256;

/** `chosen` gets the positions of a row. */
export function createTable(chosen: (set: Readonly<Record<string, string>>) => void): PositionsTable {
  const body = html('tbody');
  const heads = ['Setting', 'Sounds', 'Hum', 'Reads', 'Peak'].map((head) => html('th', { scope: 'col' }, head));
  const table = html('table', { class: 'positions' }, html('thead', {}, html('tr', {}, ...heads)), body);
  const note = html('p', { class: 'note' });
  const root = html('section', { 'aria-label': 'Positions' }, html('header', {}, html('h2', {}, 'Positions')), table, note);
  let shown: { readonly set: PositionRow['set']; readonly row: HTMLElement; readonly button: HTMLButtonElement }[] = [];
  let text = '';

  body.addEventListener('keydown', (event) => {
    const at = shown.findIndex(({ button }) => button === document.activeElement);
    const step = { ArrowDown: 1, ArrowUp: -1, Home: -shown.length, End: shown.length }[event.key];
    if (step === undefined || at < 0) return;
    event.preventDefault();
    const to = shown[Math.min(shown.length - 1, Math.max(0, at + step))]!;
    rove(to.button);
    to.button.focus();
  });
  const rove = (button: HTMLButtonElement): void =>
    shown.forEach((one) => (one.button.tabIndex = one.button === button ? 0 : -1));

  return {
    root,
    show(rows, leftOut) {
      const next = JSON.stringify([rows, leftOut]);
      if (next === text) return;
      text = next;
      shown = rows.slice(0, mostRows).map(({ set, label, sounds, hum, reads, peak }) => {
        const button = html('button', { type: 'button', class: 'plain', tabindex: -1 }, label === '' ? 'as it is' : label);
        const cells = [sounds, hum === 'none' ? '' : hum, reads, peak].map((cell) => html('td', {}, cell));
        const row = html('tr', {}, html('th', { scope: 'row' }, button), ...cells);
        row.addEventListener('click', () => chosen(set));
        return { set, row, button };
      });
      if (shown[0]) shown[0].button.tabIndex = 0;
      body.replaceChildren(...shown.map(({ row }) => row));
      const more = rows.length > mostRows ? [`${rows.length - mostRows} more settings are reached by the controls.`] : [];
      note.textContent = [...more, ...leftOut].join(' ');
      root.hidden = rows.length === 0;
    },
    mark(at, controls) {
      const rests = new Map(controls.map((control) => [control.name, control.kind === 'switch' ? control.rest : '']));
      for (const { set, row, button } of shown) {
        const isOn = Object.entries(set).every(([name, key]) => (at.positions[name] ?? rests.get(name)) === key);
        row.classList.toggle('chosen', isOn);
        if (isOn) button.setAttribute('aria-current', 'true');
        else button.removeAttribute('aria-current');
        if (isOn && !body.contains(document.activeElement)) rove(button);
      }
    },
  };
}
