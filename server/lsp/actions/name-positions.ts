/** Gives the positions of a switch names, after what they sound like now. */
import { CodeActionKind, type TextEdit } from 'vscode-languageserver';
import { partById, type Circuit, type Switch } from '../../../language/circuit/index.js';
import type { PositionTable } from '../../../language/electrics/index.js';
import { isSign, type Token } from '../../../language/grammar/index.js';
import type { SourceRange } from '../../../language/source.js';
import { isBefore, touches } from '../places.js';
import type { DeferredAction } from './action.js';

export const namePositions: DeferredAction = {
  offer({ at: { circuit, uri }, range }) {
    return circuit.switches.flatMap((device) => {
      const part = partById(circuit, device.part);
      const isHere = part.range.uri === uri && part.range.start.line <= range.end.line && part.range.end.line >= range.start.line;
      const isNamed = device.positions.some(({ label, key }) => label !== key);
      if (!isHere || isNamed || device.rest !== undefined || device.positions.length < 2 || part.parent !== undefined) return [];
      return [{ title: `name the positions of ${device.name}`, kind: CodeActionKind.RefactorRewrite, about: device.name }];
    });
  },
  *edit({ circuit, tree }, about, { analysis }) {
    const device = circuit.switches.find(({ name }) => name === about);
    if (device === undefined) return `The switch ${about} no longer exists.`;
    const names = namesFor(circuit, device, yield* analysis.positionSteps(circuit));
    const written = `positions ${names.map((name) => `"${name}"`).join(' ')}`;
    return [editOf(tree.scan?.tokens ?? [], partById(circuit, device.part).range, written)];
  },
};

/** The property put into the braces that are there already, else into new ones behind the statement. */
function editOf(tokens: readonly Token[], statement: SourceRange, written: string): TextEdit {
  const open = tokens.find((token) => isSign(token, '{') && touches(statement, { line: token.line, character: token.character }));
  if (open === undefined || !isBefore({ line: open.line, character: open.character }, statement.end))
    return { range: { start: statement.end, end: statement.end }, newText: ` { ${written} }` };
  const next = tokens.find(({ start }) => start > open.start);
  const place = { line: open.line, character: open.endCharacter };
  return { range: { start: place, end: place }, newText: isSign(next, '}') ? ` ${written}` : ` ${written},` };
}

/** A name for each position, no two alike: what sounds there, or its number. */
function namesFor(circuit: Circuit, device: Switch, { rows }: PositionTable): string[] {
  const taken = new Set<string>();
  const soundsAt = (at: string | undefined): (string | undefined)[] =>
    device.positions.map((_, index) => {
      const row = rows.find(({ output, setting }) => output === at && setting.positions[device.id] === index);
      return row?.sound.silent === true ? 'off' : row?.sound.text;
    });
  // A switch of the second jack is named after what is heard there.
  const outputs = [...new Set(rows.map(({ output }) => output))];
  const sounds = soundsAt(outputs.find((output) => new Set(soundsAt(output)).size > 1) ?? outputs[0]);
  return device.positions.map(({ number, key }, index) => {
    const sound = circuit.output === undefined ? key : (sounds[index] ?? key);
    const name = taken.has(sound) ? `${sound}, ${number}` : sound;
    taken.add(name);
    return name;
  });
}
