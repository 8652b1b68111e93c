/** What a circuit comes to in a few figures: its positions, what is listed of its findings, how many of its expectations hold. */
import type { CancellationToken } from 'vscode-languageserver';
import { counted } from '../../language/circuit/index.js';
import { evaluateSteps } from '../../language/intent/index.js';
import type { Overview } from '../protocol.js';
import type { Service } from './feature.js';
import { inSlices } from './messages/pause.js';
import type { Snapshot } from './workspace.js';

/** `undefined` where the question is taken back. */
export async function overviewOf(
  { workspace, diagnostics }: Service,
  at: Snapshot,
  token: CancellationToken,
): Promise<Overview | undefined> {
  const { circuit, uri } = at;
  const isGivenUp = (): boolean => token.isCancellationRequested;
  const found =
    diagnostics.listed(at) ?? (await diagnostics.current(at, token)).filter(({ severity }) => severity !== 'hint').length;
  const table = await inSlices(workspace.analysis.positionSteps(circuit), isGivenUp);
  if (table === undefined || isGivenUp()) return undefined;
  // An instrument has each of its positions once, at however many jacks it is heard.
  const positions = table.rows.filter(({ output }) => output === table.rows[0]?.output).length;
  const own = circuit.expectations.filter(({ range }) => range.uri === uri);
  let met = 0;
  for (const line of own) {
    const results = await inSlices(evaluateSteps(circuit, line), isGivenUp);
    if (results === undefined) return undefined;
    if (results.every(({ verdict }) => verdict === 'held')) met++;
  }
  return {
    positions: positionsText(circuit.output === undefined ? 0 : positions, table.leftOut.length > 0),
    findings: found === 0 ? 'no findings' : counted(found, 'finding'),
    ...(own.length === 0 ? {} : { expectations: `${met} of ${counted(own.length, 'expectation')} met` }),
  };
}

/** Without a jack nothing is heard in any position. */
function positionsText(count: number, isIncomplete: boolean): string {
  return count === 0 ? 'no jack' : counted(count, 'position') + (isIncomplete ? ', incomplete' : '');
}
