/** Drawn circuits as the benchmark uses them: one text for each intent that a luthier may have stated. */
import type { AnalysedCircuit } from '../../../../language/circuit/model.js';
import { faultsOf, linesOfNow } from '../../../../language/intent/index.js';
import type { Finding } from '../../../../language/source.js';
import { drawPractice, type Practice } from '../../../practice/index.js';
import { behaviourOf, type Behaviour } from '../behaviour.js';
import { wiresOf } from '../case.js';
import { projectOf } from '../files.js';

/** Nothing; what sounds in each position, as a luthier writes it; everything that `lugwork expect --turns` writes. */
export const intents = ['none', 'thin', 'full'] as const;
export type Intent = (typeof intents)[number];

export interface Drawn {
  readonly practice: Practice;
  readonly circuit: AnalysedCircuit;
  /** The lines that state each intent. */
  readonly lines: Readonly<Record<Intent, readonly string[]>>;
  /** What is reported though the circuit is correct. */
  readonly alarms: Readonly<Record<Intent, ReadonlySet<string>>>;
  readonly behaviour: Behaviour;
  readonly wires: string;
  /** Whether a circuit with these wires behaves as this one, by its wires: the same repair is offered for many mistakes. */
  readonly judged: Map<string, boolean>;
}

export const uri = 'bench:/drawn.lug';

export function drawnFrom(seed: number): Drawn {
  const practice = drawPractice(seed);
  const circuit = circuitOf(practice.text);
  const lines = { none: [], thin: practice.thin, full: linesOfNow(circuit, { turns: true }) };
  const alarmsWith = (intent: Intent): ReadonlySet<string> =>
    new Set(faultsOf(circuitOf(textWith(practice.text, lines[intent]))).map(alarmOf));
  return {
    practice,
    circuit,
    lines,
    alarms: { none: alarmsWith('none'), thin: alarmsWith('thin'), full: alarmsWith('full') },
    behaviour: behaviourOf(circuit),
    wires: wiresOf(circuit),
    judged: new Map(),
  };
}

/** A text with its intent after the last line, so that no place in it moves. */
export function textWith(text: string, lines: readonly string[]): string {
  return `${text}${lines.join('\n')}\n`;
}

export function circuitOf(text: string): AnalysedCircuit {
  const circuit = projectOf(new Map([[uri, text]])).circuit(uri);
  if (circuit === undefined) throw new Error('A text that is there was not read.');
  return circuit;
}

/** What identifies a finding among those of one circuit. */
export function alarmOf({ rule, message }: Finding): string {
  return `${rule}: ${message}`;
}
