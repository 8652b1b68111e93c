/** One circuit drawn. Hosts draw beside themselves and can give it up, so it has its own patience. */
import { draw, renderSvg, simpleLayout } from '../../language/drawing/index.js';
import { createProject } from '../../language/project.js';
import type { Watch } from './watch.js';

const uri = 'fuzz:/circuit.lug';
/** Seconds of processor time that a drawing may take. */
const patience = 20;

export async function tryDrawing(text: string, seed: number, watch: Watch): Promise<void> {
  const circuit = createProject({ read: () => text }).circuit(uri)!;
  const began = process.cpuUsage();
  try {
    const { scene } = await draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)));
    if (/NaN|Infinity|undefined/.test(renderSvg(scene))) watch.fail('the drawing holds what is no number', seed);
  } catch (error) {
    watch.fail(`draw: ${(error as Error).stack!.split('\n').slice(0, 4).join(' | ')}`, seed);
  }
  const ms = process.cpuUsage(began).user / 1000;
  watch.took(`drawing ${band(circuit.parts.length)}`, seed, ms);
  if (ms > patience * 1000) watch.fail(`a drawing of ${circuit.parts.length} parts took ${(ms / 1000).toFixed(0)} s`, seed);
}

function band(parts: number): string {
  return parts <= 30 ? 'of up to 30 parts' : parts <= 100 ? 'of up to 100 parts' : 'of more than 100 parts';
}
