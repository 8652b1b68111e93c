/** What is intended and what was measured, made plain tree data. */
import type * as ast from './generated/ast.js';
import { dotted, freeWord, present, rangeOf, word } from './build-words.js';
import type { ArrangementNode, ClaimNode, LocalRange, SettingNode, Word } from './tree.js';

export function settings(nodes: readonly ast.Setting[] | undefined): SettingNode[] {
  return present(
    (nodes ?? []).map((node) => {
      const control = dotted(node.control);
      const position = word(node.position);
      return control && position ? { control, position, range: rangeOf(node) } : undefined;
    }),
  );
}

/** The claims that are whole; those that end behind `broken`, the place of the first problem, are left out. */
export function claims(nodes: readonly ast.Claim[] | undefined, broken: LocalRange | undefined): ClaimNode[] {
  const whole = (nodes ?? []).filter(
    (node) => node.$cstNode !== undefined && (broken === undefined || !reaches(rangeOf(node), broken)),
  );
  return present(whole.map((node) => claim(node)));
}

function reaches(range: LocalRange, place: LocalRange): boolean {
  const end = range.end;
  return end.line > place.start.line || (end.line === place.start.line && end.character > place.start.character);
}

function claim(node: ast.Claim): ClaimNode | undefined {
  const range = rangeOf(node);
  switch (node.$type) {
    case 'Sounds': {
      const heard = arrangement(node.arrangement);
      return heard && { kind: 'sounds', arrangement: heard, range };
    }
    case 'State':
      return { kind: node.state, range };
    case 'Hum':
      return node.hum && { kind: 'hum', hum: node.hum, range };
    case 'Reads':
      if (node.state !== undefined) return { kind: node.state === 'open' ? 'reads-open' : 'reads-short', range };
      return reading('reads', node, range);
    case 'Peak':
      return reading('peak', node, range);
    case 'Cutoff':
      return reading('cutoff', node, range);
    case 'Level': {
      const level = reading('level', node, range);
      const at = word(node.at);
      return level && { ...level, ...(at && { at }) };
    }
    default:
      return undefined;
  }
}

function reading<K extends 'reads' | 'peak' | 'cutoff' | 'level'>(
  kind: K,
  node: ast.Reads | ast.Peak | ast.Cutoff | ast.Level,
  range: LocalRange,
): { kind: K; value: Word; within?: Word; range: LocalRange } | undefined {
  const value = freeWord(node.value);
  const within = word(node.within);
  return value && { kind, value, range, ...(within && { within }) };
}

function arrangement(node: ast.Arrangement | undefined): ArrangementNode | undefined {
  if (!node?.$cstNode) return undefined;
  const share = word(node.share);
  const common = { reversed: node.reversed ?? false, range: rangeOf(node), ...(share && { share }) };
  if (node.group !== undefined) {
    const members = present((node.members ?? []).map((member) => arrangement(member)));
    return members.length > 0 ? { ...common, group: node.group, members } : undefined;
  }
  const name = dotted(node.name);
  return name && { ...common, name };
}
