/** The table of positions: a column a switch, then what is heard; a row chooses its position. */
import { itemAt } from '../../../language/collections.js';
import type { ControlsAt, DrawnControl, DrawnSwitch, PositionRow } from '../../../server/protocol.js';
import { positionOf } from './controls.js';
import { html } from './dom.js';
import { t } from './texts.js';

export interface PositionsTable {
  readonly root: HTMLElement;
  show(rows: readonly PositionRow[], leftOut: readonly string[], controls: readonly DrawnControl[]): void;
  /** Marks the row of the setting. */
  mark(at: ControlsAt, controls: readonly DrawnControl[]): void;
}

/** More rows than this nobody reads; the controls choose among the rest. */
const mostRows = 256;
/** More switches than this would leave no room for what is heard: then the setting is written in one column. */
const mostColumns = 5;
const results = [t('Sounds'), t('Hum'), t('Reads'), t('Peak')];

interface ShownRow {
  readonly set: PositionRow['set'];
  readonly row: HTMLElement;
  readonly button: HTMLButtonElement;
}

/** `chosen` gets the positions of a row. */
export function createTable(chosen: (set: Readonly<Record<string, string>>) => void): PositionsTable {
  const head = html('thead');
  const body = html('tbody');
  const table = html('table', { class: 'positions', 'aria-label': t('What each position sounds like') }, head, body);
  const note = html('p', { class: 'note' });
  const root = html('section', { 'aria-label': t('Positions') }, html('div', { class: 'table' }, table), note);
  let shown: readonly ShownRow[] = [];
  let text = '';

  body.addEventListener('keydown', (event) => {
    const at = shown.findIndex(({ button }) => button === document.activeElement);
    const step = { ArrowDown: 1, ArrowUp: -1, Home: -shown.length, End: shown.length }[event.key];
    if (step === undefined || at < 0) return;
    event.preventDefault();
    const to = itemAt(shown, Math.min(shown.length - 1, Math.max(0, at + step)));
    rove(to.button);
    to.button.focus();
  });
  const rove = (button: HTMLButtonElement): void =>
    shown.forEach((one) => (one.button.tabIndex = one.button === button ? 0 : -1));

  return {
    root,
    show(rows, leftOut, controls) {
      const switches = columnsOf(rows, controls);
      const next = JSON.stringify([rows, leftOut, switches]);
      if (next === text) return;
      text = next;
      const heads = switches.length > 0 ? switches.map(({ name }) => name) : [t('Setting')];
      head.replaceChildren(html('tr', {}, ...[...heads, ...results].map((one) => html('th', { scope: 'col' }, one))));
      shown = rows.slice(0, mostRows).map((one) => createRow(one, switches, chosen));
      if (shown[0]) shown[0].button.tabIndex = 0;
      body.replaceChildren(...shown.map(({ row }) => row));
      const more = rows.length > mostRows ? [t('Use the controls for {0} more settings.', rows.length - mostRows)] : [];
      note.textContent = [...more, ...leftOut].join(' ');
      root.hidden = rows.length === 0;
    },
    mark(at, controls) {
      // A pull pot is a switch and a shaft of the same name.
      const now = new Map(
        controls.flatMap((control) => (control.kind === 'switch' ? [[control.name, positionOf(at, control)]] : [])),
      );
      for (const { set, row, button } of shown) {
        const isOn = Object.entries(set).every(([name, key]) => now.get(name) === key);
        row.classList.toggle('chosen', isOn);
        if (isOn) button.setAttribute('aria-current', 'true');
        else button.removeAttribute('aria-current');
        if (isOn && !body.contains(document.activeElement)) rove(button);
      }
    },
  };
}

function createRow(
  { set, label, sounds, hum, reads, peak }: PositionRow,
  switches: readonly DrawnSwitch[],
  chosen: (set: PositionRow['set']) => void,
): ShownRow {
  const whole = label === '' ? t('default') : label;
  const words = switches.map(({ name, positions }) => positions.find(({ key }) => key === set[name])?.label ?? '');
  const [first = whole, ...others] = words;
  // The row is named by its whole setting, whatever its first column says.
  const button = html('button', { type: 'button', class: 'plain', tabindex: -1, 'aria-label': whole }, first);
  const cells = [...others, sounds, hum === 'none' ? '' : hum, reads, peak].map((cell) => html('td', {}, cell));
  const row = html('tr', {}, html('th', { scope: 'row' }, button), ...cells);
  row.addEventListener('click', () => chosen(set));
  return { set, row, button };
}

/** The switches that the rows set, in the order of the text. */
function columnsOf(rows: readonly PositionRow[], controls: readonly DrawnControl[]): DrawnSwitch[] {
  const names = Object.keys(rows[0]?.set ?? {});
  const switches = controls.filter(
    (control): control is DrawnSwitch => control.kind === 'switch' && names.includes(control.name),
  );
  return switches.length === names.length && names.length <= mostColumns ? switches : [];
}
