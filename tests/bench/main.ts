/** `npm run bench`: prints how long things take on generated circuits; `-- stages`, `process`, `solver`, `latency`, `panel`, `drawing` for some of it; `-- editor` for the panel in the real editor, `-- memory` for the server's memory after thousands of edits, `-- scale` for how time and memory grow, `-- growth` for each way in which a text can grow, as Markdown (words after it choose rows by a part of their name), `-- responsive` for how long the server is held. Figures are milliseconds, the middle of several runs. */
import { cpus } from 'node:os';
import { markdownTable, textTable, type Table } from '../../server/command/output/table.js';
import { editHeads, editRows, figureHeads, figureRows, largeHeads, largeRows, measureHeads, measureRows } from './drawing.js';
import { growthTable } from './growth-table.js';
import { heavyHeads, heavyRows } from './heavy-texts.js';
import { latencyHeads, latencyRows } from './latency.js';
import { processHeads, processRows, referenceHeads, referenceRows } from './process.js';
import { panelEditorRows } from './panel-editor.js';
import { panelRows } from './panel.js';
import { responsiveHeads, responsiveRows } from './responsive.js';
import { generateCircuit, sizes } from './circuits.js';
import { fewestInInstrument, generateInstrument } from './instruments.js';
import { circuitScale, workspaceScale, workspaceSizes } from './scale.js';
import { benchSolver } from './solver.js';
import { stageHeads, stageRows } from './stages.js';
import { memoryHeads, memoryRows } from './memory.js';
import { milliseconds } from './timing.js';

console.log(
  `Node.js ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}; milliseconds, the middle of several runs`,
);
const words = process.argv.slice(3);
const isWanted = (name: string): boolean => words.length === 0 || words.includes(name);
const families = [
  { name: 'pickups with a volume and a tone each', generate: generateCircuit, fewest: 10 },
  { name: 'levers, push-pulls and switches of an own type', generate: generateInstrument, fewest: fewestInInstrument },
];
for (const { name, generate, fewest } of isWanted('stages') ? families : []) {
  const rows = stageRows(generate, fewest);
  show(`Stages, ${name}; “after” an edit of one line: from text to findings again`, { heads: stageHeads, rows });
}
if (isWanted('process')) {
  show('The command beside an empty process', { heads: referenceHeads, rows: referenceRows('dist/lugwork.mjs') });
  show('The command as a process, start to finish', { heads: processHeads, rows: processRows('dist/lugwork.mjs') });
}
if (isWanted('latency')) {
  const rows = await latencyRows('dist/server.cjs');
  show('The editor, from a keystroke to its findings, and hover, through the protocol', { heads: latencyHeads, rows });
}
if (isWanted('panel')) {
  const rows = await panelRows('dist/server.cjs', 'examples/bass-two-circuits-four-cavities.lug');
  show('The drawing panel: largest example, server and browser as they are', { heads: ['what', 'ms', 'slowest of 20'], rows });
}
// Needs the installed editor of the tests, so it is run only where it is named.
if (words.includes('editor')) {
  const rows = await panelEditorRows('bass-two-circuits-four-cavities.lug');
  show('The drawing panel in the real editor', { heads: ['what', 'ms', 'slowest of 20'], rows });
}
// Takes minutes, so it is run only where it is named.
if (words.includes('memory')) {
  const rows = await memoryRows('dist/server.cjs', 'examples/three-single-coils-lever-5.lug');
  show('The memory of the server', { heads: memoryHeads, rows });
}
// Takes minutes, so it is run only where it is named; words after it name features.
if (words.includes('responsive')) {
  console.log(
    '\nThe server while every feature is asked at every line and the mouse hovers; turns of its loop in processor time\n',
  );
  console.log(responsiveHeads.join(' | '));
  const only = words.slice(words.indexOf('responsive') + 1);
  for await (const row of responsiveRows('dist/server.cjs', only)) console.log(row.join(' | '));
}
// Takes minutes, so it is run only where it is named.
if (words.includes('scale')) {
  console.log(`\nMilliseconds, the least of several runs, the processor's in brackets; exponents are of the processor's`);
  for (const { name, generate, fewest } of families) {
    const table = circuitScale(
      sizes.filter((size) => size >= fewest),
      5,
      generate,
    );
    console.log(`\n${name}\n\n${markdownTable(table)}`);
  }
  console.log(markdownTable(workspaceScale(workspaceSizes, 3)));
}
if (words.includes('growth')) {
  console.log(
    `\nMilliseconds of the processor, the least of several runs; each stage at the largest size, its exponent in brackets`,
  );
  const only = words.slice(words.indexOf('growth') + 1);
  // It takes many minutes, so each row is shown on the error output when it is there.
  const table = growthTable(
    undefined,
    ({ name }) => only.length === 0 || only.some((word) => name.includes(word)),
    (row) => console.error(row.join(' | ')),
  );
  console.log(`\n${markdownTable(table)}`);
  if (only.length === 0) console.log(markdownTable({ heads: heavyHeads, rows: heavyRows('dist/lugwork.mjs') }));
}
if (isWanted('solver')) {
  const solver = await benchSolver();
  show('The solver', { heads: ['what', 'ms', ''], rows: solver.map(({ what, ms, remark }) => [what, milliseconds(ms), remark]) });
}
if (isWanted('drawing')) {
  show('What a drawing is held to', { heads: measureHeads, rows: await measureRows() });
  show('The drawing of each example, from its circuit to the scene', { heads: figureHeads, rows: await figureRows() });
  show('The drawing of generated circuits', { heads: largeHeads, rows: await largeRows() });
  show('Parts that move by more than a grid step at a small edit', { heads: editHeads, rows: await editRows() });
}

function show(title: string, table: Table): void {
  console.log(`\n${title}\n\n${textTable(table)}`);
}
