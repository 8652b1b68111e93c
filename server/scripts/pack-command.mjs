// Makes the npm package of the command: the files that package.json's `files` names, the manual page, and a manifest without what only the editor and the checkout need.
import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { importTs } from './run-ts.mjs';
import { root, runNpm } from './setup.mjs';

/** What the package's manifest keeps. It has no dependencies: the bundles hold all that runs. */
const kept = ['name', 'version', 'description', 'license', 'keywords', 'type', 'bin', 'files'];

/** The manual page, made of the table of commands. */
const page = 'man/lugwork.1';

/** Writes the tarball of what `dist/` holds into `folder` and returns its path. A file that `files` names and that is missing is an error. */
export async function packCommand(folder) {
  const place = mkdtempSync(join(tmpdir(), 'lw-pack-'));
  try {
    const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    for (const path of [...manifest.files.flatMap(expanded), 'LICENSE']) {
      mkdirSync(dirname(join(place, path)), { recursive: true });
      cpSync(join(root, path), join(place, path));
    }
    const { manPage } = await importTs('server/docs/man-page.ts');
    mkdirSync(join(place, 'man'));
    writeFileSync(join(place, page), manPage(manifest.version));
    // The page of the command, not the checkout's.
    cpSync(join(root, 'server', 'README.md'), join(place, 'README.md'));
    const small = Object.fromEntries(kept.map((key) => [key, manifest[key]]));
    // In the manifest stands only the name of the text, as the editor wants it.
    const { description } = JSON.parse(readFileSync(join(root, 'package.nls.json'), 'utf8'));
    const engines = { node: manifest.engines.node };
    const files = [...small.files, page];
    const all = { ...small, files, man: `./${page}`, description, engines };
    writeFileSync(join(place, 'package.json'), `${JSON.stringify(all, undefined, 2)}\n`);
    const run = runNpm(['pack', '--json', '--ignore-scripts', '--pack-destination', folder], { cwd: place, encoding: 'utf8' });
    if (run.status !== 0) throw new Error(`npm pack ended with exit code ${run.status}: ${run.stderr}`);
    return join(folder, JSON.parse(run.stdout)[0].filename);
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}

/** The files that a line of `files` names; a star stands for any part of a file's name. */
function expanded(path) {
  if (!path.includes('*')) return [path];
  const [before, after] = basename(path).split('*');
  const names = readdirSync(join(root, dirname(path)));
  return names.filter((name) => name.startsWith(before) && name.endsWith(after)).map((name) => join(dirname(path), name));
}
