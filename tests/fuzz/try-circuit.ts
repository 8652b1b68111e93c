/** One circuit through everything that is made of circuits but its drawing, as hosts do it: what takes long in steps, each of which counts by itself. */
import { createAnalysis } from '../../language/analysis.js';
import { buildOf, benchSheet, sheetHtml, sheetMarkdown } from '../../language/workshop/index.js';
import type { Circuit } from '../../language/circuit/index.js';
import { setAside } from '../../language/findings.js';
import { changeLines, compare } from '../../language/compare/index.js';
import { combinationLimitOf, response, restingSetting, spiceDeck } from '../../language/electrics/index.js';
import { createProject } from '../../language/project.js';
import { createDice } from '../electrics/random-circuit.js';
import type { Watch } from './watch.js';

const uri = 'fuzz:/circuit.lug';
const edited = 'fuzz:/edited.lug';

export function tryCircuit(text: string, seed: number, watch: Watch): void {
  const project = createProject({ read: (asked) => (asked === uri ? text : withEdit(text, seed)) });
  const analysis = createAnalysis(project);
  const circuit = watch.step('parse and lower', seed, () => analysis.circuit(uri));
  const other = watch.step('parse and lower', seed, () => analysis.circuit(edited));
  if (circuit === undefined || other === undefined) return;
  const findings = watch.steps('check', seed, () => analysis.findingSteps(circuit));
  const setting = restingSetting(circuit);
  const answer = watch.step('response', seed, () => response(circuit, setting));
  if (answer?.points.some(({ db, deg }) => Number.isNaN(db) || Number.isNaN(deg)) === true)
    watch.fail('a level is no number', seed);
  watch.step('netlist', seed, () => spiceDeck(circuit, setting));
  tryPositions(circuit, watch.steps('positions', seed, () => analysis.positionSteps(circuit))?.rows ?? [], seed, watch);
  watch.step('sheet', seed, () => {
    const sheet = benchSheet(buildOf(circuit));
    return [sheetMarkdown(sheet), sheetHtml(sheet)];
  });
  // As a host does it: both sides solved in steps, what differs then told at once.
  const found = watch.steps('check', seed, () => analysis.findingSteps(other));
  watch.steps('positions', seed, () => analysis.positionSteps(other));
  if (findings !== undefined && found !== undefined) {
    const side = { circuit, findings, aside: setAside(circuit) };
    watch.step('compare', seed, () => changeLines(compare(side, { circuit: other, findings: found, aside: setAside(other) })));
    const same = watch.step('compare', seed, () => compare(side, side));
    // Of a text that can’t be read in full nobody knows that it is the same.
    if ((same?.electrical === true && same.unread.length === 0) || same?.build === true)
      watch.fail('a circuit differs from itself', seed);
  }
}

/** As many rows as there are combinations, or no more than are enumerated and a sentence about the rest. */
function tryPositions(
  circuit: Circuit,
  rows: readonly { readonly reads: { readonly ohm: number | null } }[],
  seed: number,
  watch: Watch,
): void {
  const combinations = circuit.switches.reduce(
    (all, device) => all * (device.rest === undefined ? Math.max(1, device.positions.length) : 1),
    1,
  );
  const limit = combinationLimitOf(circuit);
  const isWhole = combinations <= limit ? rows.length === combinations : rows.length <= limit;
  if (!isWhole) watch.fail(`${rows.length} rows for ${combinations} combinations`, seed);
  if (rows.some(({ reads }) => Number.isNaN(reads.ohm ?? 0))) watch.fail('a reading is no number', seed);
}

/** The same text with one line gone, another value, or two ends exchanged. */
function withEdit(text: string, seed: number): string {
  const dice = createDice(seed + 7);
  const lines = text.split('\n');
  const wires = lines.flatMap((line, i) => (line.startsWith('wire') ? [i] : []));
  const at = wires.length === 0 ? 0 : dice.pick(wires);
  const edit = dice.pick([
    (line: string) => line.replace(/^.*$/, ''),
    (line: string) => line.replace(/^wire (\S+) to (\S+)/, 'wire $2 to $1'),
    (line: string) => line.replace(/to \S+/, 'to output.tip'),
  ]);
  lines[at] = edit(lines[at]!);
  return dice.chance(0.3) ? lines.join('\n').replace(/ \d+(?=[kn])/, ' 47') : lines.join('\n');
}
