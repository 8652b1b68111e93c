/** The same text gives the same drawing, whatever the order of its lines; what joins nothing moves nothing; a small edit moves little. */
import { describe, expect, test } from 'vitest';
import { createDrawer, draw, type Scene } from '../../language/drawing/index.js';
import type { LayoutFunction } from '../../language/drawing/layout.js';
import { elkLayout } from '../../server/elk.js';
import { circuitOf, drawing, exampleText, examples } from './support.js';

/** Statements on one line of their own, in the opposite order; everything else stays. */
function reordered(text: string): string {
  const lines = text.split('\n');
  const isAlone = (line: string, index: number): boolean =>
    /^(part|wire|solder) [^{]*(\{.*\})?$/.test(line) && !/^\s/.test(lines[index + 1] ?? '');
  const movable = lines.filter(isAlone).reverse();
  return lines.map((line, index) => (isAlone(line, index) ? movable.shift()! : line)).join('\n');
}

describe.each(examples)('%s', (name) => {
  test('the order of statements does not matter', async () => {
    const { scene } = await drawing(name);
    const other = reordered(exampleText(name));
    expect(other).not.toBe(exampleText(name));
    expect((await draw(circuitOf(name, other), elkLayout)).scene).toEqual(scene);
  });
});

describe('a drawer', () => {
  function counting(): { readonly layout: LayoutFunction; readonly count: () => number } {
    let calls = 0;
    return {
      layout(graph) {
        calls += 1;
        return elkLayout(graph);
      },
      count: () => calls,
    };
  }
  const name = 'three-single-coils-lever-5';
  const text = exampleText(name);

  test.each([
    ['a value', '22nF', '33nF'],
    ['a colour', 'yellow 22awg', 'red 22awg'],
    ['a comment', 'instrument', '// seen again\ninstrument'],
    ['the title', 'Alder Lane no. 5', 'Alder Lane no. 50'],
    ['an expectation', 'expect volume 0 ', 'expect volume 1 '],
  ])('lays out nothing again for %s, and moves nothing', async (_, before, after) => {
    const { layout, count } = counting();
    const drawer = createDrawer(layout);
    const first = await drawer.draw(circuitOf(name));
    const second = await drawer.draw(circuitOf(name, text.replaceAll(before, after)));
    expect(count()).toBe(1);
    expect(second.scene.wires.map((wire) => wire.points)).toEqual(first.scene.wires.map((wire) => wire.points));
    expect(second.scene.parts.map((part) => part.box)).toEqual(first.scene.parts.map((part) => part.box));
  });

  test('turns the sheet over without laying out again', async () => {
    const { layout, count } = counting();
    const drawer = createDrawer(layout);
    const front = (await drawer.draw(circuitOf(name))).scene;
    const back = (await drawer.draw(circuitOf(name), { side: 'player' })).scene;
    expect(count()).toBe(1);
    const width = front.parts[0]!.lugs[0]!.x + back.parts[0]!.lugs[0]!.x;
    expect(back.parts.flatMap((part) => part.lugs.map((lug) => width - lug.x))).toEqual(
      front.parts.flatMap((part) => part.lugs.map((lug) => lug.x)),
    );
    expect(back.notes.map((note) => note.text)).toContain(
      'Seen from the player’s side: everything is mirrored against what the iron sees.',
    );
  });

  test('lays out again for a moved wire', async () => {
    const { layout, count } = counting();
    const drawer = createDrawer(layout);
    await drawer.draw(circuitOf(name));
    await drawer.draw(circuitOf(name, text.replace(/neck\.hot +to selector\.A3/, 'neck.hot to selector.A1')));
    expect(count()).toBe(2);
  });
});

describe('a small edit moves little', () => {
  /** Share of the parts in both drawings that have moved against most of the others by more than a part's width. */
  function moved(a: Scene, b: Scene): number {
    const shifts = a.parts.flatMap((part) => {
      const other = b.parts.find(({ id }) => id === part.id);
      return other ? [{ x: other.box.x - part.box.x, y: other.box.y - part.box.y }] : [];
    });
    const middle = (values: number[]): number => [...values].sort((p, q) => p - q)[Math.floor(values.length / 2)]!;
    const common = { x: middle(shifts.map(({ x }) => x)), y: middle(shifts.map(({ y }) => y)) };
    return shifts.filter(({ x, y }) => Math.hypot(x - common.x, y - common.y) > 120).length / shifts.length;
  }

  test('over all examples, a wire taken away leaves most parts where they are', async () => {
    const shares = await Promise.all(
      examples.map(async (name) => {
        const lines = exampleText(name).split('\n');
        const last = lines.findLastIndex((line) => /^wire /.test(line));
        const without = lines.filter((_, index) => index !== last).join('\n');
        return moved((await drawing(name)).scene, (await draw(circuitOf(name, without), elkLayout)).scene);
      }),
    );
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeLessThan(0.4);
  });
});
