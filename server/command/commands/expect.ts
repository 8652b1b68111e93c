/** `lugwork expect`: `expect` lines for all positions, to be put into the file. */
import { oneLine } from '../../../language/escape.js';
import { linesOfNow, linesOfPattern, patterns } from '../../../language/intent/index.js';
import { CannotRun, exit, type Command } from '../command.js';
import { readCircuit } from '../reading/reading.js';

export const expect: Command = {
  name: 'expect',
  operands: 'FILE',
  arity: [1, 1],
  summary: 'write `expect` lines for all positions, from what is so now or from a pattern',
  details: [
    'Prints lines to be put into the file. Without --pattern they say what the circuit does as it is: read them before you keep them, for what is wrong now would be stated too. With a pattern they say what the trade usually wants of such a switch, whatever the circuit does.',
    'The patterns; pickups come in the order of --pickups, or else as they are declared:',
    ...patterns.map(({ name, says }) => `${name}: ${says}`),
  ],
  options: [
    {
      name: 'pattern',
      value: 'NAME[,split]',
      summary: 'the pattern to state, and `split` with it where a switch splits the coils',
    },
    { name: 'pickups', value: '"NAME, …"', summary: 'the pickups in the order of the positions' },
    { name: 'turns', summary: 'state reading, cut-off and level with each pot, and all of them, half way and at their ends too' },
  ],
  examples: [
    'lugwork expect no-3.lug',
    'lugwork expect no-3.lug --pattern neighbours --pickups "bridge, neck"',
    'lugwork expect no-3.lug --turns >> no-3.lug',
  ],

  run(call, host) {
    const { circuit, file } = readCircuit(call.operands[0]!, host);
    const listed = (name: string): readonly string[] | undefined =>
      call.values
        .get(name)
        ?.split(',')
        .map((word) => word.trim())
        .filter(Boolean);
    const pattern = listed('pattern');
    if (pattern === undefined) {
      const lines = linesOfNow(circuit, { turns: call.flags.has('turns') });
      if (lines.length === 0) throw new CannotRun(`${file.path} has no jack, so nothing can be said of its positions`);
      host.out(`${lines.map(oneLine).join('\n')}\n`);
      return exit.good;
    }
    const made = linesOfPattern(circuit, pattern, listed('pickups'));
    if ('problem' in made) throw new CannotRun(made.problem);
    host.out(`${made.lines.map(oneLine).join('\n')}\n`);
    return exit.good;
  },
};
