/** The fields of the meter sheet: a reading is typed beside its limits and sent when the field is left, or by Enter. */
import type { ReadingPlace } from '../../../language/workshop/index.js';
import type { SheetReading } from '../../../server/protocol.js';
import { t } from '../../preview/webview/texts.js';
import { element } from './element.js';

/** A cell with the field of one place; `row` is what the row is called. */
export function readingField(place: ReadingPlace, row: string): HTMLElement {
  const field = element('input', {
    type: 'text',
    size: 8,
    autocomplete: 'off',
    spellcheck: 'false',
    'aria-label': t('Reading: {0}', row),
    'data-key': JSON.stringify(place),
  });
  return element('td', { class: 'reading' }, field, ' ', element('span', { class: 'verdict' }));
}

/** Sends what is typed in the fields within `content`. */
export function listenToReadings(content: HTMLElement, send: (place: ReadingPlace, text: string) => void): void {
  content.addEventListener('change', ({ target }) => {
    if (isField(target)) send(JSON.parse(target.dataset.key ?? '') as ReadingPlace, target.value);
  });
  content.addEventListener('keydown', (event) => {
    const { target } = event;
    if (!isField(target) || event.key !== 'Enter') return;
    event.preventDefault();
    const all = fieldsIn(content);
    const next = all[all.indexOf(target) + 1];
    // To leave the field sends it.
    if (next === undefined) target.blur();
    else next.focus();
  });
}

/** Shows what the record says, without touching what is being typed. */
export function showReadings(content: HTMLElement, readings: readonly SheetReading[]): void {
  fieldsIn(content).forEach((field, at) => {
    const reading = readings[at] ?? null;
    if (field !== document.activeElement || field.value === '') field.value = reading?.text ?? '';
    const verdict = field.parentElement?.querySelector('.verdict');
    const says = reading === null ? '' : reading.fits ? t('within the limits') : t('off');
    if (verdict && verdict.textContent !== says) verdict.textContent = says;
    field.setAttribute('aria-invalid', String(reading?.fits === false));
  });
}

function fieldsIn(content: HTMLElement): HTMLInputElement[] {
  return [...content.querySelectorAll<HTMLInputElement>('.reading input')];
}

function isField(target: EventTarget | null): target is HTMLInputElement {
  return target instanceof HTMLInputElement && target.matches('.reading input');
}
