// Makes both packages (`npm run package`): the editor's `.vsix` and the command's npm tarball, into dist/packages/ or the folder that is named.
import { mkdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { packExtension, stageExtension } from '../../extension/scripts/package.mjs';
import { build } from './build.mjs';
import { packCommand } from './pack-command.mjs';
import { ensureInstalled, root } from './setup.mjs';

try {
  ensureInstalled();
  const [first, second] = process.argv.slice(2);
  await build();
  if (first === '--stage') stageExtension(resolve(second));
  else await packInto(resolve(first ?? join(root, 'dist', 'packages')));
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}

async function packInto(folder) {
  const { name, version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  mkdirSync(folder, { recursive: true });
  const vsix = join(folder, `${name}-${version}.vsix`);
  await packExtension(vsix);
  const tarball = await packCommand(folder);
  for (const file of [vsix, tarball]) {
    console.log(`${relative(process.cwd(), file)}: ${(statSync(file).size / 1024).toFixed(0)} KiB`);
  }
}
