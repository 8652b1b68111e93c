/** Writes the current behaviour in each position as `expect` lines, merged with those that are there; offered where no line speaks of some setting yet. */
import { CodeActionKind } from 'vscode-languageserver';
import {
  partById,
  type AnalysedCircuit,
  type Circuit,
  type LugId,
  type PartId,
  type Switch,
} from '../../../language/circuit/index.js';
import { combinationLimit, outputsOf } from '../../../language/electrics/index.js';
import { isDead, linesOfNowSteps } from '../../../language/intent/index.js';
import { mostLines } from '../panels/expectation-choices.js';
import { statementAt } from '../places.js';
import type { DeferredAction } from './action.js';
import { mergedLines } from './merged-lines.js';

export const writeExpectations: DeferredAction = {
  offer({ at: { circuit, tree }, range }) {
    const statement = statementAt(tree, range.start);
    const isPlace =
      statement?.kind === 'instrument' ||
      statement?.kind === 'expect' ||
      (statement?.kind === 'part' &&
        circuit.switches.some((device) => device.rest === undefined && isNamed(circuit, device.part, statement.names)));
    if (!isPlace || circuit.output === undefined || circuit.isLibrary || !hasOpenSettings(circuit)) return [];
    return [{ title: 'write the current behaviour as expectations', kind: CodeActionKind.RefactorRewrite, about: '' }];
  },
  *edit({ circuit, uri }, _, { project }) {
    if (isDead(circuit))
      return 'It is silent in every position, however its pots are turned: expectations would record the mistake.';
    return mergedLines(project, uri, yield* linesOfNowSteps(circuit, { most: mostLines, isAtRest: true }), 'now');
  },
};

/** Whether a line says what sounds at an output in just these positions, pots at rest. */
function speaking({ expectations, output }: Circuit, tip: LugId): (positions: readonly number[]) => boolean {
  const said = expectations.flatMap(({ at = output?.tip, settings, claims }) => {
    const isSaid = claims.some(({ kind }) => kind === 'sounds' || kind === 'silent');
    if (at !== tip || !isSaid || settings.some(({ kind }) => kind === 'shaft')) return [];
    return [settings.flatMap((control) => (control.kind === 'switch' ? [[control.switch, control.position] as const] : []))];
  });
  return (positions) => said.some((named) => named.every(([id, position]) => positions[id] === position));
}

/** True where some combination of the switches has no expectation yet at some output; found by looking through them, none is solved. */
function hasOpenSettings(circuit: AnalysedCircuit): boolean {
  const turned = circuit.switches.filter(({ rest, positions }) => rest === undefined && positions.length > 1);
  return outputsOf(circuit).some(({ tip }) => {
    const speaks = speaking(circuit, tip);
    const positions = circuit.switches.map(({ rest }) => rest ?? 0);
    for (let tried = 0; tried < combinationLimit; tried++) {
      if (!speaks(positions)) return true;
      if (!turnOn(turned, positions)) return false;
    }
    return true;
  });
}

/** The next combination, the last switch turning fastest; false after the last one. */
function turnOn(switches: readonly Switch[], positions: number[]): boolean {
  for (const { id, positions: own } of [...switches].reverse()) {
    const next = (positions[id] ?? 0) + 1;
    positions[id] = next < own.length ? next : 0;
    if (next < own.length) return true;
  }
  return false;
}

function isNamed(circuit: Circuit, part: PartId, names: readonly { readonly text: string }[]): boolean {
  return names.some(({ text }) => text === partById(circuit, part).name);
}
