/** Pages of hostile texts: whatever a name or title says, it is shown as text, and nothing of it runs. */
import { afterEach, expect, test } from 'vitest';
import { fillPage, readLivePage } from '../../language/live/index.js';
import { openPage, pageOf, type OpenedPage } from './harness.js';

const evil = `</script><img src=x onerror=alert(1)> </title></style> <!-- <!--lugwork:data--> & " ' \u2028`;
const quoted = `"${evil.replaceAll('"', '\\"')}"`;
const circuit = `/** ${evil} */
instrument ${quoted}

part bridge   : single-coil 6.9k 2.9H 120pF
part neck     : single-coil 6.2k 2.4H 110pF
part selector : lever-3 { positions ${quoted} "both" "</script>" }
part volume   : pot 250k audio
part output   : jack

wire bridge.hot  to selector.A1 to selector.A2
wire neck.hot    to selector.B3 to selector.B2
wire selector.A0 to selector.B0 to volume.3
wire volume.2    to output.tip
wire bridge.ground to neck.ground to volume.1 to volume.case to selector.frame to output.sleeve
`;

let opened: OpenedPage | undefined;
afterEach(() => opened?.close());

test('a hostile title, comment and position are text in the page', async () => {
  const html = await pageOf(circuit);
  opened = await openPage(html);
  const { page, complaints, requests } = opened;
  await page.locator('.frame svg.played').waitFor();
  expect(await page.locator('img').count()).toBe(0);
  expect(await page.locator('h1').textContent()).toContain('</script><img src=x onerror=alert(1)>');
  expect(await page.title()).toContain('<img src=x onerror=alert(1)>');
  await page.locator('.controls label', { hasText: /^<\/script>$/ }).click();
  await page.locator('.says', { hasText: 'sounds neck' }).waitFor();
  expect([complaints, requests.length]).toEqual([[], 1]);
  // The page's own elements alone, whatever its script's strings hold.
  const marked = html.replace(/(<script>)[^]*(<\/script>\s*<\/body>)/, '$1$2');
  for (const [tag, count] of [
    ['script', 2],
    ['style', 1],
    ['title', 1],
  ] as const)
    expect(marked.match(new RegExp(`<${tag}[ >]`, 'g'))).toHaveLength(count);
}, 120_000);

test('data that is no circuit is said to be damaged, in one sentence', async () => {
  const html = await pageOf(circuit);
  opened = await openPage(html.replace('"lugwork":1', '"lugwork":99'));
  await opened.page.getByRole('alert').filter({ hasText: 'This page is damaged: it is not a circuit of version 1.' }).waitFor();
  expect(readLivePage('{"circuit":{"lugwork":1,"files":[]}}')).toEqual({ problem: '.files is not a list of texts' });
}, 120_000);

test('of very many settings so many are listed that the page stays small, and the others are counted', async () => {
  const switches = Array.from({ length: 10 }, (_, index) => `kill-${index}`);
  const html = await pageOf(
    `part coil : single-coil 6k 2H 100pF\npart out : jack\npart ${switches.join(', ')} : spst\nwire coil.hot to out.tip\nwire coil.ground to out.sleeve\n${switches
      .map((name) => `wire coil.hot to ${name}.A0\nwire ${name}.A1 to out.sleeve\n`)
      .join('')}`,
  );
  const [, data] = /id="instrument">([^<]*)</.exec(html)!;
  const page = readLivePage(data!);
  if ('problem' in page) throw new Error(page.problem);
  expect(page.table.rows).toHaveLength(256);
  // Two positions of each of ten switches: 1,024 settings.
  expect(page.table.leftOut[0]).toBe('768 more settings are not listed: use the controls.');
  expect(html).toMatch(/<p>\d+ more are not listed: use the controls\.<\/p>/);
  expect(Buffer.byteLength(html)).toBeLessThan(1_000_000);
}, 120_000);

test('values are put in once, and a template of another version is refused', () => {
  const contents = { title: '<!--lugwork:data--> $& $1', lead: 'l', words: 'w', data: 'd' };
  const template = ['language', 'title', 'texts', 'lead', 'words', 'data'].map((name) => `<!--lugwork:${name}-->`).join('|');
  expect(fillPage(template, contents, { language: 'de-"', texts: { Close: '"Zu"' } })).toBe(
    'de-&quot;|&lt;!--lugwork:data--&gt; $&amp; $1|{&quot;Close&quot;:&quot;&quot;Zu&quot;&quot;}|l|w|d'.replace(
      '&quot;&quot;Zu&quot;&quot;',
      '&quot;\\&quot;Zu\\&quot;&quot;',
    ),
  );
  expect(() => fillPage('<p>', contents)).toThrow(/no place for its/);
});
