/** Mistakes made in the text of a correct circuit, one of each that can be: lugs mistaken, wires forgotten, exchanged or too many, parts turned. */
import type { Circuit, Joint, LugId } from '../../../language/circuit/model.js';
import type { Edit, SourceRange } from '../../../language/source.js';

export type MistakeKind =
  | 'lug of the same part'
  | 'lug of a neighbouring part'
  | 'ends exchanged'
  | 'wire left out'
  | 'part turned'
  | 'pickup reversed'
  | 'lugs bridged'
  | 'pair';

export interface Mistake {
  readonly kind: MistakeKind;
  readonly says: string;
  readonly edits: readonly Edit[];
}

/** A lug as one place in the text names it. */
export interface End {
  readonly lug: LugId;
  readonly range: SourceRange;
  /** The other lugs of the runs that end here. */
  readonly others: readonly LugId[];
}

/** Every single mistake, in a fixed order. */
export function singleMistakes(circuit: Circuit): readonly Mistake[] {
  const ends = endsOf(circuit);
  return [
    ...wrongLugs(circuit, ends),
    ...exchanged(circuit, ends),
    ...leftOut(circuit),
    ...turned(circuit, ends),
    ...bridged(circuit),
  ];
}

export function endsOf(circuit: Circuit): readonly End[] {
  const found = new Map<string, { lug: LugId; range: SourceRange; others: LugId[] }>();
  for (const joint of circuit.joints) {
    if (joint.kind !== 'wire' && joint.kind !== 'solder') continue;
    for (const [lug, range, other] of [
      [joint.a, joint.aRange, joint.b],
      [joint.b, joint.bRange, joint.a],
    ] as const) {
      // A part that stands `from … to …` is named there by its own name, which is not a lug to be mistaken.
      const part = circuit.parts[circuit.lugs[lug]!.part]!;
      if (part.inPlace && keyOf(range) === keyOf(part.nameRange)) continue;
      const end = found.get(keyOf(range)) ?? { lug, range, others: [] };
      end.others.push(other);
      found.set(keyOf(range), end);
    }
  }
  return [...found.values()];
}

function keyOf({ uri, start }: SourceRange): string {
  return `${uri}:${start.line}:${start.character}`;
}

export function label(circuit: Circuit, lug: LugId): string {
  return circuit.lugs[lug]!.label;
}

export function nameable(circuit: Circuit, part: number): readonly LugId[] {
  const { parent, family, lugs } = circuit.parts[part]!;
  return parent !== undefined || family === 'screen' ? [] : lugs;
}

export function wrongLugs(circuit: Circuit, ends: readonly End[]): readonly Mistake[] {
  const neighbours = neighboursOf(circuit);
  return ends.flatMap((end) => {
    const own = circuit.lugs[end.lug]!.part;
    const mistake = (kind: MistakeKind, to: LugId): readonly Mistake[] =>
      to === end.lug || end.others.includes(to)
        ? []
        : [
            {
              kind,
              says: `${label(circuit, end.lug)} (to ${end.others.map((lug) => label(circuit, lug)).join(', ')}) is written ${label(circuit, to)}`,
              edits: [{ range: end.range, text: label(circuit, to) }],
            },
          ];
    return [
      ...nameable(circuit, own).flatMap((to) => mistake('lug of the same part', to)),
      ...[...(neighbours.get(own) ?? [])].flatMap((part) =>
        nameable(circuit, part).flatMap((to) => mistake('lug of a neighbouring part', to)),
      ),
    ];
  });
}

/** Parts that a wire or solder joint of the text joins. */
function neighboursOf(circuit: Circuit): ReadonlyMap<number, ReadonlySet<number>> {
  const neighbours = new Map<number, Set<number>>();
  const tie = (from: number, to: number): void =>
    void (neighbours.get(from) ?? neighbours.set(from, new Set()).get(from)!).add(to);
  for (const joint of circuit.joints) {
    if (joint.kind !== 'wire' && joint.kind !== 'solder') continue;
    const [a, b] = [circuit.lugs[joint.a]!.part, circuit.lugs[joint.b]!.part];
    if (a === b) continue;
    tie(a, b);
    tie(b, a);
  }
  return neighbours;
}

/** Two ends on lugs of one part, or the far ends of two leads of one part, at each other's place. */
export function exchanged(circuit: Circuit, ends: readonly End[]): readonly Mistake[] {
  const partOf = (lug: LugId): number => circuit.lugs[lug]!.part;
  return ends.flatMap((one, i) =>
    ends.slice(i + 1).flatMap((other): readonly Mistake[] => {
      if (one.lug === other.lug) return [];
      const near = partOf(one.lug) === partOf(other.lug);
      const far = one.others.some((lug) => other.others.some((far) => far !== lug && partOf(far) === partOf(lug)));
      if (!near && !far) return [];
      return [
        {
          kind: 'ends exchanged',
          says: `${label(circuit, one.lug)} and ${label(circuit, other.lug)} are exchanged (to ${[...one.others, ...other.others].map((lug) => label(circuit, lug)).join(', ')})`,
          edits: [
            { range: one.range, text: label(circuit, other.lug) },
            { range: other.range, text: label(circuit, one.lug) },
          ],
        },
      ];
    }),
  );
}

export function leftOut(circuit: Circuit): readonly Mistake[] {
  const runs = circuit.joints.filter(({ kind }) => kind === 'wire' || kind === 'solder');
  return runs.flatMap((joint): readonly Mistake[] => {
    const others = runs.filter(({ statement }) => statement === joint.statement);
    const edit = cut(circuit, joint, others);
    return edit === undefined
      ? []
      : [{ kind: 'wire left out', says: `${label(circuit, joint.a)} to ${label(circuit, joint.b)} is left out`, edits: [edit] }];
  });
}

/** The statement, or the first or last run of a chain; an inner run cannot be left out without two statements. */
function cut(circuit: Circuit, joint: Joint, runs: readonly Joint[]): Edit | undefined {
  const isLead = [joint.a, joint.b].some((lug) => circuit.parts[circuit.lugs[lug]!.part]!.inPlace) && joint.kind === 'solder';
  if (isLead) return undefined;
  const { uri } = joint.range;
  if (runs.length === 1) return { range: joint.statementRange, text: '' };
  if (runs[0] === joint) return { range: { uri, start: joint.aRange.start, end: joint.bRange.start }, text: '' };
  if (runs.at(-1) === joint) return { range: { uri, start: joint.aRange.end, end: joint.bRange.end }, text: '' };
  return undefined;
}

/** Both leads of a part, or both ends of a track, at each other's place wherever they are named. */
function turned(circuit: Circuit, ends: readonly End[]): readonly Mistake[] {
  return circuit.parts.flatMap((part): readonly Mistake[] => {
    if (part.parent !== undefined) return [];
    const working = part.lugs.filter((lug) => !circuit.lugs[lug]!.metal);
    const tracks = part.elements.map((id) => circuit.elements[id]!).filter((element) => element.kind === 'track');
    const swap = (kind: MistakeKind, pairs: readonly LugPair[]): readonly Mistake[] =>
      swapped(circuit, ends, pairs).map((change) => ({ kind, ...change }));
    if (part.inPlace) {
      const leads = ends.filter(({ others }) => others.some((lug) => circuit.lugs[lug]!.part === part.id));
      const [a, b] = leads;
      return leads.length === 2
        ? [
            {
              kind: 'part turned',
              says: `${part.name} is turned round`,
              edits: [
                { range: a!.range, text: label(circuit, b!.lug) },
                { range: b!.range, text: label(circuit, a!.lug) },
              ],
            },
          ]
        : [];
    }
    if (part.family === 'pickup' && working.length === 2) return swap('pickup reversed', [[working[0]!, working[1]!]]);
    if (part.family === 'passive' && working.length === 2) return swap('part turned', [[working[0]!, working[1]!]]);
    return tracks.length === 0
      ? []
      : swap(
          'part turned',
          tracks.map((track) => [track.a, track.leavesTo ?? track.b]),
        );
  });
}

export type LugPair = readonly [LugId, LugId];

/** The lugs of each pair at each other's place wherever they are named; nothing where none of them is. */
export function swapped(circuit: Circuit, ends: readonly End[], pairs: readonly LugPair[]): readonly Omit<Mistake, 'kind'>[] {
  const edits = pairs.flatMap(([a, b]) =>
    ends
      .filter(({ lug }) => lug === a || lug === b)
      .map(({ lug, range }) => ({ range, text: label(circuit, lug === a ? b : a) })),
  );
  const says = `${pairs.map((pair) => pair.map((lug) => label(circuit, lug)).join(' and ')).join(', ')} are exchanged throughout`;
  return edits.length === 0 ? [] : [{ says, edits }];
}

/** A drop of solder, or a strand of wire, between neighbouring lugs of one part. */
function bridged(circuit: Circuit): readonly Mistake[] {
  const pairs = circuit.parts.flatMap((part) =>
    part.parent !== undefined
      ? []
      : part.rows.flatMap((row, r) =>
          row.flatMap((lug, c): (readonly [LugId, LugId])[] => {
            const beside = [row[c + 1], part.rows[r + 1]?.[c]];
            return beside.flatMap((other): (readonly [LugId, LugId])[] =>
              lug === null || other === null || other === undefined ? [] : [[lug, other]],
            );
          }),
        ),
  );
  const place = lastLine(circuit);
  return pairs.map(([a, b]) => ({
    kind: 'lugs bridged',
    says: `${label(circuit, a)} and ${label(circuit, b)} are bridged`,
    edits: [{ range: place, text: `wire ${label(circuit, a)} to ${label(circuit, b)}\n` }],
  }));
}

/** The beginning of the line of the last wire statement of the circuit's own file. */
export function lastLine(circuit: Circuit): SourceRange {
  const own = circuit.joints.filter((joint) => joint.statementRange.uri === circuit.uri && joint.kind === 'wire');
  const line = Math.max(...own.map(({ statementRange }) => statementRange.start.line));
  const start = { line, character: 0 };
  return { uri: circuit.uri, start, end: start };
}

/** Two mistakes made together; nothing where they are made at one place. */
export function both(one: Mistake, other: Mistake): Mistake | undefined {
  const touches = one.edits.some((a) =>
    other.edits.some((b) => a.range.uri === b.range.uri && a.range.start.line === b.range.start.line),
  );
  return touches ? undefined : { kind: 'pair', says: `${one.says}; ${other.says}`, edits: [...one.edits, ...other.edits] };
}
