/** Lays out the extension and the small one that greets, where the editor finds what is installed. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { root } from '../hosts/place.js';
import { stageExtension } from '../hosts/stage.js';

/** Gives the folders of both, made in `folder`. */
export async function stageStart(folder: string): Promise<readonly string[]> {
  const [own, greeting] = [join(folder, 'lugwork'), join(folder, 'lugwork-start')];
  for (const one of [own, greeting]) mkdirSync(one, { recursive: true });
  await stageExtension(own);
  await build({
    entryPoints: [join(root, 'tests', 'editor', 'start', 'index.ts')],
    outfile: join(greeting, 'index.cjs'),
    bundle: true,
    format: 'cjs',
    platform: 'node',
    external: ['vscode'],
    logLevel: 'warning',
  });
  const { engines, name, publisher } = JSON.parse(readFileSync(join(own, 'package.json'), 'utf8')) as Readonly<
    Record<string, unknown>
  >;
  const manifest = {
    name: 'lugwork-start',
    displayName: 'Lugwork: first look',
    publisher,
    version: '0.0.0',
    engines,
    main: 'index.cjs',
    activationEvents: ['onStartupFinished'],
    extensionDependencies: [`${String(publisher)}.${String(name)}`],
  };
  writeFileSync(join(greeting, 'package.json'), JSON.stringify(manifest));
  return [own, greeting];
}
