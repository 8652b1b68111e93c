/** `npm run bench:repair -- examples`: mistakes made in every correct example, found or not, fixed or not, and faults on the bench located or not.
 * `--share 1` takes all of them (a twentieth where nothing is said), `--seed N` others, `--only NAME` one example, `--list` tells each miss.
 */
import { parseArgs } from 'node:util';
import { textTable } from '../../../server/command/output/table.js';
import { faultsOf, linesOfNow } from '../../../language/intent/index.js';
import { modelOf, tryMistake, type Outcome } from './case.js';
import { examples, generated, projectOf, type Example } from './files.js';
import { boundOf, locateTable, tryLocating } from './locating.js';
import { both, singleMistakes, type Mistake } from './mistakes.js';
import { createRandom } from '../../harness/random.js';
import { misses, percent, tally, times } from './tally.js';

const { values } = parseArgs({
  args: process.argv.slice(4),
  options: {
    share: { type: 'string', default: '0.05' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', default: '' },
    part: { type: 'string', default: '' },
    list: { type: 'boolean', default: false },
  },
});
const share = Number(values.share);

/** Pairs for each example, of mistakes at different places. */
const pairs = 40;

const sizes = [10, 30, 100] as const;
const mistakesForTime = 24;

const sections: readonly (readonly [name: string, run: () => void])[] = [
  ['singles', () => report('Single mistakes, the examples’ own expectations', examples(), chosen)],
  ['stated', () => report('Single mistakes, the lines that `lugwork expect --turns` writes', examples().map(stated), chosen)],
  ['unstated', () => report('Single mistakes, without expectations', examples(withoutIntent), chosen)],
  ['pairs', () => report('Pairs of mistakes', examples(), paired)],
  ['locate', reportLocating],
  [
    'times',
    () => sizes.forEach((parts) => report(`Single mistakes, a generated circuit of ${parts} parts`, [generated(parts)], fewOf)),
  ],
];
for (const [name, run] of sections) if (values.part === '' || values.part === name) run();

function report(title: string, models: readonly Example[], choose: (example: Example) => readonly Mistake[]): void {
  const outcomes: Outcome[] = [];
  let alarms = 0;
  for (const example of models.filter(({ name }) => name.includes(values.only))) {
    alarms += faultsOf(example.circuit).length;
    const model = modelOf(example);
    outcomes.push(...choose(example).map((mistake) => tryMistake(model, mistake)));
  }
  console.log(`\n${title}\n\n${textTable(tally(outcomes))}`);
  console.log(
    `False alarms on the originals: ${alarms}. Processor time of a list of repairs, ms: middle, nine in ten, most: ${times(outcomes).join(', ')}.`,
  );
  if (values.list) console.log(`\n${misses(outcomes).join('\n')}`);
}

function reportLocating(): void {
  const chosenOnes = examples().filter(({ name }) => name.includes(values.only));
  const outcomes = chosenOnes.flatMap((example) => tryLocating(example, Math.min(1, share * 4), Number(values.seed)));
  console.log(
    `\nFaults on the bench, from readings at the jack alone, and with the readings that are asked for next\n\n${textTable(locateTable(outcomes))}`,
  );
  const bounds = chosenOnes.map((example) => boundOf(example, Number(values.seed)));
  const [seen, first, firstThree] = (['seen', 'first', 'firstThree'] as const).map((key) =>
    bounds.reduce((sum, bound) => sum + bound[key], 0),
  );
  console.log(
    `Of all ${seen} faults that change a reading at the jack no ranking by those readings alone puts more than ${percent(first!, seen!)} first and ${percent(firstThree!, seen!)} among the first three: the others read the same.`,
  );
  const sorted = outcomes.map(({ ms }) => ms).sort((a, b) => a - b);
  console.log(
    `Processor time, ms: middle ${sorted[Math.floor(sorted.length / 2)]?.toFixed(0)}, most ${sorted.at(-1)?.toFixed(0)}.`,
  );
  if (values.list)
    for (const { example, fault, isUnseen, places } of outcomes)
      if (places.at(-1) !== 1) console.log(`${isUnseen ? 'no sign' : places.join(' ')} ${example}: ${fault.kind}: ${fault.says}`);
}

/** Sizes of generated circuits for which times are printed, and mistakes in each. */
function fewOf(example: Example): readonly Mistake[] {
  const random = createRandom(example.name, Number(values.seed));
  const singles = singleMistakes(example.circuit);
  return Array.from({ length: mistakesForTime }, () => singles[Math.floor(random() * singles.length)]!);
}

/** The example with expectations written from what it does, in place of those in its text. */
function stated({ name, uri, circuit, texts }: Example): Example {
  const lines = linesOfNow(circuit, { turns: true });
  const changed = new Map([...texts].map(([address, text]) => [address, withoutIntent(text)]));
  changed.set(uri, `${changed.get(uri)!}${lines.join('\n')}\n`);
  return { name, uri, circuit: projectOf(changed).circuit(uri)!, texts: changed };
}

function withoutIntent(text: string): string {
  return text.replace(/^expect\b.*$/gm, '');
}

/** The share of all single mistakes that was asked for; each example has its own chance, so that one more example changes no other. */
function chosen({ name, circuit }: Example): readonly Mistake[] {
  const random = createRandom(name, Number(values.seed));
  return singleMistakes(circuit).filter(() => random() < share);
}

function paired({ name, circuit }: Example): readonly Mistake[] {
  const random = createRandom(name, Number(values.seed) + 1);
  const singles = singleMistakes(circuit);
  const pick = (): Mistake => singles[Math.floor(random() * singles.length)]!;
  const count = Math.max(1, Math.round(pairs * Math.min(1, share * 10)));
  return Array.from({ length: count }, () => both(pick(), pick())).filter((pair) => pair !== undefined);
}
