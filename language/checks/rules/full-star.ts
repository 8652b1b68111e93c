/** More ends on a star than it holds. */
import { figure, type Figure } from '../../claim.js';
import { farEnd, formOf, lugById, partOfLug, type Joint, type Lug, type LugId, type Part } from '../../circuit/model.js';
import { firstOf } from '../../collections.js';
import { type Facts, lugLabel, placeOfJoint, placeOfPart } from '../facts/index.js';
import { defineRule, type Report } from '../rule.js';
import type { Edit, Fix, Statement } from '../../source.js';

/** Common practice: strips of up to eight tags are usual, and a cavity has room for no longer one. */
const mostTags = 8;

interface Claim extends Statement {
  /** Whether the text says how many the star holds, or the usual number is taken. */
  readonly kind: 'said' | 'usual';
  readonly subjects: { readonly star: string };
  readonly figures: { readonly ends: Figure; readonly holds: Figure };
}

export const fullStar = defineRule<Claim>({
  id: 'full-star',
  severity: 'warning',
  summary: 'more ends on a star than it holds',
  describe: ({ kind, subjects: { star }, figures: { ends, holds } }) =>
    kind === 'said'
      ? `${ends.value} ends come to ${star}, which holds ${holds.value}`
      : `${ends.value} ends come to ${star}; a usual ring or solder lug holds ${holds.value}`,
  check(facts): readonly Report<Claim>[] {
    const { circuit } = facts;
    return circuit.parts
      .filter(({ ancestry }) => ancestry.includes('star'))
      .flatMap((part) => part.lugs.map((id) => lugById(circuit, id)).flatMap((lug) => reportOn(facts, part, lug)));
  },
});

function reportOn(facts: Facts, part: Part, lug: Lug): readonly Report<Claim>[] {
  const { holds } = part.properties;
  if (holds === undefined || !('value' in holds) || !holds.known) return [];
  const here = endsAt(facts, lug);
  const ends = endsOn(here);
  if (ends <= holds.value) return [];
  const isSaid = holds.range !== undefined;
  return [
    {
      ...(isSaid ? {} : { severity: 'info' as const }),
      claim: {
        kind: isSaid ? 'said' : 'usual',
        subjects: { star: lug.label },
        figures: { ends: figure(ends, 'count'), holds: figure(holds.value, 'count') },
      },
      why: 'A heat for a late end melts the early ones, and a joint under the others can’t be seen. Chain some of the metal through a case that has its wire to the star, put a second ring or a tag strip beside it, or say how many it holds.',
      range: placeOfPart(facts.circuit, part.id),
      related: here.map((joint) => ({
        message: `end from ${lugLabel(facts.circuit, awayFrom(facts, joint, lug))}`,
        range: placeOfJoint(facts.circuit, joint),
      })),
      subjects: [lug.label],
      fixes: fixesFor(facts, part, lug, { here, ends, holds: holds.value, isSaid }),
    },
  ];
}

/** What ends on the star; on a lug of its assembly that is soldered to it, it is that lug to whoever wires it. */
function endsAt({ joined, circuit }: Facts, { id }: Lug): readonly Joint[] {
  const isPad = (joint: Joint): boolean =>
    formOf(joint) === 'solder' && partOfLug(circuit, id).parent === lugById(circuit, farEnd(joint, id)).part;
  return joined
    .at(id)
    .filter(({ kind }) => kind !== 'touch')
    .flatMap((joint) => (isPad(joint) ? joined.at(farEnd(joint, id)).filter((other) => other !== joint) : [joint]));
}

/** The end of a joint that is neither on the star nor on its assembly's lug. */
function awayFrom({ circuit }: Facts, { a, b }: Joint, { id }: Lug): LugId {
  const isHere = a === id || lugById(circuit, a).part === partOfLug(circuit, id).parent;
  return isHere ? b : a;
}

/** How many ends the iron meets there: bare wire of one statement passes through in one piece. */
function endsOn(here: readonly Joint[]): number {
  const keys = here.map((joint) => (formOf(joint) === 'wire' && joint.bare ? `piece ${joint.statement}` : `joint ${joint.id}`));
  return new Set(keys).size;
}

interface Fullness {
  readonly here: readonly Joint[];
  readonly ends: number;
  readonly holds: number;
  readonly isSaid: boolean;
}

function fixesFor(facts: Facts, part: Part, lug: Lug, full: Fullness): readonly Fix[] {
  const { circuit } = facts;
  if (part.parent !== undefined || part.range.uri !== circuit.uri) return [];
  const own = full.here.filter((joint) => isMovable(facts, joint, lug));
  const beside = own.filter((joint) => !isWayOut(facts, joint)).slice(-(full.ends - full.holds + 1));
  return [
    ...chainFix(facts, lug, own, full),
    ...secondFix(facts, part, lug, beside, full),
    ...stripFix(facts, part, lug, beside, full),
    ...sayFix(part, full),
  ];
}

/** A wire or lead of one run, written in the circuit's own text. */
function isMovable({ circuit }: Facts, joint: Joint, lug: Lug): boolean {
  return (
    joint.kind === 'wire' &&
    !joint.bare &&
    joint.statementRange.uri === circuit.uri &&
    circuit.joints.every((other) => other.id === joint.id || other.statement !== joint.statement) &&
    farEnd(joint, lug.id) !== lug.id
  );
}

/** Wires from metal beside a case that has its wire to the star end on that case instead. */
function chainFix(facts: Facts, lug: Lug, own: readonly Joint[], { ends, holds }: Fullness): readonly Fix[] {
  const { circuit } = facts;
  const away = own.filter(({ ownLead }) => !ownLead);
  const homeOf = (joint: Joint): string | undefined => {
    const { plate, cavity } = partOfLug(circuit, farEnd(joint, lug.id));
    return plate ?? cavity;
  };
  const hosts = away
    .map((joint) => ({ joint, host: lugById(circuit, farEnd(joint, lug.id)) }))
    .filter(({ host }) => host.takesMany && partOfLug(circuit, host.id).family === 'control');
  for (const { joint, host } of hosts) {
    const near = away.filter((other) => other !== joint && homeOf(other) === homeOf(joint) && !isWayOut(facts, other));
    const moved = near.slice(0, ends - holds);
    if (moved.length < ends - holds) continue;
    return [
      {
        title: `chain ${endCount(moved.length)} through ${host.label}, which has its wire to ${lug.label}`,
        edits: moved.map((other) => endMoved(other, lug, host.label)),
        confidence: 'possible',
      },
    ];
  }
  return [];
}

/** The wire to the jack stays on the star. */
function isWayOut({ circuit }: Facts, { a, b }: Joint): boolean {
  return circuit.output !== undefined && [a, b].includes(circuit.output.sleeve);
}

/** Lines written above the first of the ends that move: what is put beside the star, where it lies, and what joins it to the star. */
function besideFix(
  moves: readonly { readonly joint: Joint; readonly to: string }[],
  lug: Lug,
  title: string,
  lines: readonly string[],
): Fix {
  const { uri, start } = firstOf(moves).joint.statementRange;
  const above = { line: start.line, character: 0 };
  return {
    title: `${title}, and move ${endCount(moves.length)} to it`,
    edits: [
      { range: { uri, start: above, end: above }, text: lines.map((line) => `${line}\n`).join('') },
      ...moves.map(({ joint, to }) => endMoved(joint, lug, to)),
    ],
    confidence: 'possible',
  };
}

/** It lies in the star's cavity, where the text says one. */
function placing({ cavity }: Part, name: string): readonly string[] {
  return cavity === undefined ? [] : [`place ${name} in ${cavity}`];
}

/** A second star takes the last ends, and one wire joins it to the first star. */
function secondFix(
  facts: Facts,
  part: Part,
  lug: Lug,
  moved: readonly Joint[],
  { ends, holds, isSaid }: Fullness,
): readonly Fix[] {
  if (moved.length < ends - holds + 1 || moved.length + 1 > holds) return [];
  const name = freeName(facts, part.name, 2);
  const declared = `part ${name} : star${isSaid ? ` { holds ${holds} }` : ''}`;
  const moves = moved.map((joint) => ({ joint, to: name }));
  return [
    besideFix(moves, lug, `add a second star, ${name}`, [declared, ...placing(part, name), `wire ${name} to ${lug.label} black`]),
  ];
}

/** A tag strip takes the last ends, one on each tag; one bare wire through all the tags joins them to the star. */
function stripFix(facts: Facts, part: Part, lug: Lug, moved: readonly Joint[], { ends, holds }: Fullness): readonly Fix[] {
  if (moved.length < ends - holds + 1 || moved.length > mostTags) return [];
  const name = freeName(facts, `${part.name}-strip`, 1);
  const moves = moved.map((joint, index) => ({ joint, to: `${name}.${index + 1}` }));
  const bus = [...moves.map(({ to }) => to), lug.label].join(' to ');
  return [
    besideFix(moves, lug, `add a tag strip, ${name}`, [`part ${name} : tag-strip`, ...placing(part, name), `wire ${bus} bare`]),
  ];
}

/** Where the usual number was taken, the text can say the true one. */
function sayFix({ typeRange, range }: Part, { ends, isSaid }: Fullness): readonly Fix[] {
  // Behind a type that is the end of its statement there is no brace yet.
  const isLast =
    typeRange !== undefined && typeRange.end.line === range.end.line && typeRange.end.character === range.end.character;
  if (isSaid || !isLast) return [];
  const at = { uri: typeRange.uri, start: typeRange.end, end: typeRange.end };
  return [
    {
      title: `say that it holds ${ends}, if it does`,
      edits: [{ range: at, text: ` { holds ${ends} }` }],
      confidence: 'possible',
    },
  ];
}

function endCount(count: number): string {
  return count === 1 ? '1 end' : `${count} ends`;
}

function endMoved(joint: Joint, lug: Lug, text: string): Edit {
  return { range: joint.a === lug.id ? joint.aRange : joint.bRange, text };
}

/** The first of these names, `centre-strip`, `centre-strip-2` …, that no part bears. */
function freeName({ circuit }: Facts, stem: string, from: 1 | 2): string {
  const taken = new Set(circuit.parts.map((part) => part.name));
  for (let n: number = from; ; n++) {
    const name = n === 1 ? stem : `${stem}-${n}`;
    if (!taken.has(name)) return name;
  }
}
