/** Ways to state what a circuit shall do: as it is now, or by a pattern of the trade. */
import { linesOfNow, linesOfPattern, patterns } from '../../language/intent/index.js';
import type { ExpectationChoice } from '../protocol.js';
import { insertStatements } from './insertions.js';
import type { Snapshot } from './workspace.js';

/** More lines at once nobody reads. */
const most = 64;

/** None for a library, for a circuit without a jack, and where there are too many positions to list. */
export function expectationChoices(at: Snapshot): ExpectationChoice[] {
  const { circuit } = at;
  if (circuit.isLibrary || circuit.output === undefined) return [];
  const choice = (title: string, detail: string, lines: readonly string[]): ExpectationChoice[] =>
    lines.length === 0 || lines.length > most
      ? []
      : [{ title, detail, lines, edit: toEdit(insertStatements(at, lines, ['expect'])) }];
  return [
    ...choice(
      'as it is now',
      'what each position sounds and reads like at this moment: read it before you keep it',
      linesOfNow(circuit),
    ),
    ...choice(
      'as it is now, with the pots turned',
      'readings and peaks half way and turned down as well',
      linesOfNow(circuit, { turns: true }),
    ),
    ...patterns.flatMap(({ name, says }) => {
      const made = linesOfPattern(circuit, [name]);
      return 'problem' in made ? [] : choice(`by the pattern “${name}”`, says, made.lines);
    }),
    ...patterns.flatMap(({ name }) => {
      if (name === 'split') return [];
      const made = linesOfPattern(circuit, [name, 'split']);
      return 'problem' in made
        ? []
        : choice(`by the patterns “${name}” and “split”`, 'with a switch that leaves one coil of each pickup', made.lines);
    }),
  ];
}

function toEdit({ range, newText }: ReturnType<typeof insertStatements>): ExpectationChoice['edit'] {
  return { range, text: newText };
}
