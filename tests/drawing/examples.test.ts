/** Every example, from either side and with either kind of ground, can be read: nothing lies on anything else, every joint is there. */
import { describe, expect, test } from 'vitest';
import { createDiagram, renderSvg, type Diagram } from '../../language/drawing/index.js';
import { boxAround, grow } from '../../language/drawing/geometry.js';
import type { Scene } from '../../language/drawing/scene.js';
import { escapeXml } from '../../language/escape.js';
import { offences } from './judge.js';
import { nearPairs } from './measure.js';
import { circuitOf, drawing, examples, nesting } from './support.js';

const ways = [{}, { side: 'player' }, { grounds: 'marks' }] as const;

describe.each(examples)('%s', (name) => {
  test.each(ways)('nothing lies on anything else %o', async (options) => {
    const { scene, remarks } = await drawing(name, options);
    expect(offences(scene)).toEqual([]);
    expect(remarks).toEqual([]);
  });

  test('every run of the diagram is a wire that begins and ends in a joint', async () => {
    const { scene, diagram } = await drawing(name);
    expect(scene.wires.map((wire) => wire.id)).toEqual(diagram.runs.map((run) => run.id));
    expect(unsoldered(scene)).toEqual([]);
  });

  test('every coloured wire bears its letters, so that colour is never the only sign', async () => {
    const { scene } = await drawing(name);
    expect(scene.wires.filter((wire) => wire.colours.length > 0 && wire.labels.length === 0).map((wire) => wire.id)).toEqual([]);
  });

  test('every lug bears its name, unless it is the part’s metal or one of two leads that may be exchanged', async () => {
    const { scene, diagram } = await drawing(name);
    const nameless = diagram.parts
      .filter((part) => part.lugs.length > 1 && part.kind !== 'mark')
      .flatMap((part) => {
        const texts = scene.parts.find((other) => other.id === part.id)!.labels.map((label) => label.text);
        const letters: Readonly<Record<string, string>> = { plus: '+', minus: '−', anode: 'A', cathode: 'K' };
        const shown = (lug: string): string => (texts.includes(lug) ? lug : (letters[lug] ?? lug));
        const drawn = scene.parts.find((other) => other.id === part.id)!.lugs;
        const isMetal = (lug: string): boolean => drawn.some(({ id, look }) => id === lug && look === 'spot');
        const isAlike = ['capacitor', 'resistor', 'inductor'].includes(part.kind);
        return part.lugs
          .filter((lug) => !texts.includes(shown(lug.name)) && !isMetal(lug.id) && !(isAlike && /^[ab]$/.test(lug.name)))
          .map((lug) => lug.label);
      });
    expect(nameless).toEqual([]);
  });

  test('the scene is as it stands in the snapshot, one thing a line, so that a change of the drawing shows in review', async () => {
    const { scene } = await drawing(name);
    await expect(lines(scene)).toMatchFileSnapshot(`snapshots/${name}.json`);
  });

  test('the SVG stands alone, with a title, a summary and a name for everything', async () => {
    const { scene } = await drawing(name);
    const svg = renderSvg(scene);
    expect(nesting(svg)[0]).toBe('svg');
    expect(svg).not.toMatch(/href=|url\(|@import|<script|<image/);
    expect(svg).toMatch(/aria-labelledby="drawing-title drawing-summary"/);
    for (const { says } of [...scene.parts, ...scene.wires, ...scene.groups, ...scene.channels, ...scene.marks]) {
      expect(svg).toContain(`aria-label="${escapeXml(says)}"`);
    }
    const ids = [...svg.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(ids.length).toBe(new Set(ids).size);
  });

  test('ids are unique', async () => {
    const { scene } = await drawing(name);
    const ids = [
      ...[
        ...scene.groups,
        ...scene.channels,
        ...scene.parts,
        ...scene.wires,
        ...scene.joints,
        ...scene.marks,
        ...scene.contacts,
      ].map(({ id }) => id),
      ...scene.parts.flatMap((part) => part.lugs.map((lug) => lug.id)),
    ];
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  });

  test('wires between cavities stay in cavities and channels; every lug is on the sheet; wires keep their distance', async () => {
    const { scene, diagram } = await drawing(name);
    expect(throughWood(scene, diagram)).toEqual([]);
    const lugs = scene.parts.flatMap((part) => part.lugs);
    expect(lugs.filter(({ x, y }) => x < 0 || y < 0 || x > scene.width || y > scene.height)).toEqual([]);
    expect(nearPairs(scene)).toEqual([]);
  });

  test('parts keep apart', async () => {
    const { scene } = await drawing(name);
    const boxes = scene.parts.map((part) => ({ id: part.id, ...part.box }));
    const clashing = boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter((b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height)
        .map((b) => `${a.id} and ${b.id}`),
    );
    expect(clashing).toEqual([]);
  });
});

test('more ground wires than can be followed become marks', () => {
  const wires = Array.from(
    { length: 14 },
    (_, index) => `part p${index} : single-coil\nwire p${index}.ground to output.sleeve black`,
  ).join('\n');
  const circuit = circuitOf('one-pickup-volume-tone', `part output : jack\n${wires}\n`);
  expect(createDiagram(circuit).grounds).toBe('marks');
  expect(createDiagram(circuit, { grounds: 'wires' }).grounds).toBe('wires');
});

describe('the judge sees', () => {
  const move = async (change: (scene: Scene) => Partial<Scene>): Promise<string[]> => {
    const { scene } = await drawing('one-pickup-volume-tone');
    return offences({ ...scene, ...change(scene) });
  };

  test('a wire laid over a label', async () => {
    const found = await move((scene) => ({
      wires: scene.wires.map((wire, index) =>
        index === 0 ? { ...wire, points: [scene.parts[0]!.labels[0]!, { x: 0, y: 0 }] } : wire,
      ),
    }));
    expect(found.join()).toContain('runs over');
  });

  test('a wire laid over a lug of another', async () => {
    const found = await move((scene) => {
      const [wire] = scene.wires;
      const lug = scene.parts
        .flatMap(({ lugs }) => lugs)
        .find(({ id, look }) => look === 'lug' && ![wire!.from, wire!.to].includes(id))!;
      return { wires: [{ ...wire!, points: [lug, { x: lug.x, y: lug.y + 50 }] }] };
    });
    expect(found.join()).toContain('runs over lug:');
  });

  test('two wires on one track', async () => {
    const found = await move((scene) => ({
      wires: scene.wires.map((wire, index) => (index === 0 ? { ...wire, points: scene.wires[1]!.points } : wire)),
    }));
    expect(found.join()).toContain('share a stretch');
  });

  test('a wire that ends on another', async () => {
    const found = await move((scene) => {
      const [a, b] = scene.wires[1]!.points;
      const middle = { x: (a!.x + b!.x) / 2, y: (a!.y + b!.y) / 2 };
      return {
        wires: scene.wires.map((wire, index) =>
          index === 0 ? { ...wire, points: [middle, { x: middle.x + 5, y: middle.y + 5 }] } : wire,
        ),
      };
    });
    expect(found.join()).toContain('touch');
  });

  test('two labels in one place', async () => {
    const found = await move((scene) => ({ notes: [...scene.notes, scene.notes[0]!] }));
    expect(found.join()).toContain('lies on');
  });
});

/** Stretches of wire between two lugs in cavities of which a point lies outside all cavities and channels. */
function throughWood(scene: Scene, diagram: Diagram): string[] {
  const cavities = scene.groups.filter((group) => group.id.startsWith('cavity:')).flatMap((group) => group.shapes);
  const bores = scene.channels.flatMap(({ shapes }) => {
    const points = shapes.flatMap((shape) => (shape.kind === 'path' ? shape.points : []));
    return [boxAround(points)];
  });
  const hollow = [...cavities.flatMap((shape) => (shape.kind === 'box' ? [shape] : [])), ...bores].map((box) => grow(box, 0.01));
  const isHollow = (x: number, y: number): boolean =>
    hollow.some((box) => x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height);
  const parentOf = new Map(diagram.groups.map((group) => [group.id, group.parent]));
  const isInCavity = (group: string | undefined): boolean =>
    group !== undefined && (group.startsWith('cavity:') || isInCavity(parentOf.get(group)));
  const inside = new Set(
    diagram.parts.filter((part) => isInCavity(part.group)).flatMap((part) => part.lugs.map((lug) => lug.id)),
  );
  return scene.wires
    .filter((wire) => inside.has(wire.from) && inside.has(wire.to))
    .filter((wire) =>
      wire.points.slice(1).some((b, index) => {
        const a = wire.points[index]!;
        const steps = Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 3);
        return Array.from({ length: steps + 1 }, (_, step) => step / Math.max(1, steps)).some(
          (share) => !isHollow(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share),
        );
      }),
    )
    .map((wire) => wire.id);
}

/** Ends of wires at which there is no solder. */
function unsoldered(scene: Scene): string[] {
  const has = (x: number, y: number): boolean =>
    scene.joints.some((joint) => Math.abs(joint.x - x) < 0.01 && Math.abs(joint.y - y) < 0.01);
  return scene.wires.flatMap((wire) => {
    const ends = [wire.points[0]!, ...(wire.kind === 'ground' ? [] : [wire.points.at(-1)!])];
    return ends.filter(({ x, y }) => !has(x, y)).map(() => wire.id);
  });
}

/** JSON with one line for each item of each list. */
function lines(scene: Scene): string {
  const entries = Object.entries(scene).map(([key, value]) => {
    if (!Array.isArray(value) || value.length === 0) return `  ${JSON.stringify(key)}: ${JSON.stringify(value)}`;
    return `  ${JSON.stringify(key)}: [\n${value.map((item) => `    ${JSON.stringify(item)}`).join(',\n')}\n  ]`;
  });
  return `{\n${entries.join(',\n')}\n}\n`;
}
