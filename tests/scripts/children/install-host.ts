/** A process of the tests: installs a host of two files; with `hang` it never comes to the second. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { installOnce } from '../../editor/hosts/install.js';

const place = await installOnce('host', 'two files', async (folder) => {
  writeFileSync(join(folder, 'first'), '');
  console.log('half of it is there');
  if (process.argv[3] === 'hang') await new Promise((resolve) => setTimeout(resolve, 3_600_000));
  await new Promise((resolve) => setTimeout(resolve, 1000));
  writeFileSync(join(folder, 'second'), '');
});
console.log(`installed in ${place}`);
