/** What differs besides the drawings: the table of changed behaviour, and the lists of all else. */
import type { Change, ChangeSection } from '../../../language/compare/index.js';
import { html } from '../../preview/webview/dom.js';

/** A row for each position that differs. */
export function positionTable({ positions, electrical }: Change): readonly HTMLElement[] {
  const heading = html('h2', { id: 'behaviour' }, 'Changed behaviour');
  if (positions.length === 0) {
    const text = electrical ? 'No position is heard or measured otherwise.' : 'No electrical change.';
    return [heading, html('p', {}, text)];
  }
  const head = html('tr', {}, ...['position', 'what differs'].map((text) => html('th', { scope: 'col' }, text)));
  const rows = positions.map(({ label, what }) =>
    html(
      'tr',
      {},
      html('th', { scope: 'row' }, label || 'as it is'),
      html('td', {}, html('ul', {}, ...what.split('; ').map((piece) => html('li', {}, piece)))),
    ),
  );
  return [heading, html('table', {}, html('thead', {}, head), html('tbody', {}, ...rows))];
}

/** Sections that stand nowhere else on the page; long ones are folded. */
export function sectionLists(sections: readonly ChangeSection[]): readonly HTMLElement[] {
  const shown = new Set(['parts', 'wires', 'positions']);
  const words: Readonly<Record<string, string>> = { '+': 'new: ', '-': 'gone: ', '~': 'otherwise: ', '>': 'moved: ' };
  return sections
    .filter(({ title }) => !shown.has(title))
    .map(({ title, lines }) =>
      html(
        'details',
        title === 'steps' || title === 'cut list' ? {} : { open: true },
        html('summary', {}, `${title.charAt(0).toUpperCase()}${title.slice(1)} (${lines.length})`),
        html(
          'ul',
          {},
          ...lines.map(({ mark, says }) =>
            html('li', {}, `${words[mark] ?? ''}${mark === '+' ? says.replace(/^new /, '') : says}`),
          ),
        ),
      ),
    );
}
