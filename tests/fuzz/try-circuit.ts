/** One circuit through everything that is made of circuits. */
import { createAnalysis } from '../../language/analysis.js';
import { benchSheet, sheetHtml, sheetMarkdown } from '../../language/bench/index.js';
import { draw, renderSvg, simpleLayout } from '../../language/drawing/index.js';
import { positionTable, response, restingSetting, spiceDeck } from '../../language/electrics/index.js';
import { createProject } from '../../language/project.js';
import type { Watch } from './watch.js';

const uri = 'fuzz:/circuit.lug';
/** A sheet solves every position, as the position table does; both may take longer than a step where there are very many. */
const mostSettings = 64;
/** The arranging of a drawing grows far faster than the circuit where it is wired at random: larger ones are not drawn here. */
const mostDrawn = 40;
/** Seconds that a drawing may take; hosts make it beside themselves and can give it up. */
const patience = 20;

export async function tryCircuit(text: string, seed: number, watch: Watch): Promise<void> {
  const project = createProject({ read: () => text });
  const analysis = createAnalysis(project);
  const circuit = watch.step('parse and lower', seed, () => analysis.circuit(uri));
  if (circuit === undefined) return;
  watch.steps('check', seed, () => analysis.findingSteps(circuit));
  const setting = restingSetting(circuit);
  const answer = watch.step('response', seed, () => response(circuit, setting));
  if (answer?.points.some(({ db, deg }) => Number.isNaN(db) || Number.isNaN(deg)) === true)
    watch.fail('a level is no number', seed);
  watch.step('netlist', seed, () => spiceDeck(circuit, setting));
  const combinations = circuit.switches.reduce(
    (all, device) => all * (device.rest === undefined ? device.positions.length : 1),
    1,
  );
  if (combinations > mostSettings) return;
  const table = watch.step('positions', seed, () => positionTable(circuit, { response: true }));
  if (table?.rows.some(({ reads }) => Number.isNaN(reads.ohm ?? 0)) === true) watch.fail('a reading is no number', seed);
  watch.step('sheet', seed, () => [sheetMarkdown(benchSheet(circuit)), sheetHtml(benchSheet(circuit))]);
  if (circuit.parts.length > mostDrawn) return;
  try {
    const began = process.cpuUsage();
    const { scene } = await draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)));
    renderSvg(scene);
    const seconds = process.cpuUsage(began).user / 1e6;
    if (seconds > patience) watch.fail(`draw took ${seconds.toFixed(0)} s`, seed);
  } catch (error) {
    watch.fail(
      `draw: ${String((error as Error).stack)
        .split('\n')
        .slice(0, 4)
        .join(' | ')}`,
      seed,
    );
  }
}
