/** One text through the whole language: parsed, lowered, analysed, formatted; the layout must be stable and change no meaning. */
import { createAnalysis } from '../../language/analysis.js';
import { intentSignature, lower, topologySignature, valuesSignature, type Circuit } from '../../language/circuit/index.js';
import { formatText, parseText } from '../../language/grammar/index.js';
import { createProject } from '../../language/project.js';
import type { Watch } from './watch.js';

const uri = 'fuzz:/text.lug';
const none = { tree: () => undefined };

export function tryText(text: string, seed: number, watch: Watch): void {
  const tree = watch.step('parse', seed, () => parseText(uri, text));
  const circuit = tree && watch.step('lower', seed, () => lower(tree, none));
  if (circuit === undefined) return;
  const analysis = createAnalysis(createProject({ read: () => text }));
  watch.steps('analyse', seed, () => analysis.findingSteps(circuit));
  const formatted = watch.step('format', seed, () => formatText(text));
  if (formatted === undefined) return;
  if (watch.step('format', seed, () => formatText(formatted)) !== formatted) watch.fail('the layout is not stable', seed);
  const again = watch.step('lower', seed, () => lower(parseText(uri, formatted), none));
  if (again !== undefined && meaningOf(again) !== meaningOf(circuit)) watch.fail('the layout changes the meaning', seed);
}

function meaningOf(circuit: Circuit): string {
  const problems = circuit.problems.map(({ rule, message }) => `${rule} ${message}`).sort();
  return [topologySignature(circuit), valuesSignature(circuit), intentSignature(circuit), ...problems].join('\n');
}
