/** Runs before each test file: clears what its tests, and helpers on their behalf, leave behind in the worker. */
import { afterAll, afterEach, vi } from 'vitest';
import { cleanUp } from './cleanup.js';

afterEach(() => cleanUp('test'));
afterAll(async () => {
  await cleanUp('file');
  vi.unstubAllEnvs();
  vi.unstubAllGlobals();
});
