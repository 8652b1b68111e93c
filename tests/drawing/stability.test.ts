/** The same text gives the same drawing, whatever the order of its lines; what joins nothing moves nothing; a small edit moves little. */
import { describe, expect, test } from 'vitest';
import { createDrawer, draw, type Scene } from '../../language/drawing/index.js';
import { elkLayout } from '../../server/elk.js';
import { edits as smallEdits } from './edits.js';
import { offences } from './judge.js';
import { movedShare } from './measure.js';
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
  test('the order of statements does not matter, but for the numbers of the wires', async () => {
    const { scene } = await drawing(name);
    const other = reordered(exampleText(name));
    expect(other).not.toBe(exampleText(name));
    const again = (await draw(circuitOf(name, other), elkLayout)).scene;
    expect(again.parts).toEqual(scene.parts);
    expect(again.wires.map(({ id, points }) => ({ id, points }))).toEqual(scene.wires.map(({ id, points }) => ({ id, points })));
  });
});

describe('a drawer', () => {
  const name = 'three-single-coils-lever-5';
  const text = exampleText(name);

  test.each([
    ['a value', '22nF', '33nF'],
    ['a colour', 'yellow 22awg', 'red 22awg'],
    ['a comment', 'instrument', '// seen again\ninstrument'],
    ['the title', 'Alder Lane no. 5', 'Alder Lane no. 50'],
    ['an expectation', 'expect volume 0 ', 'expect volume 1 '],
  ])('moves nothing for %s', async (_, before, after) => {
    const drawer = createDrawer(elkLayout);
    const first = await drawer.draw(circuitOf(name));
    const second = await drawer.draw(circuitOf(name, text.replaceAll(before, after)));
    expect(second.scene.wires.map((wire) => wire.points)).toEqual(first.scene.wires.map((wire) => wire.points));
    expect(second.scene.parts.map((part) => part.box)).toEqual(first.scene.parts.map((part) => part.box));
  });

  test('turns the sheet over without moving anything', async () => {
    const drawer = createDrawer(elkLayout);
    const front = (await drawer.draw(circuitOf(name))).scene;
    const back = (await drawer.draw(circuitOf(name), { side: 'player' })).scene;
    const width = front.parts[0]!.lugs[0]!.x + back.parts[0]!.lugs[0]!.x;
    expect(back.parts.flatMap((part) => part.lugs.map((lug) => width - lug.x))).toEqual(
      front.parts.flatMap((part) => part.lugs.map((lug) => lug.x)),
    );
    expect(back.notes.map((note) => note.text)).toContain('Seen from the player’s side, a mirror image of the solder side');
  });

  test('lays only the wire anew that was moved', async () => {
    const drawer = createDrawer(elkLayout);
    const before = (await drawer.draw(circuitOf(name))).scene;
    const after = (await drawer.draw(circuitOf(name, text.replace(/neck\.hot +to selector\.A3/, 'neck.hot to selector.A1'))))
      .scene;
    expect(movedShare(before, after, 0)).toBe(0);
    expect(after.wires.map((wire) => wire.id)).toContain('wire:neck.hot~selector.A1');
    expect(offences(after)).toEqual([]);
  });

  test('draws another circuit as if there had been none before', async () => {
    const drawer = createDrawer(elkLayout);
    await drawer.draw(circuitOf(name));
    const other = await drawer.draw(circuitOf('push-pull-coil-split'));
    expect(other.scene.parts.map(({ name: part }) => part)).toEqual(
      (await drawing('push-pull-coil-split')).scene.parts.map(({ name: part }) => part),
    );
    expect(offences(other.scene)).toEqual([]);
  });

  test('puts a part that comes back where it was', async () => {
    const drawer = createDrawer(elkLayout);
    const before = (await drawer.draw(circuitOf(name))).scene;
    await drawer.draw(
      circuitOf(
        name,
        text
          .split('\n')
          .filter((line) => !line.includes('saddle'))
          .join('\n'),
      ),
    );
    expect((await drawer.draw(circuitOf(name))).scene.parts.map((part) => part.box)).toEqual(
      before.parts.map((part) => part.box),
    );
  });

  test.each(smallEdits)('over all examples, after $what few parts have moved and all can be read', async ({ apply }) => {
    const shares: number[] = [];
    for (const example of examples) {
      const edited = apply(example);
      if (edited === undefined) continue;
      const drawer = createDrawer(elkLayout);
      const before = (await drawer.draw(circuitOf(example))).scene;
      const after = (await drawer.draw(circuitOf(example, edited))).scene;
      expect(offences(after)).toEqual([]);
      shares.push(movedShare(before, after, 12));
    }
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeLessThan(0.1);
  });
});

test.each(smallEdits.filter(({ what }) => what !== 'a part added'))(
  'no part moves on the sheet after $what, though each text is drawn by itself',
  async ({ apply }) => {
    for (const example of examples) {
      const edited = apply(example);
      if (edited === undefined) continue;
      const before = (await draw(circuitOf(example), elkLayout)).scene;
      const after = (await draw(circuitOf(example, edited), elkLayout)).scene;
      expect({ example, moved: movedShare(before, after, 0) }).toEqual({ example, moved: 0 });
    }
  },
);

describe('a small edit moves little', () => {
  const centre = (scene: Scene, id: string): { x: number; y: number } | undefined => {
    const box = scene.parts.find((part) => part.id === id)?.box;
    return box && { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };

  /** Share of the pairs of parts of which one still lies on the same side of the other, within 60 degrees. */
  function kept(a: Scene, b: Scene): number {
    const ids = a.parts.map(({ id }) => id).filter((id) => centre(b, id));
    const pairs = ids.flatMap((one, index) => ids.slice(index + 1).map((other) => [one, other] as const));
    const direction = (scene: Scene, [one, other]: readonly [string, string]): number => {
      const [p, q] = [centre(scene, one)!, centre(scene, other)!];
      return Math.atan2(q.y - p.y, q.x - p.x);
    };
    const isKept = (pair: readonly [string, string]): boolean => Math.cos(direction(a, pair) - direction(b, pair)) > 0.5;
    return pairs.filter(isKept).length / pairs.length;
  }

  const edits: readonly (readonly [string, (lines: string[]) => string[]])[] = [
    ['the saddle’s wire taken away', (lines) => lines.filter((line) => !/^wire saddle /.test(line))],
    [
      'the first wire taken away',
      (lines) => lines.filter((_, index) => index !== lines.findIndex((line) => /^wire /.test(line))),
    ],
    ['a part added', (lines) => [...lines, 'part spare : junction', 'wire spare to output.tip']],
    [
      'a wire moved to the next lug',
      (lines) => lines.map((line) => line.replace(/^(wire .*)\bvolume\.2 to output\.tip/, '$1volume.1 to output.tip')),
    ],
  ];
  test.each(edits)('over all examples, %s leaves most parts where the eye looks for them', async (_, edit) => {
    const shares = await Promise.all(
      examples.map(async (name) => {
        const text = edit(exampleText(name).split('\n')).join('\n');
        return kept((await drawing(name)).scene, (await draw(circuitOf(name, text), elkLayout)).scene);
      }),
    );
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeGreaterThan(0.75);
  });
});
