/** Drawings for the tests: every example drawn once,. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createDrawer, type Drawer, type Drawing, type DrawOptions } from '../../language/drawing/index.js';
import { createProject } from '../../language/project.js';
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import { elkLayout } from '../../server/elk.js';
import { filesUnder, root } from '../harness/checkout.js';

/** Names of the examples that are circuits, without their ending. */
export const examples = filesUnder('examples')
  .filter((path) => /^examples\/[\w-]+\.lug$/.test(path))
  .map((path) => basename(path, '.lug'))
  .filter((name) => !circuitOf(name).isLibrary);

export function exampleText(name: string): string {
  return readFileSync(`${root}/examples/${name}.lug`, 'utf8');
}

/** The circuit of an example, or of another text that stands in its place. */
export function circuitOf(name: string, text?: string): AnalysedCircuit {
  const own = pathToFileURL(`${root}/examples/${name}.lug`).href;
  const project = createProject({
    read(uri) {
      if (uri === own && text !== undefined) return text;
      try {
        return readFileSync(new URL(uri), 'utf8');
      } catch {
        return undefined;
      }
    },
  });
  return project.circuit(own)!;
}

/** A circuit of a text that uses no other file. */
export function circuitOfText(text: string): AnalysedCircuit {
  return createProject({ read: (uri) => (uri === 'file:///bench.lug' ? text : undefined) }).circuit('file:///bench.lug')!;
}

const drawn = new Map<string, Promise<Drawing>>();
const drawers = new Map<string, Drawer>();

/** The example's drawing, made once for each choice of options; one drawer for both sides, as in a preview. */
export function drawing(name: string, options: DrawOptions = {}): Promise<Drawing> {
  const key = `${name} ${JSON.stringify(options)}`;
  const drawer = drawers.get(`${name} ${options.grounds}`) ?? createDrawer(elkLayout);
  drawers.set(`${name} ${options.grounds}`, drawer);
  const made = drawn.get(key) ?? drawer.draw(circuitOf(name), options);
  drawn.set(key, made);
  return made;
}

/** Tags in order, or the first place where they do not nest: enough of XML to know that nothing has broken out. */
export function nesting(svg: string): string[] {
  const open: string[] = [];
  const names: string[] = [];
  for (const [, close, name, selfClosed] of svg.matchAll(/<(\/?)([a-zA-Z]+)(?:\s+[\w-]+="[^"<]*")*\s*(\/?)>/g)) {
    if (close) {
      if (open.pop() !== name) return ['broken', name!];
    } else {
      names.push(name!);
      if (!selfClosed) open.push(name!);
    }
  }
  return open.length === 0 ? names : ['unclosed', ...open];
}
