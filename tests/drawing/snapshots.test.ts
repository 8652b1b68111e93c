/** The scene of each example as it stands, one thing a line, so that a change of the drawing shows in review. */
import { expect, test, vi } from 'vitest';
import type { Scene } from '../../language/drawing/index.js';
import { drawing, examples } from './support.js';

// Drawing every example takes its time on a busy machine; none of these tests is about how long.
vi.setConfig({ testTimeout: 60_000 });

test.each(examples)('%s', async (name) => {
  const { scene } = await drawing(name);
  await expect(lines(scene)).toMatchFileSnapshot(`snapshots/${name}.json`);
});

/** JSON with one line for each item of each list. */
function lines(scene: Scene): string {
  const entries = Object.entries(scene).map(([key, value]) => {
    if (!Array.isArray(value) || value.length === 0) return `  ${JSON.stringify(key)}: ${JSON.stringify(value)}`;
    return `  ${JSON.stringify(key)}: [\n${value.map((item) => `    ${JSON.stringify(item)}`).join(',\n')}\n  ]`;
  });
  return `{\n${entries.join(',\n')}\n}\n`;
}
