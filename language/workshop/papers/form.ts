/** The form for the customer: whose instrument it is, what was found and done, photographs, time and price, signatures. A page for each instrument. */
import { escapeXml } from '../../escape.js';
import type { Build } from '../build.js';
import { titleOf } from '../wording.js';

/** One page for each instrument of the batch; of a record, that of its instrument. */
export function formPages(build: Build): readonly string[] {
  const { record, batch } = build;
  const numbers = record === undefined ? Array.from({ length: batch }, (_, index) => index + 1) : [record.number];
  return numbers.map((number) => {
    const title = titleOf(build, number, 'Instrument');
    return [
      `<h2>${safe(title)}: work order and report</h2>`,
      '<div class="fields">',
      ...[
        ['Customer', ''],
        ['Phone or e-mail', ''],
        ['Serial number', ''],
        ['Date received', ''],
        ['Date finished', record?.date ?? ''],
        ['Work by', record?.by ?? ''],
      ].map(([name = '', known = '']) => `<div><b>${name}</b><i>${safe(known)}</i></div>`),
      '</div>',
      ...linesFor('Found before the work: sound, noise, damage, readings', record?.before ?? [], 4),
      ...linesFor('Done, and parts that were fitted', record?.changed ?? [], 5),
      '<h3>Photographs</h3>',
      `<div class="photos">${['Before: the wiring', 'Before: the front', 'After: the wiring', 'After: the front'].map((name) => `<div>${name}</div>`).join('')}</div>`,
      '<h3>Time and price</h3>',
      '<table><thead><tr><th>item</th><th>hours</th><th>price</th></tr></thead><tbody>',
      ...['Work', 'Parts', ''].map((name) => `<tr><td>${name}</td><td></td><td></td></tr>`),
      '<tr class="total"><td>Total, tax included</td><td></td><td></td></tr></tbody></table>',
      '<div class="fields signed">',
      ...['Customer, on ordering', 'Customer, on collecting', 'Workshop'].map(
        (name) => `<div><b>${name}: date, signature</b><i></i></div>`,
      ),
      '</div>',
    ].join('\n');
  });
}

/** What is known already, and lines to write on. */
function linesFor(title: string, known: readonly string[], least: number): string[] {
  const written = known.map((text) => `<p>${safe(text)}</p>`);
  const empty = Array.from({ length: Math.max(1, least - known.length) }, () => '<p></p>');
  return [`<h3>${title}</h3>`, `<div class="lines">${[...written, ...empty].join('')}</div>`];
}

function safe(text: string): string {
  return escapeXml(text.replace(/\s+/g, ' '));
}
