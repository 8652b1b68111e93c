/** Gives the positions of a switch names, after what they sound like now. */
import { CodeActionKind, type TextEdit } from 'vscode-languageserver';
import type { Circuit, Switch } from '../../../language/circuit/index.js';
import { isSign, tokenize } from '../../../language/grammar/index.js';
import type { Analysis } from '../../../language/analysis.js';
import { isBefore, touches } from '../places.js';
import type { MakeActions } from './action.js';

export const namePositions: MakeActions = ({ at, range, analysis }) => {
  const { circuit, uri, text } = at;
  return circuit.switches.flatMap((device) => {
    const part = circuit.parts[device.part]!;
    const isHere = part.range.uri === uri && part.range.start.line <= range.end.line && part.range.end.line >= range.start.line;
    const isNamed = device.positions.some(({ label, key }) => label !== key);
    if (!isHere || isNamed || device.rest !== undefined || device.positions.length < 2 || part.parent !== undefined) return [];
    const written = `positions ${namesFor(circuit, device, analysis)
      .map((name) => `"${name}"`)
      .join(' ')}`;
    // The braces that stand there already, else new ones behind the statement.
    const open = tokenize(text).find(
      (token) => isSign(token, '{') && touches(part.range, { line: token.line, character: token.character }),
    );
    const next = open === undefined ? undefined : tokenize(text).find(({ start }) => start > open.start);
    const edit: TextEdit =
      open === undefined || !isBefore({ line: open.line, character: open.character }, part.range.end)
        ? { range: { start: part.range.end, end: part.range.end }, newText: ` { ${written} }` }
        : {
            range: {
              start: { line: open.line, character: open.endCharacter },
              end: { line: open.line, character: open.endCharacter },
            },
            newText: isSign(next, '}') ? ` ${written}` : ` ${written},`,
          };
    return [
      {
        title: `name the positions of ${device.name}`,
        kind: CodeActionKind.RefactorRewrite,
        edit: { changes: { [uri]: [edit] } },
      },
    ];
  });
};

/** A name for each position, no two alike: what sounds there, or its number. */
function namesFor(circuit: Circuit, device: Switch, analysis: Analysis): string[] {
  const { rows } = analysis.positions(circuit);
  const taken = new Set<string>();
  return device.positions.map(({ number, key }, index) => {
    const row = rows.find(({ setting }) => setting.positions[device.id] === index);
    const sound = row === undefined || circuit.output === undefined ? key : row.sound.silent ? 'off' : row.sound.text;
    const name = taken.has(sound) ? `${sound}, ${number}` : sound;
    taken.add(name);
    return name;
  });
}
