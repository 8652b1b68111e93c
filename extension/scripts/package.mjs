// Makes the extension's package: the files that .vscodeignore lets in, and a manifest without what only npm needs.
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { root } from '../../server/scripts/setup.mjs';

/** Lays out in `folder` what the package holds, from what `dist/` holds. A file that is named and missing is an error. */
export function stageExtension(folder) {
  for (const path of allowed()) {
    const from = join(root, path.replace(/\/\*\*$/, ''));
    // Made below; and a bundle without licence comments has no such file.
    if (!existsSync(from) && /(\.LEGAL|THIRD-PARTY)\.txt$/.test(path)) continue;
    const to = join(folder, path.replace(/\/\*\*$/, ''));
    mkdirSync(dirname(to), { recursive: true });
    cpSync(from, to, { recursive: true });
  }
  cpSync(join(root, '.vscodeignore'), join(folder, '.vscodeignore'));
  // The page that the editor shows is the extension's own, not the checkout's.
  cpSync(join(root, 'extension', 'README.md'), join(folder, 'README.md'));
  cpSync(join(root, 'dist', 'THIRD-PARTY.txt'), join(folder, 'THIRD-PARTY.txt'));
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  for (const key of ['private', 'bin', 'files', 'sideEffects', 'scripts', 'dependencies', 'devDependencies', 'overrides'])
    delete manifest[key];
  writeFileSync(join(folder, 'package.json'), `${JSON.stringify(manifest, undefined, 2)}\n`);
}

/** Writes the package to `vsix`. */
export async function packExtension(vsix) {
  const folder = mkdtempSync(join(tmpdir(), 'lw-pack-'));
  try {
    stageExtension(folder);
    const { createVSIX } = createRequire(import.meta.url)('@vscode/vsce');
    await createVSIX({
      cwd: folder,
      packagePath: vsix,
      dependencies: false,
      allowMissingRepository: true,
      rewriteRelativeLinks: false,
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function allowed() {
  const lines = readFileSync(join(root, '.vscodeignore'), 'utf8').split('\n');
  return lines.filter((line) => line.startsWith('!')).map((line) => line.slice(1).trim());
}
