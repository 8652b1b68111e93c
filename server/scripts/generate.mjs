// Writes every file that is made from others: the parser's modules, the embedded standard parts and circuits to start from with their drawings, the editor's colouring, its settings of rules and its bundle of texts, the blocks of the documents. `--check` writes nothing and fails where one is stale.
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pagesModule } from './embed-pages.mjs';
import { libraryModule, startsModule } from './embed-parts.mjs';
import { importTs } from './run-ts.mjs';
import { ensureInstalled, root } from './setup.mjs';
import { statementTable } from './statement-table.mjs';

const isCheck = process.argv.includes('--check');

try {
  ensureInstalled();
  let stale = bring(parserModules());
  stale += bring(await statementTable());
  stale += bring(
    new Map([
      ['language/parts/generated/library.ts', libraryModule()],
      ['language/starts/generated/texts.ts', startsModule()],
    ]),
  );
  stale += bring(new Map([pagesModule()]));
  const { libraryTreesFile } = await importTs('server/docs/library-trees.ts');
  stale += bring(new Map([libraryTreesFile()]));
  const { grammarFile } = await importTs('extension/scripts/grammar.ts');
  const { manifestFiles } = await importTs('extension/scripts/manifest.ts');
  const { textBundleFile } = await importTs('extension/scripts/texts.ts');
  const { schemaFile } = await importTs('server/docs/schema.ts');
  const { practiceFile } = await importTs('server/docs/practice.ts');
  stale += bring(new Map([grammarFile(), ...manifestFiles(root), textBundleFile(root), schemaFile(), practiceFile(root)]));
  const { startDrawings } = await importTs('server/docs/starts.ts');
  stale += bring(await startDrawings());
  // The documents show what the code says, so they come when the code is fresh.
  const { documents } = await importTs('server/docs/main.ts');
  stale += bring(await documents(root));
  if (isCheck && stale > 0) throw new Error('Run `npm run generate`.');
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}

/** Writes what differs, or names it where only checked. Returns how many differ. */
function bring(files) {
  let changed = 0;
  for (const [path, text] of files) {
    const full = join(root, path);
    if (existsSync(full) && readFileSync(full, 'utf8') === text) continue;
    changed += 1;
    console.log(isCheck ? `${path} is stale` : path);
    if (isCheck) continue;
    mkdirSync(dirname(full), { recursive: true });
    writeFileSync(full, text);
  }
  return changed;
}

/** What the parser generator makes of the grammar, run on a copy so that a check leaves the tree alone. */
function parserModules() {
  const folder = join(root, 'language', 'grammar');
  const copy = join(root, '.cache', `grammar.${process.pid}`);
  const inputs = readdirSync(folder).filter((name) => name.endsWith('.langium') || name === 'langium-config.json');
  mkdirSync(copy, { recursive: true });
  try {
    for (const name of inputs) cpSync(join(folder, name), join(copy, name));
    const cli = join(root, 'node_modules', 'langium-cli', 'bin', 'langium.js');
    const run = spawnSync(process.execPath, [cli, 'generate', '-f', join(copy, 'langium-config.json')], {
      cwd: copy,
      encoding: 'utf8',
    });
    if (run.status !== 0) throw new Error(`The parser generator failed:\n${run.stdout}${run.stderr}`);
    const generated = join(copy, 'generated');
    return new Map(
      readdirSync(generated).map((name) => [`language/grammar/generated/${name}`, readFileSync(join(generated, name), 'utf8')]),
    );
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}
