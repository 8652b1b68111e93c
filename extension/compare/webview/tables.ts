/** What differs besides the drawings: the table of changed behaviour, and the lists of all else. */
import type { Change, ChangeSection } from '../../../language/compare/index.js';
import { html } from '../../preview/webview/dom.js';
import { t } from '../../preview/webview/texts.js';

/** A row for each position that differs. */
export function positionTable({ positions, electrical, unread, summary }: Change): readonly HTMLElement[] {
  const heading = html('h2', { id: 'behaviour' }, t('Changed behaviour'));
  if (positions.length === 0) {
    const text =
      unread.length > 0 ? summary : electrical ? t('No position sounds or measures differently.') : t('No electrical change.');
    return [heading, html('p', {}, text)];
  }
  const head = html('tr', {}, ...[t('position'), t('change')].map((text) => html('th', { scope: 'col' }, text)));
  const rows = positions.map(({ label, what }) =>
    html(
      'tr',
      {},
      html('th', { scope: 'row' }, label || t('default')),
      html('td', {}, html('ul', {}, ...what.split('; ').map((piece) => html('li', {}, piece)))),
    ),
  );
  return [heading, html('table', {}, html('thead', {}, head), html('tbody', {}, ...rows))];
}

/** Sections that stand nowhere else on the page; long ones are folded. */
export function sectionLists(sections: readonly ChangeSection[]): readonly HTMLElement[] {
  const shown = new Set(['not read', 'parts', 'wires', 'positions']);
  return sections
    .filter(({ title }) => !shown.has(title))
    .map(({ title, lines }) =>
      html(
        'details',
        title === 'steps' || title === 'cut list' ? {} : { open: true },
        html('summary', {}, `${title.charAt(0).toUpperCase()}${title.slice(1)} (${lines.length})`),
        html('ul', {}, ...lines.map(({ mark, says }) => html('li', {}, marked(mark, says)))),
      ),
    );
}

function marked(mark: string, says: string): string {
  if (mark === '+') return t('new: {0}', says.replace(/^new /, ''));
  if (mark === '-') return t('gone: {0}', says);
  if (mark === '~') return t('changed: {0}', says);
  return mark === '>' ? t('moved: {0}', says) : says;
}
