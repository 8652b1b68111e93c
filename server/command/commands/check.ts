/** `lugwork check`: what is wrong with the wiring. */
import { rules } from '../../../language/checks/index.js';
import { findings } from '../../../language/findings.js';
import type { Finding } from '../../../language/source.js';
import { exit, type Command, type Host } from '../command.js';
import { checkGithub } from '../formats/check-github.js';
import { checkJson } from '../formats/check-json.js';
import { checkJunit } from '../formats/check-junit.js';
import { checkSarif } from '../formats/check-sarif.js';
import { checkText } from '../formats/check-text.js';
import { choice } from '../options.js';
import { diskProject, readFiles, readText } from '../reading.js';
import { withRepairsInTime } from '../repairs.js';
import { createReport, type CheckReport } from '../report.js';

export const check: Command = {
  name: 'check',
  operands: 'FILE…',
  arity: [1, Infinity],
  summary: 'say what is wrong with the wiring, and what would mend it',
  details: [
    'Looks for faults that every guitar has in common (an open lug, ungrounded metal, a silent position …) and holds the `expect` lines against what the circuit does. Each finding names its rule; `allow RULE on NAME "why"` in the file sets one aside.',
    'Repairs are searched for two seconds a file; where that is not enough it is said, and those found by then are offered.',
    'Exit code: 0 without errors (warnings or not), 1 with errors (with --strict: with warnings too), 2 where a file could not be read.',
  ],
  options: [
    { name: 'format', choices: ['text', 'json', 'sarif', 'junit', 'github'], summary: 'how the findings are written' },
    { name: 'strict', summary: 'exit with 1 for warnings too' },
  ],
  examples: ['lugwork check no-3.lug', 'lugwork check --strict circuits', 'lugwork check --format json circuits > findings.json'],

  run(call, host) {
    const { files, isComplete, passedOver } = readFiles(call.operands, host);
    const project = diskProject();
    const report = createReport(
      files.map((file) => {
        const circuit = project.circuit(file.uri)!;
        return { file, ...withRepairsInTime(circuit, findings(circuit)) };
      }),
      host.cwd,
      readText,
      passedOver,
    );
    const strict = call.flags.has('strict');
    const isFailure = (finding: Finding) => finding.severity === 'error' || (strict && finding.severity === 'warning');
    if (files.length > 0 || isComplete) host.out(write(choice(call, check, 'format'), report, isFailure, host));
    if (!isComplete) return exit.cannotRun;
    return report.files.some(({ findings }) => findings.some(isFailure)) ? exit.findings : exit.good;
  },
};

function write(format: string, report: CheckReport, isFailure: (finding: Finding) => boolean, host: Host): string {
  switch (format) {
    case 'json':
      return checkJson(report);
    case 'sarif':
      return checkSarif(report, rules);
    case 'junit':
      return checkJunit(report, isFailure);
    case 'github':
      return checkGithub(report);
    default:
      return checkText(report, host.colour, host.columns);
  }
}
