/** Where an instrument is heard unless a line says otherwise, by what is soldered to its jacks. */
import type { Circuit, Output } from './circuit.js';
import { lugById, type LugId, partById } from './ids.js';

/** The tip and the sleeve of each jack, in order of declaration. */
export function jackOutputs(circuit: Pick<Circuit, 'parts' | 'lugs' | 'jacks'>): readonly Output[] {
  return circuit.jacks.flatMap((part) => {
    const lug = (name: string): LugId | undefined =>
      partById(circuit, part).lugs.find((id) => lugById(circuit, id).name === name);
    const [tip, sleeve] = [lug('tip'), lug('sleeve')];
    return tip === undefined || sleeve === undefined ? [] : [{ part, tip, sleeve }];
  });
}

/** The first jack whose tip is wired, else the first; whichever contact of a jack the circuit is heard at. */
export function usualOutput(circuit: Pick<Circuit, 'parts' | 'lugs' | 'jacks' | 'joints'>): Output | undefined {
  const outputs = jackOutputs(circuit);
  const [first, ...others] = outputs;
  if (others.length === 0) return first;
  const wired = new Set(circuit.joints.flatMap(({ kind, a, b }) => (kind === 'wire' || kind === 'solder' ? [a, b] : [])));
  return outputs.find(({ tip }) => wired.has(tip)) ?? first;
}
