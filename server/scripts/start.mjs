// `npm start`: makes the checkout ready, shows what the command says of an example circuit, and what else to try.
import { spawnSync } from 'node:child_process';
import { bundle, ensureBuilt, ensureInstalled, root } from './setup.mjs';

const example = 'examples/two-single-coils-lever-3.lug';
const faulty = 'examples/faulty/pickup-ground-forgotten.lug';

try {
  ensureInstalled();
  await ensureBuilt();
  show('check', example);
  show('positions', example);
  console.log('The same with a lead left off, as the checker tells it:\n');
  show('check', faulty);
} catch (error) {
  console.error(error.message);
  process.exit(1);
}
console.log(`Try next:
  npx lugwork check examples                 every example, clean
  npx lugwork response ${example}   what the amplifier hears
  npx lugwork --help                         all commands
Change a wire in ${example} and check it again. The language stands in language/reference.md.`);

function show(...words) {
  console.log(`$ npx lugwork ${words.join(' ')}`);
  const run = spawnSync(process.execPath, [bundle, ...words], { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] });
  if (run.status === null || run.status > 1) throw new Error(`lugwork ${words[0]} ended without a result.`);
  console.log();
}
