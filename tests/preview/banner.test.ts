/** The line above the drawing: it says so when what is drawn isn't the text. */
import { expect, test } from 'vitest';
import { bannerOf, bannerOfFailure } from '../../extension/preview/banner.js';
import type { Translate } from '../../extension/localize.js';
import type { DrawnScene } from '../../server/protocol.js';

/** An editor in English. */
const t: Translate = (text, ...values) => text.replace(/\{(\d)\}/g, (_, index: string) => String(values[Number(index)]));

test('a text without a fault needs no line', () => {
  expect(bannerOf({ faults: 0, scene: {} } as DrawnScene, t)).toBe('');
  expect(bannerOf({ faults: 1, scene: {} } as DrawnScene, t)).toContain('an error. The drawing shows only what could be read.');
  expect(bannerOf({ faults: 2 } as DrawnScene, t)).toContain('2 errors. This is the last complete drawing.');
});

test('a drawing that was stopped says why, and names the old one only where it is seen', () => {
  const stopped = new Error('the drawing was stopped: it took longer than 120 s');
  expect(bannerOfFailure(stopped, false, t)).toBe(
    'This text could not be drawn: the drawing was stopped: it took longer than 120 s.',
  );
  expect(bannerOfFailure(stopped, true, t)).toMatch(/120 s\. This is the last complete drawing\.$/);
  expect(bannerOfFailure('gone', false, t)).toBe('This text could not be drawn: gone.');
});
