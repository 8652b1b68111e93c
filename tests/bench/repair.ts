/** `npm run bench:repair`: slips made in drawn circuits, found or not, fixed or not, on the seeds to work with. `-- report` does the same on the seeds that are only reported on, `-- examples` makes mistakes in the examples. */
import { report } from './repair/report.js';
import { optionsOf, runSeeds } from './repair/drawn/run.js';

/** The first seed of the circuits to work with. */
const firstWorkingSeed = 1;

const words = process.argv.slice(3);
const word = words[0]?.startsWith('--') === false ? words[0] : 'working';
const options = words.filter((other) => other !== word);
switch (word) {
  case 'working':
    runSeeds(firstWorkingSeed, optionsOf(options));
    break;
  case 'report':
    report(options);
    break;
  case 'examples':
    // It reads its own options and runs when imported.
    await import('./repair/examples.js');
    break;
  default:
    throw new Error(`“${word}” is no part of this benchmark: leave it out, or write “report” or “examples”.`);
}
