/** Runs the benchmark on drawn circuits and prints its tables. */
import { parseArgs } from 'node:util';
import { textTable } from '../../../../server/command/output/table.js';
import { faultsOf } from '../../../../language/intent/index.js';
import { circuitOf, drawnFrom, intents, textWith, type Drawn, type Intent } from './circuits.js';
import { byFamily, byIntent, byKind, missLines, times } from './tables.js';
import { tellingSlips, trySlip, type Trial } from './trial.js';

/** How large a run is, from the words of the command. */
export interface RunOptions {
  readonly circuits: number;
  /** Slips of each kind in each circuit. */
  readonly each: number;
  readonly intents: readonly Intent[];
  readonly list: boolean;
}

export function optionsOf(words: readonly string[]): RunOptions {
  const { values } = parseArgs({
    args: [...words],
    options: {
      circuits: { type: 'string', default: '20' },
      each: { type: 'string', default: '1' },
      intents: { type: 'string', default: intents.join(',') },
      list: { type: 'boolean', default: false },
    },
  });
  const asked = values.intents.split(',');
  return {
    circuits: Number(values.circuits),
    each: Number(values.each),
    intents: intents.filter((intent) => asked.includes(intent)),
    list: values.list,
  };
}

/** Circuits of consecutive seeds from `first`. */
export function runSeeds(first: number, options: RunOptions): void {
  const trials: Trial[] = [];
  const alarms: string[] = [];
  for (let seed = first; seed < first + options.circuits; seed++) {
    const drawn = drawnFrom(seed);
    alarms.push(...falseAlarms(drawn, options.intents));
    for (const [kind, slip] of tellingSlips(drawn, options.each))
      trials.push(...options.intents.map((intent) => trySlip(drawn, kind, slip, intent)));
  }
  console.log(`${options.circuits} circuits from seed ${first}; shares in percent with 95 % Wilson intervals.`);
  for (const table of [byIntent(trials), byKind(trials), byFamily(trials), times(trials)]) console.log(`\n${textTable(table)}`);
  console.log(`False alarms on the correct circuits: ${alarms.length}`);
  for (const alarm of alarms) console.log(alarm);
  if (options.list) console.log(`\n${missLines(trials).join('\n')}`);
}

/** Errors and warnings on the circuit as it was drawn, with each intent. */
function falseAlarms({ practice, lines }: Drawn, asked: readonly Intent[]): readonly string[] {
  return asked.flatMap((intent) =>
    faultsOf(circuitOf(textWith(practice.text, lines[intent]))).map(
      ({ rule, message }) => `  seed ${practice.seed}, intent ${intent}: ${rule}: ${message}`,
    ),
  );
}
