/** Findings that are set aside: `allow` lines that are new, gone, reworded, or that hide more than before. */
import type { Allow, AnalysedCircuit } from '../../circuit/model.js';
import { append } from '../../collections.js';
import type { SetAside } from '../../checks/index.js';
import type { Finding } from '../../source.js';
import { counted } from '../../circuit/index.js';
import { identityOf } from '../../claim.js';
import type { AllowChange } from '../change.js';
import type { Match } from '../match/match.js';

/** What `allow` lines set aside in one circuit. */
export interface Aside {
  readonly findings: readonly Finding[];
  readonly by: ReadonlyMap<Allow, readonly Finding[]>;
}

export function asideOf(found: readonly SetAside[]): Aside {
  const by = new Map<Allow, Finding[]>();
  for (const { allow, finding } of found) append(by, allow, finding);
  return { findings: found.map(({ finding }) => finding), by };
}

/** An `allow` is recognised by its rule and by what it is about. One that is only reworded hides no more than before. */
export function compareAllows(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  [old, now]: readonly [Aside, Aside],
  { renamed }: Match,
): readonly AllowChange[] {
  const keyOf = ({ rule, on }: Allow, as: (text: string) => string = (text) => text): string =>
    `${rule} ${on === undefined ? '' : as(on)}`;
  const waiting = new Map<string, Allow[]>();
  for (const allow of before.allows) append(waiting, keyOf(allow, renamed), allow);
  const changes = after.allows.flatMap((allow): AllowChange[] => {
    const earlier = waiting.get(keyOf(allow))?.shift();
    const known = new Set(
      [...(earlier === undefined ? [] : (old.by.get(earlier) ?? []))].map(({ claim }) => identityOf(claim, renamed)),
    );
    const hides = (now.by.get(allow) ?? []).filter(({ claim }) => !known.has(identityOf(claim)));
    const places = { ...(earlier === undefined ? {} : { before: earlier.range }), after: allow.range };
    const name = written(allow);
    if (earlier === undefined) {
      const says = `new: ${name} “${allow.why}” ${hides.length === 0 ? 'sets nothing aside' : `sets aside: ${sayAll(hides)}`}`;
      return [{ ...item('new', allow, hides), says, ...places }];
    }
    const words = earlier.why === allow.why ? [] : [`the reason “${earlier.why}” becomes “${allow.why}”`];
    const more = hides.length === 0 ? [] : [`it now also sets aside: ${sayAll(hides)}`];
    if (words.length + more.length === 0) return [];
    return [{ ...item('changed', allow, hides), says: `${name}: ${[...words, ...more].join('; ')}`, ...places }];
  });
  const gone = [...waiting.values()].flat().map((allow): AllowChange => ({
    ...item('gone', allow, []),
    says: `gone: ${written(allow)} “${allow.why}”`,
    before: allow.range,
  }));
  return [...changes, ...gone];
}

function item(kind: AllowChange['kind'], { rule, on, why }: Allow, hides: readonly Finding[]): Omit<AllowChange, 'says'> {
  return {
    kind,
    rule,
    ...(on === undefined ? {} : { on }),
    why,
    hides: hides.map(({ severity, message }) => ({ severity, message })),
  };
}

function written({ rule, on }: Allow): string {
  return `allow ${rule}${on === undefined ? '' : ` on ${on}`}`;
}

function sayAll(findings: readonly Finding[]): string {
  const shown = findings.slice(0, 3).map(({ severity, message }) => `${severity}, ${message}`);
  const more = findings.length - shown.length;
  return `${shown.join('; ')}${more === 0 ? '' : `; and ${counted(more, 'more finding')}`}`;
}
