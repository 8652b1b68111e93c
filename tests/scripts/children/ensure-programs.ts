/** A process of the tests: installs the programs named in its arguments as root would, whoever runs it. */
import { ensurePrograms, type Need } from '../../editor/hosts/needs.js';

await ensurePrograms(process.argv.slice(3) as Need[], 'a test', { path: process.env.PATH ?? '', isRoot: true });
