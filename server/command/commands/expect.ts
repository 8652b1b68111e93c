/** `lugwork expect`: `expect` lines for all positions, to be put into the file. */
import { firstOf } from '../../../language/collections.js';
import { oneLine } from '../../../language/escape.js';
import { isDead, linesOfNow, linesOfPattern, patterns } from '../../../language/intent/index.js';
import { CannotRun, exit, type Command } from '../command.js';
import { readCircuit } from '../reading/reading.js';

export const expect: Command = {
  name: 'expect',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'print `expect` lines for all positions, from the current behaviour or from a pattern',
  details: [
    'Prints lines for you to add to the file. Without --pattern they describe the current behaviour: read them before you keep them, because they also record any mistake. With a pattern they describe what such a switch usually does, whatever the circuit does now.',
    'The patterns take the pickups in the order of --pickups, or else in the order in which they are declared:',
    ...patterns.map(({ name, says }) => `${name}: ${says}`),
  ],
  options: [
    {
      name: 'pattern',
      value: 'NAME[,split]',
      summary: 'the pattern; add `split` where a switch splits the coils',
    },
    { name: 'pickups', value: '"NAME, …"', summary: 'the pickups in the order of the positions' },
    {
      name: 'turns',
      summary: 'add buttons; reading, cutoff and level, also with the pots at half rotation and at both ends',
    },
    { name: 'force', summary: 'print the lines even if the circuit is silent everywhere' },
  ],
  examples: [
    'lugwork expect no-3.lug',
    'lugwork expect no-3.lug --pattern neighbours --pickups "bridge, neck"',
    'lugwork expect no-3.lug --turns >> no-3.lug',
  ],

  run(call, host) {
    const { circuit, file } = readCircuit(firstOf(call.operands), host);
    const listed = (name: string): readonly string[] | undefined =>
      call.values
        .get(name)
        ?.split(',')
        .map((word) => word.trim())
        .filter(Boolean);
    const pattern = listed('pattern');
    if (pattern === undefined) {
      const lines = linesOfNow(circuit, { turns: call.flags.has('turns') });
      if (lines.length === 0) throw new CannotRun(`${file.path} has no jack, so its positions can’t be described`);
      if (!call.flags.has('force') && isDead(circuit))
        throw new CannotRun(
          `${file.path} is silent in every position, however its pots are turned: expectations would record the mistake. --force prints them all the same`,
        );
      host.out(`${lines.map(oneLine).join('\n')}\n`);
      return exit.good;
    }
    const made = linesOfPattern(circuit, pattern, listed('pickups'));
    if ('problem' in made) throw new CannotRun(made.problem);
    host.out(`${made.lines.map(oneLine).join('\n')}\n`);
    return exit.good;
  },
};
