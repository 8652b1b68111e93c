// How the tests run on a mutant: what failed last comes first, then the quick ones, so that most mistakes are noticed in seconds.
import { relative } from 'node:path';
import { BaseSequencer } from 'vitest/node';

class QuickFirst extends BaseSequencer {
  async sort(files) {
    const last = (file) => {
      const key = `${file.project.name}:${relative(this.ctx.config.root, file.moduleId)}`;
      return this.ctx.cache.getFileTestResults(key) ?? { failed: false, duration: 0 };
    };
    return [...files].sort((a, b) => last(b).failed - last(a).failed || last(a).duration - last(b).duration);
  }
}

export default {
  // Beside the copy, for the installed packages are shared with the checkout.
  cacheDir: '.cache/vite',
  test: {
    bail: 1,
    isolate: false,
    maxWorkers: 1,
    setupFiles: ['tests/harness/each-file.ts'],
    reporters: ['dot'],
    sequence: { sequencer: QuickFirst },
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
};
