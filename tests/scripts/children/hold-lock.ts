/** A process of the tests: takes the lock named first and keeps it until its input ends. */
import { withLock } from '../../editor/hosts/lock.js';

await withLock(process.argv[3]!, { waiting: 'waiting', staleMs: 2000 }, async () => {
  console.log('has the lock');
  await new Promise((resolve) => process.stdin.once('close', resolve).resume());
  console.log('gives the lock back');
});
