/** The line above the drawing: it says so when what is drawn isn't the text. */
import { expect, test } from 'vitest';
import { bannerOf, bannerOfFailure } from '../../extension/preview/banner.js';
import type { DrawnScene } from '../../server/protocol.js';

test('a text without a fault needs no line', () => {
  expect(bannerOf({ faults: 0, scene: {} } as DrawnScene)).toBe('');
  expect(bannerOf({ faults: 1, scene: {} } as DrawnScene)).toContain('a fault. The drawing shows what could be made out.');
  expect(bannerOf({ faults: 2 } as DrawnScene)).toContain('2 faults. This is the last drawing from before.');
});

test('a drawing that was stopped says why, and names the old one only where it is seen', () => {
  const stopped = new Error('the drawing was stopped: it took longer than 120 s');
  expect(bannerOfFailure(stopped, false)).toBe(
    'This text could not be drawn: the drawing was stopped: it took longer than 120 s.',
  );
  expect(bannerOfFailure(stopped, true)).toMatch(/120 s\. This is the last drawing from before\.$/);
  expect(bannerOfFailure('gone', false)).toBe('This text could not be drawn: gone.');
});
