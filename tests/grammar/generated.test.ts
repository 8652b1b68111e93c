/** The generated parser is what the grammar makes, byte for byte. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const grammar = join(root, 'language/grammar');

describe('language/grammar/generated', () => {
  it('is fresh: npx langium generate -f language/grammar/langium-config.json', { timeout: 60_000 }, () => {
    const folder = mkdtempSync(join(tmpdir(), 'lugwork-grammar-'));
    try {
      for (const file of ['lugwork.langium', 'langium-config.json']) cpSync(join(grammar, file), join(folder, file));
      const command = join(root, 'node_modules/langium-cli/bin/langium.js');
      execFileSync(process.execPath, [command, 'generate', '-f', join(folder, 'langium-config.json')], { stdio: 'pipe' });
      const made = readdirSync(join(folder, 'generated')).sort();
      expect(made).toEqual(readdirSync(join(grammar, 'generated')).sort());
      for (const file of made) {
        expect(readFileSync(join(folder, 'generated', file), 'utf8'), file).toBe(
          readFileSync(join(grammar, 'generated', file), 'utf8'),
        );
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
