/** Turns the selected statements, and every other group of them alike, into a type of their own and parts of it. */
import { firstOf, itemAt } from '../../../language/collections.js';
import { CodeActionKind, type TextEdit } from 'vscode-languageserver';
import type { Circuit } from '../../../language/circuit/index.js';
import { linesOf } from '../../../language/grammar/index.js';
import { insertStatements } from '../insertions.js';
import { inFile, textIn } from '../places.js';
import { toRange } from '../to-protocol.js';
import type { Snapshot } from '../workspace.js';
import type { MakeActions } from './action.js';
import { exposedLugs, groupOf, labelOf, repeatsOf, type Group, type GroupStatement } from './group.js';

export const extractType: MakeActions = ({ at, range }) => {
  if (range.start.line === range.end.line) return [];
  const last = range.end.character === 0 ? range.end.line - 1 : range.end.line;
  const chosen = at.tree.statements.filter(({ line, range: own }) => line >= range.start.line && line + own.end.line <= last);
  const group = chosen.length < 2 ? undefined : groupOf(chosen);
  if (group === undefined) return [];
  const plan = planOf(at, repeatsOf(group, at.tree.statements));
  if (plan === undefined) return [];
  const { groups } = plan;
  return [
    {
      title:
        groups.length === 1
          ? 'make a type of these statements'
          : `make a type of these statements, which occur ${groups.length} times here`,
      kind: CodeActionKind.RefactorExtract,
      edit: { changes: { [at.uri]: editsOf(at, plan) } },
    },
  ];
};

interface Plan {
  readonly groups: readonly Group[];
  readonly type: string;
  /** Names of the type's lugs: those that stand for what the group hangs on, and those that show a lug of one of its parts. */
  readonly hanging: readonly string[];
  readonly showing: readonly { readonly part: number; readonly lug: string; readonly name: string }[];
}

function planOf({ circuit, uri }: Snapshot, groups: readonly Group[]): Plan | undefined {
  const first = firstOf(groups);
  const all = new Set(groups.flatMap(({ parts }) => parts));
  // Groups that hang on one another are no repetition.
  if (groups.some(({ outside }) => outside.some((label) => all.has(label.replace(/\..*/, ''))))) return undefined;
  const exposed = groups.map((group) => exposedLugs(circuit, uri, group));
  if (exposed.some((lugs) => lugs === undefined)) return undefined;
  const taken = new Set(first.parts);
  const free = (wish: string): string => {
    let name = wish;
    for (let n = 2; taken.has(name); n++) name = `${wish}-${n}`;
    taken.add(name);
    return name;
  };
  const hanging = first.outside.map((_, i) => free(i < 26 ? String.fromCharCode(97 + i) : `lug-${i + 1}`));
  const showing = new Map<string, Plan['showing'][number]>();
  for (const [part, lug] of exposed.flatMap((lugs) => lugs ?? [])) {
    const key = `${part} ${lug}`;
    if (!showing.has(key)) showing.set(key, { part, lug, name: free(`${itemAt(first.parts, part)}-${lug}`) });
  }
  if (hanging.length + showing.size === 0) return undefined;
  return { groups, type: unusedName(circuit, 'group'), hanging, showing: [...showing.values()] };
}

function editsOf(at: Snapshot, plan: Plan): TextEdit[] {
  const { groups, type } = plan;
  const text = typeText(at, plan);
  const hasHead = at.tree.statements.some(({ kind }) => kind === 'type' || kind === 'use' || kind === 'instrument');
  const top = { line: 0, character: 0 };
  const edits: TextEdit[] = [
    hasHead
      ? insertStatements(at, ['', ...text], ['type', 'use', 'instrument'])
      : { range: { start: top, end: top }, newText: `${text.join('\n')}\n\n` },
  ];
  groups.forEach((group, index) => {
    const name = unusedName(at.circuit, `${type}-${index + 1}`);
    group.statements.forEach((statement, i) =>
      edits.push(replaced(at, statement, i === 0 ? instanceText(plan, group, name) : undefined)),
    );
    for (const { part, lug, name: shown } of plan.showing)
      edits.push(...renamed(at, group, itemAt(group.parts, part), lug, `${name}.${shown}`));
  });
  return edits;
}

/** The type, its statements as they stand in the first group but for the lugs that it hangs on. */
function typeText(at: Snapshot, { groups, type, hanging, showing }: Plan): string[] {
  const [group] = groups as readonly [Group, ...Group[]];
  const body = group.statements.map((statement) => {
    const ends =
      statement.kind === 'part' ? (statement.ends === undefined ? [] : [statement.ends.a, statement.ends.b]) : statement.ends;
    const line = textIn(at.text, inFile(statement.line, statement.range)).split('\n');
    // From the back, so that places before stay what they are.
    for (const { path, range } of [...ends].reverse()) {
      const index = group.outside.indexOf(labelOf(path));
      if (index < 0) continue;
      const { start, end } = range;
      const shift = start.line === 0 ? statement.range.start.character : 0;
      const text = itemAt(line, start.line);
      const before = text.slice(0, start.character - shift);
      line[start.line] = before + itemAt(hanging, index) + text.slice(end.character - shift);
    }
    return `  ${line.join('\n')}`;
  });
  const joints = showing.map(({ part, lug, name }) => `  solder ${name} to ${itemAt(group.parts, part)}.${lug}`);
  const lugs = [...hanging, ...showing.map(({ name }) => name)].join(' ');
  return [`type ${type} : assembly {`, `  lugs ${lugs}`, ...body, ...joints, '}'];
}

function instanceText({ type, hanging, showing }: Plan, { outside }: Group, name: string): string {
  if (hanging.length === 2 && showing.length === 0) return `part ${name} : ${type} from ${outside.join(' to ')}`;
  return [`part ${name} : ${type}`, ...hanging.map((lug, i) => `solder ${name}.${lug} to ${itemAt(outside, i)}`)].join('\n');
}

/** The statement taken out, with its line where nothing else stands on it; or other text in its place. */
function replaced(at: Snapshot, statement: GroupStatement, text: string | undefined): TextEdit {
  const range = toRange({ uri: at.uri, ...inFile(statement.line, statement.range) });
  if (text !== undefined) return { range, newText: text };
  const lines = linesOf(at.text);
  const isAlone =
    itemAt(lines, range.start.line).slice(0, range.start.character).trim() === '' &&
    itemAt(lines, range.end.line).slice(range.end.character).trim() === '';
  if (!isAlone || range.end.line + 1 >= lines.length) return { range, newText: '' };
  return {
    range: { start: { line: range.start.line, character: 0 }, end: { line: range.end.line + 1, character: 0 } },
    newText: '',
  };
}

/** Mentions of a lug outside of its group. */
function renamed({ circuit, uri }: Snapshot, { statements }: Group, part: string, name: string, text: string): TextEdit[] {
  const owner = circuit.parts.find((one) => one.name === part);
  const lug = circuit.lugs.find((one) => one.part === owner?.id && one.name === name);
  const isOwn = (line: number): boolean => statements.some((one) => line >= one.line && line <= one.line + one.range.end.line);
  return (lug?.uses ?? [])
    .filter((use) => use.uri === uri && !isOwn(use.start.line))
    .map((use) => ({ range: toRange(use), newText: text }));
}

function unusedName({ parts, types, cavities, plates }: Circuit, wish: string): string {
  const taken = new Set([...parts, ...(types ?? []), ...cavities, ...plates].map(({ name }) => name));
  let name = wish;
  for (let n = 2; taken.has(name); n++) name = `${wish}-${n}`;
  return name;
}
