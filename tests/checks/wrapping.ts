/** Puts some parts of a circuit into an assembly, with the wires between them, so that the same circuit is written another way. */
import { lugById, partById, type AnalysedCircuit, type Lug, type LugId } from '../../language/circuit/model.js';
import { parseText, type DottedName, type LocalRange, type Statement, type Word } from '../../language/grammar/index.js';
import { circuitOf } from './harness.js';

export interface Wrapped {
  readonly text: string;
  /** The name in the flat circuit of what the wrapped one calls by this name. */
  flatName(name: string): string;
  /** Lugs that wires lead to from both inside and outside: written with an assembly, those end on two lugs. */
  readonly border: ReadonlySet<string>;
}

/** Wires from outside end on lugs of the assembly's own, or on those of the parts inside. */
export type Way = 'pads' | 'straight';

/** The name of the assembly, which no circuit of the tests uses. */
const assembly = 'wrapped-up';

/** The places in the list of statements of those that declare parts which an assembly can hold. */
export function wrappable(text: string): readonly number[] {
  const { statements } = parseText('test:/circuit.lug', text);
  const placed = new Set(statements.flatMap(placedParts));
  return statements.flatMap((statement, index) =>
    statement.kind === 'part' && statement.names.length === 1 && !statement.names.some((word) => placed.has(word.text))
      ? [index]
      : [],
  );
}

/** What a statement names in a place where only parts of the instrument itself can be named. */
function placedParts(statement: Statement): readonly string[] {
  switch (statement.kind) {
    case 'plate':
      return statement.entries.map(({ part }) => part.text);
    case 'place':
      return statement.parts.map(({ text }) => text);
    case 'actual':
      return [statement.name.text];
    default:
      return [];
  }
}

/** The text with the parts of the chosen statements inside one assembly. */
export function wrap(text: string, chosen: readonly number[], ends: Way): Wrapped {
  const circuit = circuitOf(text);
  const { statements } = parseText(circuit.uri, text);
  const inside = new Set(
    chosen.flatMap((index) => {
      const statement = statements[index];
      return statement?.kind === 'part' ? statement.names.map((word) => word.text) : [];
    }),
  );
  const writer = createWriter(text, circuit, inside, ends);
  statements.forEach((statement, index) => {
    if (chosen.includes(index)) writer.putInside(statement, index === Math.min(...chosen));
    else if (isBetween(statement, inside)) writer.moveInside(statement);
    else writer.keep(statement);
  });
  return writer.finish();
}

/** True for a joint that can be made inside: all its ends are there, and it has no screen to connect. */
function isBetween(statement: Statement, inside: ReadonlySet<string>): boolean {
  if (statement.kind !== 'wire' && statement.kind !== 'solder') return false;
  if (statement.kind === 'wire' && (statement.screens.length > 0 || statement.options.some(({ text }) => text === 'shielded')))
    return false;
  return statement.ends.every(({ path }) => inside.has(path[0]?.text ?? ''));
}

interface Writer {
  putInside(statement: Statement, isFirst: boolean): void;
  moveInside(statement: Statement): void;
  keep(statement: Statement): void;
  finish(): Wrapped;
}

function createWriter(text: string, circuit: AnalysedCircuit, inside: ReadonlySet<string>, way: Way): Writer {
  const lines = text.split('\n');
  const starts = lines.reduce<number[]>((all, line) => [...all, (all.at(-1) ?? 0) + line.length + 1], [0]);
  const offset = ({ line }: Statement, { start, end }: LocalRange): readonly [number, number] => [
    (starts[line + start.line] ?? 0) + start.character,
    (starts[line + end.line] ?? 0) + end.character,
  ];
  const [within, without] = [[] as string[], [] as string[]];
  const pads = new Map<LugId, string>();
  const leads = new Map<string, string>();
  const wiredInside = new Set<string>();

  const lugAt = (statement: Statement, { range }: DottedName): Lug | undefined => {
    const line = statement.line + range.start.line;
    return circuit.lugs.find(({ uses }) =>
      uses.some(({ start }) => start.line === line && start.character === range.start.character),
    );
  };
  const padOf = (lug: Lug): string => {
    const pad = pads.get(lug.id) ?? `pad-${pads.size + 1}`;
    pads.set(lug.id, pad);
    return pad;
  };
  /** A lead that goes to something outside leaves the assembly by a separate pad. */
  const leadPad = (part: string, index: number): string => {
    const pad = `lead-${leads.size + 1}`;
    const lug = circuit.parts.find(({ name }) => name === part)?.lugs[index];
    if (lug !== undefined) leads.set(pad, lugById(circuit, lug).label);
    return pad;
  };
  const isInside = ({ path }: DottedName): boolean => inside.has(path[0]?.text ?? '');
  const rewritten = (statement: Statement, changes: readonly (readonly [LocalRange, string])[]): string => {
    const [from, to] = offset(statement, statement.range);
    return [...changes]
      .map(([range, put]) => [...offset(statement, range), put] as const)
      .sort(([a], [b]) => b - a)
      .reduce((now, [a, b, put]) => now.slice(0, a - from) + put + now.slice(b - from), text.slice(from, to));
  };
  const endsOf = (statement: Statement): readonly DottedName[] =>
    statement.kind === 'wire'
      ? [...statement.ends, ...statement.screens]
      : statement.kind === 'solder'
        ? statement.ends
        : statement.kind === 'part' && statement.ends !== undefined
          ? [statement.ends.a, statement.ends.b]
          : [];

  return {
    putInside(statement, isFirst) {
      // The first jack is the output: the assembly takes the place of its first part.
      if (isFirst) without.push(`part ${assembly} : ${assembly}-type`);
      const changes = endsOf(statement).flatMap((end, index) => {
        if (isInside(end) || statement.kind !== 'part') return [];
        const pad = leadPad(statement.names[0]?.text ?? '', index);
        const [from, to] = offset(statement, end.range);
        without.push(`solder ${assembly}.${pad} to ${text.slice(from, to)}`);
        return [[end.range, pad] as const];
      });
      within.push(rewritten(statement, changes));
    },
    moveInside(statement) {
      for (const end of endsOf(statement)) {
        const lug = lugAt(statement, end);
        if (lug !== undefined) wiredInside.add(lug.label);
      }
      within.push(rewritten(statement, []));
    },
    keep(statement) {
      const ends = endsOf(statement);
      const changes =
        ends.length > 0
          ? ends.filter(isInside).flatMap((end) => {
              const lug = lugAt(statement, end);
              return lug === undefined
                ? []
                : [[end.range, way === 'pads' ? `${assembly}.${padOf(lug)}` : `${assembly}.${spelt(circuit, lug.id)}`] as const];
            })
          : mentions(statement)
              .filter(({ text }) => inside.has(text))
              .map(({ range, text }) => [range, `${assembly}.${text}`] as const);
      without.push(rewritten(statement, changes));
    },
    finish() {
      const names = [...pads.values(), ...leads.keys(), 'spare-a', 'spare-b'];
      const body = [
        `optional ${names.join(' ')}`,
        ...within,
        ...[...pads].map(([lug, pad]) => `solder ${spelt(circuit, lug)} to ${pad}`),
      ];
      const wrapped = [
        ...without,
        `type ${assembly}-type : assembly {\n${body.map((line) => `  ${line.replaceAll('\n', '\n  ')}`).join('\n')}\n}`,
      ];
      const labels = new Map<string, string>([
        ...[...pads].map(([lug, pad]) => [`${assembly}.${pad}`, lugById(circuit, lug).label] as const),
        ...[...leads].map(([pad, label]) => [`${assembly}.${pad}`, label] as const),
      ]);
      return {
        text: `${wrapped.join('\n')}\n`,
        // An expected arrangement is one name with several parts in it. A pad is the lug that it represents.
        flatName: (name) =>
          name.replace(
            /wrapped-up(\.[\w-]+)?/g,
            (found) =>
              labels.get(found) ??
              (labels.size === 1 && found === assembly ? [...labels.values()].join('') : found.slice(assembly.length + 1)),
          ),
        border: new Set([...pads.keys()].map((lug) => lugById(circuit, lug).label).filter((label) => wiredInside.has(label))),
      };
    },
  };
}

function spelt(circuit: AnalysedCircuit, id: LugId): string {
  const { part, name } = lugById(circuit, id);
  return `${partById(circuit, part).name}.${name}`;
}

/** The first words of all dotted names in a statement that is not a joint. */
function mentions(statement: Statement): readonly Word[] {
  const found: Word[] = [];
  const visit = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    if ('path' in node && Array.isArray(node.path)) found.push(...(node.path as readonly Word[]).slice(0, 1));
    else Object.values(node).forEach(visit);
  };
  if (statement.kind !== 'type') visit(statement);
  return found;
}
