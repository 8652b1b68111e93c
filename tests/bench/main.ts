/** `npm run bench`: prints how long things take on generated circuits. Figures are milliseconds, the middle of several runs. */
import { cpus } from 'node:os';
import { textTable, type Table } from '../../server/command/table.js';
import { processHeads, processRows } from './process.js';
import { benchSolver } from './solver.js';
import { stageHeads, stageRows } from './stages.js';
import { milliseconds } from './timing.js';

console.log(
  `Node.js ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}; milliseconds, the middle of several runs`,
);
show('Stages; “after” an edit of one line: from text to findings again', { heads: stageHeads, rows: stageRows() });
show('The command as a process, start to finish', { heads: processHeads, rows: processRows('dist/lugwork.mjs') });
const solver = await benchSolver();
show('The solver', { heads: ['what', 'ms', ''], rows: solver.map(({ what, ms, remark }) => [what, milliseconds(ms), remark]) });

function show(title: string, table: Table): void {
  console.log(`\n${title}\n\n${textTable(table)}`);
}
