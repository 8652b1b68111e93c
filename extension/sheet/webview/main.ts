/** The sheet's script: shows what the extension sends, tells it what was ticked. */
import type { FromSheet, SheetState, ToSheet } from '../protocol.js';
import { element } from './element.js';
import { createPicture } from './picture.js';
import { listenToReadings, showReadings } from './readings.js';
import { sectionOf } from './sections.js';
import { t } from '../../preview/webview/texts.js';

declare function acquireVsCodeApi(): {
  postMessage(message: FromSheet): void;
  getState(): SheetState | undefined;
  setState(state: SheetState): void;
};

const editor = acquireVsCodeApi();
const send = (message: FromSheet): void => editor.postMessage(message);

const banner = element('p', { class: 'banner', role: 'status', hidden: true });
const title = element('h1', {}, t('Bench sheet'));
const progress = element('p', { class: 'progress', role: 'status' });
const number = element('select', {});
const numbers = element('label', { class: 'numbers', hidden: true }, `${t('Instrument')} `, number);
const stepping = element('button', { type: 'button' }, t('Next step'));
const printing = element('button', { type: 'button' }, t('Print'));
const saving = element('button', { type: 'button' }, t('Save…'));
const recording = element('button', { type: 'button' }, t('Record…'));
const cautions = element('section', { class: 'cautions', 'aria-label': t('Cautions') });
const content = element('div', {});
const picture = createPicture(() => send({ kind: 'drawing' }));
const main = element(
  'main',
  {},
  banner,
  title,
  element('div', { class: 'tools' }, numbers, progress, stepping, printing, saving, recording),
  cautions,
  element('p', { class: 'keys' }, t('Space or Enter ticks a step and goes to the next. The arrow keys go from step to step.')),
  content,
);
document.body.append(main);

number.addEventListener('change', () => send({ kind: 'number', number: Number(number.value) }));
stepping.addEventListener('click', goToNext);
printing.addEventListener('click', () => send({ kind: 'print' }));
saving.addEventListener('click', () => send({ kind: 'save' }));
recording.addEventListener('click', () => send({ kind: 'record' }));

listenToReadings(content, (place, text) => send({ kind: 'reading', place, text }));

/** The sheet as it was sent, with what has been ticked since. */
let shown: Extract<ToSheet, { kind: 'sheet' }> | undefined;

const boxes = (): HTMLInputElement[] => [...content.querySelectorAll<HTMLInputElement>('input[type=checkbox]')];

/** What is done, what comes next: the first step that is not ticked, tests that stand before it among them. */
function count(): void {
  const all = boxes();
  const open = all.filter((box) => !box.checked);
  progress.textContent = t('{0} of {1} done', all.length - open.length, all.length);
  for (const box of all) {
    const row = box.closest('li');
    row?.classList.toggle('done', box.checked);
    if (box === open[0]) row?.setAttribute('aria-current', 'step');
    else row?.removeAttribute('aria-current');
  }
}

content.addEventListener('change', ({ target }) => {
  if (!(target instanceof HTMLInputElement) || target.type !== 'checkbox' || target.dataset.key === undefined) return;
  const { key } = target.dataset;
  send({ kind: 'tick', key, isDone: target.checked });
  const others = shown?.done.filter((one) => one !== key) ?? [];
  if (shown !== undefined) shown = { ...shown, done: target.checked ? [...others, key] : others };
  count();
});
/** Arrow keys go from box to box; Space and Enter tick and go on to the next open one, for a hand that holds an iron. Space on a ticked box takes the tick away. */
content.addEventListener('keydown', (event) => {
  const box = event.target;
  if (!(box instanceof HTMLInputElement) || box.type !== 'checkbox') return;
  const all = boxes();
  const at = all.indexOf(box);
  if (event.key === 'Enter' || (event.key === ' ' && !box.checked)) {
    if (!box.checked) box.click();
    goTo(all.find((one, i) => i > at && !one.checked) ?? firstOpen());
  } else if (event.key === 'ArrowDown') goTo(all.slice(at + 1).find((one) => !one.disabled));
  else if (event.key === 'ArrowUp')
    goTo(
      all
        .slice(0, at)
        .reverse()
        .find((one) => !one.disabled),
    );
  else return;
  event.preventDefault();
});
const firstOpen = (): HTMLInputElement | undefined => boxes().find((box) => !box.checked);
function goToNext(): void {
  window.focus();
  goTo(firstOpen());
}
function goTo(box: HTMLInputElement | undefined): void {
  box?.focus();
  box?.closest('li')?.scrollIntoView({ block: 'nearest' });
}

function show(message: Extract<ToSheet, { kind: 'sheet' }>): void {
  const { state, sheet, batch, isRecord, done, recorded } = message;
  shown = message;
  editor.setState(state);
  const active = document.activeElement instanceof HTMLInputElement ? document.activeElement : undefined;
  const scrolled = document.documentElement.scrollTop;
  title.textContent = batch > 1 && !isRecord ? t('{0}, {1} of {2}', sheet.title, state.number, batch) : sheet.title;
  numbers.hidden = batch < 2 || isRecord;
  recording.hidden = isRecord;
  number.replaceChildren(...Array.from({ length: batch }, (_, i) => element('option', { value: i + 1 }, String(i + 1))));
  number.value = String(state.number);
  cautions.replaceChildren(
    element('h2', {}, t('Cautions')),
    element('ul', {}, ...sheet.cautions.map((text) => element('li', {}, text))),
  );
  const ticked = { here: new Set(done), inRecord: new Set(recorded) };
  // The drawing is just before the solder order, as on paper.
  content.replaceChildren(
    ...sheet.sections.flatMap((section) => [...(section.isFresh === true ? [picture.root] : []), sectionOf(section, ticked)]),
  );
  count();
  document.documentElement.scrollTop = scrolled;
  const again = [...content.querySelectorAll('input')].find(({ dataset }) => dataset.key === active?.dataset.key);
  if (active === undefined || again === undefined) return;
  if (again.type === 'text') again.value = active.value;
  again.focus({ preventScroll: true });
}

/** What the record ticks may need other boxes; what it read goes into the fields that are there. */
function showRecord({ readings, done }: Extract<ToSheet, { kind: 'readings' }>): void {
  if (shown !== undefined && shown.recorded.join('\n') !== done.join('\n')) show({ ...shown, recorded: done });
  showReadings(content, readings);
}

window.addEventListener('message', ({ data }: MessageEvent<ToSheet>) => {
  try {
    if (data.kind === 'sheet') show(data);
    else if (data.kind === 'readings') showRecord(data);
    else if (data.kind === 'picture') picture.show(data.scene);
    else if (data.kind === 'next') goToNext();
    else if (data.kind === 'banner') {
      banner.textContent = data.text;
      banner.hidden = data.text === '';
    }
  } catch (error) {
    send({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
});
send({ kind: 'ready' });
