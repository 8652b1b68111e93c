/** The comparison's script: both drawings with linked selection, the changes one by one, the table of changed behaviour. */
import { styleSheet } from '../../../language/drawing/index.js';
import { letters } from '../../../language/compare/index.js';
import { html, isDarkTheme, onTheme } from '../../preview/webview/dom.js';
import type { ComparedCircuits } from '../../../server/protocol.js';
import type { CompareState, FromCompare, ToCompare } from '../protocol.js';
import { createSide, type Side } from './side.js';
import { positionTable, sectionLists } from './tables.js';
import { t } from '../../preview/webview/texts.js';

declare function acquireVsCodeApi(): {
  postMessage(message: FromCompare): void;
  getState(): CompareState | undefined;
  setState(state: CompareState): void;
};

const editor = acquireVsCodeApi();
const send = (message: FromCompare): void => editor.postMessage(message);

const banner = html('p', { class: 'banner', role: 'status', hidden: true });
const title = html('h1', {}, t('Changes'));
const says = html('p', { class: 'note', role: 'status' });
const unread = html('ul', { class: 'unread', hidden: true });
const drawings = html('div', { class: 'drawings' });
const changes = html('ol', { class: 'changes' });
const behaviour = html('section', { class: 'behaviour', 'aria-labelledby': 'behaviour' });
const rest = html('section', { class: 'rest', 'aria-label': t('Other changes') });
document.body.append(
  html(
    'main',
    {},
    banner,
    title,
    unread,
    says,
    drawings,
    html(
      'section',
      { class: 'changes', 'aria-labelledby': 'changes' },
      html('h2', { id: 'changes' }, t('Parts and wires')),
      changes,
    ),
    behaviour,
    rest,
  ),
);

let sides: readonly Side[] = [];

function show({ before, after, compared }: Extract<ToCompare, { kind: 'comparison' }>): void {
  title.textContent = `${after}: ${compared.change.summary}`;
  unread.replaceChildren(...compared.change.unread.map((one) => html('li', {}, one.says)));
  unread.hidden = compared.change.unread.length === 0;
  const links = linksOf(compared);
  const [left, right] = [
    createSide(t('Before: {0}', before), compared.before, (id, text) => select(id, links.to.get(id), text)),
    createSide(t('Now: {0}', after), compared.after, (id, text) => select(links.from.get(id), id, text)),
  ];
  sides = [left, right];
  drawings.replaceChildren(...sides.map(({ root }) => root));
  const { parts, wires } = compared.change;
  changes.replaceChildren(
    ...[...parts, ...wires].map((change, index) => {
      const button = html('button', { type: 'button', class: `plain ${change.kind}`, 'aria-pressed': 'false' });
      button.append(html('span', { class: 'letter' }, `${letters[change.kind]}${index + 1}`), ` ${change.says}`);
      const show = (): void => {
        select(compared.before.marks[index]?.ids[0], compared.after.marks[index]?.ids[0], change.says, index);
      };
      button.addEventListener('click', show);
      button.addEventListener('dblclick', () => send({ kind: 'go', change: index }));
      button.addEventListener('keydown', (event) => {
        if (event.key === 'F12') send({ kind: 'go', change: index });
      });
      return html('li', {}, button);
    }),
  );
  if (changes.childElementCount === 0) changes.append(html('li', {}, t('Parts and wires are the same.')));
  behaviour.replaceChildren(...positionTable(compared.change));
  rest.replaceChildren(...sectionLists(compared.sections));
  says.textContent =
    parts.length + wires.length === 0
      ? ''
      : t('Choose a change, a part or a wire to show it in both drawings. Press F12 or double-click a change to go to its line.');
  dress();
}

/** Marks a thing in both drawings; what stands in one alone is marked there. */
function select(before: string | undefined, after: string | undefined, text: string, change?: number): void {
  sides[0]?.select(before);
  sides[1]?.select(after);
  says.textContent = text;
  [...changes.querySelectorAll('button')].forEach((button, index) =>
    button.setAttribute('aria-pressed', String(index === change)),
  );
}

function linksOf({ links }: ComparedCircuits): {
  readonly to: ReadonlyMap<string, string>;
  readonly from: ReadonlyMap<string, string>;
} {
  return { to: new Map(links), from: new Map(links.map(([before, after]) => [after, before])) };
}

function dress(): void {
  const isDark = isDarkTheme();
  for (const { picture } of sides) {
    picture.root.classList.toggle('dark', isDark);
    picture.root.classList.toggle('light', !isDark);
  }
}

const looks = new CSSStyleSheet();
looks.replaceSync(styleSheet);
document.adoptedStyleSheets = [looks];
onTheme(dress);

window.addEventListener('message', ({ data }: MessageEvent<ToCompare>) => {
  try {
    if (data.kind === 'banner') {
      banner.textContent = data.text;
      banner.hidden = data.text === '';
    } else if (data.kind === 'state') editor.setState(data.state);
    else show(data);
  } catch (error) {
    send({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
});
send({ kind: 'ready' });
