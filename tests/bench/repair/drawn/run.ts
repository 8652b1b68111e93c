/** Runs the benchmark on drawn circuits and prints its tables. */
import { parseArgs } from 'node:util';
import { textTable } from '../../../../server/command/output/table.js';
import { drawnFrom, intents, type Intent } from './circuits.js';
import { byFamily, byIntent, byKind, missLines, times } from './tables.js';
import { tellingSlips, trySlip, type Trial } from './trial.js';

/** How large a run is, from the words of the command. */
export interface RunOptions {
  readonly circuits: number;
  /** Circuits left out before the first. */
  readonly skip: number;
  /** Slips in each circuit, of different kinds. */
  readonly slips: number;
  readonly intents: readonly Intent[];
  readonly list: boolean;
}

export function optionsOf(words: readonly string[]): RunOptions {
  const { values } = parseArgs({
    args: [...words],
    options: {
      circuits: { type: 'string', default: '24' },
      skip: { type: 'string', default: '0' },
      slips: { type: 'string', default: '3' },
      intents: { type: 'string', default: intents.join(',') },
      list: { type: 'boolean', default: false },
    },
  });
  const asked = values.intents.split(',');
  return {
    circuits: countOf('circuits', values.circuits, 1),
    skip: countOf('skip', values.skip, 0),
    slips: countOf('slips', values.slips, 1),
    intents: intents.filter((intent) => asked.includes(intent)),
    list: values.list,
  };
}

function countOf(name: string, text: string, least: number): number {
  const count = Number(text);
  if (Number.isInteger(count) && count >= least) return count;
  throw new Error(`--${name} takes a whole number from ${least}, not “${text}”.`);
}

/** Circuits of consecutive seeds, counted from the first of their set. */
export function runSeeds(firstOfSet: number, options: RunOptions): void {
  const first = firstOfSet + options.skip;
  const trials: Trial[] = [];
  const alarms: string[] = [];
  for (let seed = first; seed < first + options.circuits; seed++) {
    const drawn = drawnFrom(seed);
    for (const intent of options.intents)
      alarms.push(...[...drawn.alarms[intent]].map((alarm) => `  seed ${seed}, intent ${intent}: ${alarm}`));
    for (const [kind, slip] of tellingSlips(drawn, options.slips))
      trials.push(...options.intents.map((intent) => trySlip(drawn, kind, slip, intent)));
  }
  console.log(`${options.circuits} circuits from seed ${first}; shares in percent with 95 % Wilson intervals.`);
  for (const table of [byIntent(trials), byKind(trials), byFamily(trials), times(trials)]) console.log(`\n${textTable(table)}`);
  console.log(`False alarms on the correct circuits: ${alarms.length}`);
  for (const alarm of alarms) console.log(alarm);
  if (options.list) console.log(`\n${missLines(trials).join('\n')}`);
}
