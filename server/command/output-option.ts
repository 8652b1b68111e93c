/** `--at LUG`: which output of the instrument a command is about. */
import type { AnalysedCircuit, Output } from '../../language/circuit/index.js';
import { heardAt, outputsOf } from '../../language/electrics/index.js';
import { nearest } from '../../language/nearest.js';
import { listed } from '../../language/words.js';
import { CannotRun, type Call } from './command.js';

export const atOption = {
  name: 'at',
  value: 'LUG',
  summary: 'an output other than the tip of the first jack, such as output.ring',
} as const;

/** The output that is asked for; undefined where none is. */
export function chosenOutput(call: Call, circuit: AnalysedCircuit): Output | undefined {
  const asked = call.values.get('at');
  if (asked === undefined) return undefined;
  const contacts = circuit.jacks.flatMap((id) => circuit.parts[id]?.lugs ?? []).flatMap((lug) => circuit.lugs[lug] ?? []);
  const found = contacts.find(({ label, name }) => label === asked && name !== 'sleeve');
  const at = found && heardAt(circuit, found.id).output;
  if (at !== undefined) return at;
  const names = outputsOf(circuit).flatMap(({ tip }) => circuit.lugs[tip]?.label ?? []);
  const near = nearest(asked, names);
  const hint = near === undefined ? '' : `; did you mean ${near}?`;
  throw new CannotRun(
    names.length === 0
      ? `--at ${asked}: the circuit has no jack`
      : `--at ${asked} is not an output; there is ${listed(names)}${hint}`,
  );
}

/** The circuit with the requested output. */
export function heardAtChosen(call: Call, circuit: AnalysedCircuit): AnalysedCircuit {
  return heardAt(circuit, chosenOutput(call, circuit)?.tip);
}
