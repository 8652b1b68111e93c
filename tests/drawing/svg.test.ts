/** The SVG: stands alone, says what it shows, and lets nothing of a text become markup. */
import { describe, expect, test } from 'vitest';
import { createDrawer, draw, highlightOf, renderSvg } from '../../language/drawing/index.js';
import { escapeXml } from '../../language/escape.js';
import { restingSetting } from '../../language/electrics/index.js';
import { elkLayout } from '../../server/elk.js';
import { offences } from './judge.js';
import { circuitOf, circuitOfText, drawing, exampleText, nesting } from './support.js';

const hostile = `instrument "</text><script>alert(1)</script> & \\"quoted\\" ]]>"
part a : single-coil
part b : pot 250k
part output : jack
wire a.hot to b.3
wire b.2 to output.tip
wire a.ground to b.case to output.sleeve
part sw : mini-dpdt { positions "<img src=x onerror=alert(2)>" "' onload='x" }
wire b.1 to sw.A0
`;

describe('texts of a file', () => {
  test('never become markup', async () => {
    const circuit = circuitOfText(hostile);
    const { scene, diagram } = await draw(circuit, elkLayout);
    const svg = renderSvg(scene, { highlight: highlightOf(circuit, diagram, restingSetting(circuit)) });
    expect(new Set(nesting(svg))).toEqual(new Set(['svg', 'title', 'desc', 'style', 'rect', 'g', 'path', 'circle', 'text']));
    expect(svg).not.toMatch(/<script|<img|onload='/);
    expect(svg).toContain('&lt;/text&gt;&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;quoted&quot; ]]&gt;');
  });

  test('lose what XML forbids', () => {
    expect(escapeXml('a\u0000b\u0008c\uFFFEd')).toBe('a·b·cd');
    expect(escapeXml(`"<'>&`)).toBe('&quot;&lt;&#39;&gt;&amp;');
  });

  test('are cut where they would leave the sheet', async () => {
    const name = `coil-${'long-'.repeat(60)}end`;
    const { scene } = await draw(
      circuitOfText(`part ${name} : single-coil\npart output : jack\nwire ${name}.hot to output.tip\n`),
      elkLayout,
    );
    for (const part of scene.parts) for (const label of part.labels) expect(label.width).toBeLessThan(210);
    expect(offences(scene)).toEqual([]);
  });

  test('of any alphabet have a box of their own', async () => {
    const { scene } = await draw(
      circuitOfText('part 琴橋 : single-coil\npart Lautstärke : pot 250k\npart output : jack\nwire 琴橋.hot to Lautstärke.3\n'),
      elkLayout,
    );
    const label = scene.parts.flatMap((part) => part.labels).find(({ text }) => text === '琴橋')!;
    expect(label.width).toBeGreaterThan(2 * 12);
  });
});

test('cautions and the side stand on every sheet', async () => {
  const { scene } = await drawing('one-pickup-volume-tone');
  const text = scene.notes.map((note) => note.text).join(' ');
  for (const words of [
    'Unplug from the amplifier',
    'remove the battery',
    'Hot iron',
    'clip leads',
    'licensed electrician',
    'local code',
    'Seen from behind, the side the iron comes to',
  ]) {
    expect(text).toContain(words);
  }
});

test('two drawings share a page: with a prefix no id is the other’s, and each names its own title', async () => {
  const { scene } = await drawing('one-pickup-volume-tone');
  const [one, other] = [renderSvg(scene, { idPrefix: 'a-' }), renderSvg(scene, { idPrefix: 'b-' })];
  const ids = [...(one + other).matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
  expect(ids.length).toBe(new Set(ids).size);
  expect(one).toContain('aria-labelledby="a-drawing-title a-drawing-summary"');
  expect(one.replaceAll('"a-', '"').replaceAll(' a-drawing', ' drawing')).toBe(renderSvg(scene));
});

test('a wire of another colour changes its own line, its joints’ none, and the key', async () => {
  const name = 'three-single-coils-lever-5';
  const drawer = createDrawer(elkLayout);
  const lines = async (text: string): Promise<string[]> =>
    renderSvg((await drawer.draw(circuitOf(name, text))).scene).split('\n');
  const text = exampleText(name);
  const before = await lines(text);
  const after = await lines(text.replace('yellow 22awg', 'red 22awg'));
  expect(after.length).toBe(before.length);
  // The statement's two runs, and the line that holds the key and the notes.
  expect(after.filter((line, index) => line !== before[index]).length).toBeLessThanOrEqual(3);
});

test('light and dark are slots; a fixed scheme is a class', async () => {
  const { scene } = await drawing('one-pickup-volume-tone');
  const svg = renderSvg(scene, { scheme: 'dark' });
  expect(svg).toContain('class="lugwork dark"');
  expect(svg).toContain('prefers-color-scheme:dark');
  expect(svg).toContain('@media print');
  expect(renderSvg(scene)).toContain('class="lugwork"');
});

test('a scene cannot be changed, and goes through JSON unharmed', async () => {
  const { scene } = await createDrawer(elkLayout).draw(circuitOf('one-pickup-volume-tone'));
  expect(Object.isFrozen(scene.wires[0]!.points[0])).toBe(true);
  expect(JSON.parse(JSON.stringify(scene))).toEqual(scene);
});
