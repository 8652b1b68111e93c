/** The drawings of the circuits to start from, which the editor's chooser shows. */
import { draw, renderSvg } from '../../language/drawing/index.js';
import { createProject } from '../../language/project.js';
import { startingCircuits } from '../../language/starts/index.js';
import { elkLayout } from '../elk.js';

/** Path and text of each drawing, in light colours: the chooser shows them on white paper. */
export async function startDrawings(): Promise<ReadonlyMap<string, string>> {
  const drawings = new Map<string, string>();
  for (const { name, text } of startingCircuits) {
    const circuit = createProject({ read: () => text }).circuit(`file:///${name}.lug`);
    if (circuit === undefined) throw new Error(`${name} was not read`);
    const { scene } = await draw(circuit, elkLayout);
    drawings.set(`extension/starts/page/${name}.svg`, `${renderSvg(scene, { scheme: 'light' })}\n`);
  }
  return drawings;
}
