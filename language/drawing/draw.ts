/** All stages of a drawing in one place: circuit, diagram, layout passed in, scene. */
import type { AnalysedCircuit } from '../circuit/model.js';
import { arrange, type Memory } from './arrange/arrange.js';
import { compose } from './scene/compose.js';
import { createDiagram, type DiagramOptions } from './diagram/create-diagram.js';
import type { Diagram } from './diagram/diagram.js';
import type { Point } from './geometry.js';
import type { LayoutFunction } from './layout.js';
import { withNotes, type SheetNotes } from './scene/notes.js';
import { frozen, type Scene } from './scene.js';
import { mirrored } from './scene/transform.js';

export interface DrawOptions extends DiagramOptions {
  /** Which side is seen; the solder side unless said. */
  readonly side?: Scene['side'];
  /** What the host knows of the file, for the title block. */
  readonly sheet?: SheetNotes;
}

export interface Drawing {
  readonly scene: Scene;
  /** What the scene was made of; `highlightOf` needs it to find wires by joints. */
  readonly diagram: Diagram;
  /** What did not come out as it should, a sentence each: the plain layout taken, wires that share a stretch. */
  readonly remarks: readonly string[];
}

/** Draws one document again and again. Parts stand where they stand whatever is joined to what; a wire that is still true stays where it was laid. */
export interface Drawer {
  draw(circuit: AnalysedCircuit, options?: DrawOptions): Promise<Drawing>;
}

export function createDrawer(layout: LayoutFunction): Drawer {
  let memory: Memory | undefined;
  let origin: Point | undefined;
  return {
    async draw(circuit, options = {}) {
      const diagram = createDiagram(circuit, options);
      const arrangement = await arrange(diagram, layout, memory);
      memory = arrangement.memory;
      const { picture, crowded, astray, unlabelled, ...sheet } = compose(diagram, arrangement, origin);
      origin = sheet.origin;
      const side = options.side ?? 'solder';
      const scene: Scene = {
        version: 1,
        ...withNotes(side === 'player' ? mirrored(picture) : picture, diagram, side, options.sheet),
      };
      const remarks = [
        ...(memory.fallback === undefined ? [] : [`simple layout, because ${memory.fallback}`]),
        ...crowded.map((id) => `no free route for the ${nameOf(id)}`),
        ...astray.map((id) => `no route through the channels for the ${nameOf(id)}`),
        ...unlabelled.map((id) => `no room for the number of the ${nameOf(id)}`),
      ];
      return { scene: frozen(scene), diagram, remarks };
    },
  };
}

function nameOf(id: string): string {
  return id.replace(':', ' ').replace('~', ' to ');
}

/** Draws once. */
export function draw(circuit: AnalysedCircuit, layout: LayoutFunction, options: DrawOptions = {}): Promise<Drawing> {
  return createDrawer(layout).draw(circuit, options);
}
