/** The cut list and the steps of the solder order that change. */
import type { Joint, LugId } from '../../circuit/model.js';
import { groupBy } from '../../collections.js';
import { cutList, lengthText, solderPlan, type Build, type Run, type Step } from '../../workshop/index.js';
import type { WorkChange } from '../change.js';
import type { Match } from '../match/match.js';
import type { WirePairs } from '../match/pair-wires.js';

/** Wires off the reel whose kind, length or ends change, wire by wire. */
export function compareCuts(before: Build, after: Build, match: Match, { same, moved }: WirePairs): readonly WorkChange[] {
  const [old, now] = [cutsOf(before), cutsOf(after)];
  const partner = new Map<number, number>([
    ...same.map(([a, b]) => [a.id, b.id] as const),
    ...moved.map((pair) => [pair.before.id, pair.after.id] as const),
  ]);
  const found = new Set(partner.values());
  const changes = [...old].flatMap(([joint, was]): WorkChange[] => {
    const is = now.get(partner.get(joint) ?? -1);
    if (is === undefined) return [{ kind: 'gone', says: describeCut(was) }];
    const says = cutChanges(was, is, match);
    return says.length === 0 ? [] : [{ kind: 'changed', says: `${was.from} to ${was.to}: ${says.join(', ')}` }];
  });
  const isNew = (joint: number): boolean => !found.has(joint) || ![...partner].some(([a, b]) => b === joint && old.has(a));
  return [
    ...changes,
    ...[...now].flatMap(([joint, is]): WorkChange[] => (isNew(joint) ? [{ kind: 'new', says: describeCut(is) }] : [])),
  ];
}

/** One stretch of wire, with what it is cut from. */
interface KindOfCut {
  readonly kind: string;
  readonly run: Run;
  readonly from: string;
  readonly to: string;
}

function cutsOf(build: Build): ReadonlyMap<number, KindOfCut> {
  const { label } = build;
  return new Map(
    cutList(build).flatMap(({ kind, cuts }) =>
      cuts
        .flatMap(({ runs }) => runs)
        .map((run) => [run.joint.id, { kind, run, from: label(run.joint.a), to: label(run.joint.b) }] as const),
    ),
  );
}

function describeCut({ kind, run, from, to }: KindOfCut): string {
  return `${kind}, ${from} to ${to}, ${lengthText([run])}`;
}

function cutChanges(was: KindOfCut, is: KindOfCut, { lugs }: Match): readonly string[] {
  const ends = ({ a, b }: Joint, as: (lug: LugId) => LugId | undefined): string =>
    [as(a) ?? -1, as(b) ?? -1].sort((one, other) => one - other).join();
  const isMoved = ends(was.run.joint, (lug) => lugs.to.get(lug)) !== ends(is.run.joint, (lug) => lug);
  const [old, now] = [lengthText([was.run]), lengthText([is.run])];
  return [
    ...(isMoved ? [`now ${is.from} to ${is.to}`] : []),
    ...(was.kind === is.kind ? [] : [`${was.kind} becomes ${is.kind}`]),
    ...(old === now ? [] : [`${old} becomes ${now}`]),
  ];
}

/** Steps that are new, gone or reported otherwise, whatever their number and their wires' marks. */
export function compareSteps(before: Build, after: Build, match: Match): readonly WorkChange[] {
  const waiting = groupBy(
    knownSteps(before, (lug) => match.lugs.to.get(lug), match.renamed),
    ({ key }) => key,
  );
  const changes = knownSteps(
    after,
    (lug) => lug,
    (text) => text,
  ).flatMap((step): WorkChange[] => {
    const earlier = waiting.get(step.key)?.shift();
    if (earlier === undefined) return [{ kind: 'new', says: step.text }];
    return earlier.words === step.words ? [] : [{ kind: 'changed', says: step.text }];
  });
  return [...changes, ...[...waiting.values()].flat().map(({ text }): WorkChange => ({ kind: 'gone', says: text }))];
}

interface Known {
  /** What is done: the kind of step with the ends or the lugs of it. */
  readonly key: string;
  /** Its words without order and numbers. */
  readonly words: string;
  readonly text: string;
}

function knownSteps(build: Build, as: (lug: LugId) => LugId | undefined, renamed: (text: string) => string): readonly Known[] {
  const { item: itemOf, spot: spotOf } = build.work;
  const lugKey = (lug: LugId): string => String(as(lug) ?? `?${build.label(lug)}`);
  const jointKey = ({ a, b }: Joint): string => [lugKey(a), lugKey(b)].sort().join('~');
  const marks = new Map(build.runs.map(({ mark, joint }) => [mark, jointKey(joint)]));
  const keyOf = (step: Step): string => {
    if (step.kind === 'heat' && step.spot !== undefined) return `heat ${spotOf(step.spot).lugs.map(lugKey).sort().join()}`;
    const item = step.item === undefined ? undefined : itemOf(step.item);
    if (item === undefined) return `${step.kind} ${renamed(step.key)}`;
    const joints = item.joints.map(jointKey).sort().join();
    return `${step.kind} ${joints} at ${(step.ends ?? [])
      .map(({ lug }) => lugKey(lug))
      .sort()
      .join()}`;
  };
  const wordsOf = (text: string): string =>
    renamed(text)
      .replace(/\b[WL]\d+\b/g, (mark) => marks.get(mark) ?? mark)
      .replace('Let it cool, then solder', 'Solder')
      .split(/[\s,.:]+/)
      .sort()
      .join(' ');
  return solderPlan(build).stages.flatMap(({ steps }) =>
    steps.map((step) => ({ key: keyOf(step), words: wordsOf(step.text), text: step.text })),
  );
}
