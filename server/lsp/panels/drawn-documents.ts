/** What was drawn of each document: its last whole circuit, its diagrams and drawings for as long as the circuit is the same. */
import { forgetOldest } from '../../../language/collections.js';
import type { AnalysedCircuit, Circuit } from '../../../language/circuit/index.js';
import { createDiagramSteps, type Diagram, type Drawing, type DrawOptions } from '../../../language/drawing/index.js';
import type { Steps } from '../../../language/steps.js';
import type { SceneParams } from '../../protocol.js';

type Grounds = SceneParams['grounds'];

/** Documents whose drawings are remembered. */
const mostDrawn = 8;

export interface DrawnDocument {
  /** The circuit itself where its text is whole, else the last one that was. */
  whole(circuit: AnalysedCircuit): AnalysedCircuit;
  /** Made in steps of a part or so each. */
  diagramSteps(circuit: AnalysedCircuit, grounds: Grounds): Steps<Diagram>;
  /** What `make` makes, once for each look of the same circuit. */
  drawing(circuit: AnalysedCircuit, options: DrawOptions, make: () => Promise<Drawing>): Promise<Drawing>;
}

export function createDrawnDocuments(): { of(uri: string): DrawnDocument } {
  const kept = new Map<string, DrawnDocument>();
  return {
    of(uri) {
      const document = kept.get(uri) ?? createDrawnDocument();
      kept.delete(uri);
      kept.set(uri, document);
      forgetOldest(kept, mostDrawn);
      return document;
    },
  };
}

/** Faults of the text that take something out of the circuit. */
export function faultsOf({ problems, aside = [] }: Circuit): number {
  const isAside = (line: number, uri: string): boolean =>
    aside.some((range) => range.uri === uri && range.start.line <= line && line <= range.end.line);
  return problems.filter(({ severity, range }) => severity === 'error' && !isAside(range.start.line, range.uri)).length;
}

interface Made {
  readonly circuit: AnalysedCircuit;
  readonly diagrams: Map<Grounds, Diagram>;
  readonly drawings: Map<string, Promise<Drawing>>;
}

function createDrawnDocument(): DrawnDocument {
  let last: AnalysedCircuit | undefined;
  let made: Made | undefined;
  const madeOf = (circuit: AnalysedCircuit): Made =>
    made?.circuit === circuit ? made : (made = { circuit, diagrams: new Map(), drawings: new Map() });
  return {
    whole(circuit) {
      if (faultsOf(circuit) === 0) last = circuit;
      return last ?? circuit;
    },
    *diagramSteps(circuit, grounds) {
      const { diagrams } = madeOf(circuit);
      const diagram = diagrams.get(grounds) ?? (yield* createDiagramSteps(circuit, { grounds }));
      diagrams.set(grounds, diagram);
      return diagram;
    },
    drawing(circuit, options, make) {
      const { drawings } = madeOf(circuit);
      const key = `${options.grounds} ${options.side}`;
      const known = drawings.get(key);
      if (known !== undefined) return known;
      const drawing = make();
      drawings.set(key, drawing);
      // What did not come out as it should is tried again when it is asked for again.
      const forget = (): void => void drawings.delete(key);
      drawing.then(({ remarks }) => remarks.some((remark) => remark.startsWith('simple layout')) && forget(), forget);
      return drawing;
    },
  };
}
