/** Writes what is so now as `expect` lines, for the settings of which none speaks yet. */
import { CodeActionKind } from 'vscode-languageserver';
import type { Circuit, Expectation } from '../../../language/circuit/index.js';
import { settingLabel, settingsMatching } from '../../../language/electrics/index.js';
import { humClaim, soundClaim } from '../claims-now.js';
import { insertStatements } from '../insertions.js';
import { statementAt } from '../places.js';
import type { MakeActions } from './action.js';

/** More lines at once nobody reads. */
const most = 64;

export const writeExpectations: MakeActions = ({ at, range, analysis }) => {
  const { circuit, uri } = at;
  const statement = statementAt(at.tree, range.start);
  const isPlace =
    statement?.kind === 'instrument' ||
    statement?.kind === 'expect' ||
    (statement?.kind === 'part' &&
      circuit.switches.some((device) => device.rest === undefined && isNamed(circuit, device.part, statement.names)));
  if (!isPlace || circuit.output === undefined || circuit.isLibrary) return [];
  const lines = analysis.positions(circuit).rows.flatMap(({ setting, sound }): string[] => {
    const claims = [soundClaim(sound), humClaim(sound)].filter((claim) => claim !== undefined);
    if (claims.length === 0 || circuit.expectations.some((line) => speaksOf(circuit, line, setting.positions))) return [];
    const label = settingLabel(circuit, setting);
    return [`expect ${label === '' ? '' : `${label} `}: ${claims.join(', ')}`];
  });
  if (lines.length === 0 || lines.length > most) return [];
  return [
    {
      title:
        lines.length === 1 ? 'write what is so now as an expectation' : `write what is so now as ${lines.length} expectations`,
      kind: CodeActionKind.RefactorRewrite,
      edit: { changes: { [uri]: [insertStatements(at, lines, ['expect'])] } },
    },
  ];
};

/** True where a line says what sounds in just this setting, pots at rest. */
function speaksOf(circuit: Circuit, { settings, claims }: Expectation, positions: readonly number[]): boolean {
  if (settings.some(({ kind }) => kind === 'shaft') || !claims.some(({ kind }) => kind === 'sounds' || kind === 'silent'))
    return false;
  return settingsMatching(circuit, settings).some((setting) =>
    setting.positions.every((position, id) => position === positions[id]),
  );
}

function isNamed(circuit: Circuit, part: number, names: readonly { readonly text: string }[]): boolean {
  return names.some(({ text }) => text === circuit.parts[part]!.name);
}
