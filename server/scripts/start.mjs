// `npm start`: makes the checkout ready and opens the examples in an editor. `--terminal`, or a machine that can show none, gets what the command says of an example.
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { importTs } from './run-ts.mjs';
import { bundle, ensureBuilt, ensureInstalled, root } from './setup.mjs';

const example = 'examples/two-single-coils-lever-3.lug';
const faulty = 'examples/faulty/pickup-ground-forgotten.lug';

try {
  ensureInstalled();
  await ensureBuilt();
  if (process.argv.includes('--terminal') || !(await openEditor())) showInTerminal();
} catch (error) {
  console.error(error.message);
  process.exit(1);
}

/** False where no editor could be opened, after it has said why. */
async function openEditor() {
  const editor = await importTs('tests/editor/serve.ts');
  const reason = await editor
    .openEditor(join(root, 'examples'))
    .catch((error) => `The editor could not be opened: ${error.message}`);
  if (reason) console.log(`${reason}\nHere is the command in the terminal instead.\n`);
  return !reason;
}

function showInTerminal() {
  show('check', example);
  show('positions', example);
  console.log('The same with a lead left off, as the checker tells it:\n');
  show('check', faulty);
  console.log(`Try next:
  npx lugwork check examples                 every example, clean
  npx lugwork response ${example}   what the amplifier hears
  npx lugwork --help                         all commands
Change a wire in ${example} and check it again. The language is described in language/reference.md.`);
}

function show(...words) {
  console.log(`$ npx lugwork ${words.join(' ')}`);
  const run = spawnSync(process.execPath, [bundle, ...words], { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] });
  if (run.status === null || run.status > 1) throw new Error(`lugwork ${words[0]} ended without a result.`);
  console.log();
}
