// How the tests run: in two workers, each of which loads a module once and keeps it for all the files that it is given.
import { join } from 'node:path';
import { defineConfig } from 'vitest/config';

// On a busy machine a step may take long: no test is judged by the clock.
const patience = 300_000;

export default defineConfig({
  test: {
    dir: 'tests',
    maxWorkers: 2,
    // Loading the language for each file anew takes longer than most of the tests themselves.
    isolate: false,
    // What the files in one worker would leave to each other is cleared here.
    setupFiles: ['tests/harness/each-file.ts'],
    // The command that a test starts keeps what it compiled in the checkout, not in the user's own folder.
    // Colours that the caller forces are not for what a test reads.
    env: { LUGWORK_CACHE: join(import.meta.dirname, '.cache', 'compiled'), FORCE_COLOR: '' },
    testTimeout: patience,
    hookTimeout: patience,
  },
});
