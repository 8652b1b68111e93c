/** Readings behind each stage, from the circuit as far as it is soldered: what must be joined, what it reads, what must not be a short. */
import {
  isMated,
  farEnd,
  isOwnLead,
  leadEnd,
  lugLabel,
  elementById,
  type AnalysedCircuit,
  type Circuit,
  type Joint,
  type LugId,
} from '../../circuit/model.js';
import { groupBy } from '../../collections.js';
import type { Steps } from '../../steps.js';
import { jointClasses, meter, restingSetting } from '../../electrics/index.js';
import { limitText } from '../../intent/index.js';
import type { Build } from '../build.js';
import { builtAfter } from './built.js';
import type { Stage, StageTest } from './plan.js';
import { listed } from '../../words.js';

/** Most that a sound joint reads in ohm, the meter's leads subtracted; common practice. */
export const JOINED = 2;

/** The stages with the tests of each that solders, in steps of one reading each. */
export function* testSteps(build: Build, stages: readonly Stage[]): Steps<Stage[]> {
  const tested: Stage[] = [];
  let before: Circuit | undefined;
  for (const { stage, built } of builtAfter(build, stages)) {
    const earlier = before?.joints.map(({ id }) => id) ?? [];
    before = built;
    yield;
    if (!stage.steps.some((step) => step.kind === 'heat')) {
      tested.push(stage);
      continue;
    }
    const made = yield* testsOf(build, built, earlier);
    const apart = yield* bridges(build, built, stage);
    if (made.tests.length > 0) tested.push({ ...stage, ...made, tests: [...made.tests, ...apart] });
    else tested.push({ ...stage, tests: [...freeEnds(build, stage), ...apart] });
  }
  return tested;
}

function* testsOf(build: Build, partial: AnalysedCircuit, before: readonly number[]): Steps<Pick<Stage, 'tests' | 'setting'>> {
  const old = new Set(before);
  const classes = jointClasses(partial);
  const fresh = partial.joints.filter((joint) => !old.has(joint.id) && joint.kind !== 'inside');
  const byNet = groupBy(fresh, (joint) => classes.of[joint.a]);
  yield;
  const nets = [...byNet.values()].flatMap((mine) => {
    const lugs = probed(build, mine);
    const [first] = lugs;
    if (first === undefined) return [];
    return [{ first, lugs, done: mine.length, isGround: lugs.some(build.isGround) }];
  });
  const grounds = nets.filter(({ isGround }) => isGround).sort((a, b) => b.done - a.done);
  const hot = nets.filter(({ isGround }) => !isGround);
  const tests: StageTest[] = [...grounds, ...hot].flatMap(({ lugs }) => joined(build, lugs));
  tests.push(...(yield* coilTests(build, partial, fresh)));
  const [reference] = grounds;
  if (reference !== undefined)
    tests.push(
      ...(yield* against(
        partial,
        hot.map(({ first }) => first),
        reference.first,
      )),
    );
  return { tests, setting: settingText(build) };
}

/** Where no wire has both its ends yet: each one through to its free end. */
function freeEnds(build: Build, stage: Stage): StageTest[] {
  const { item: itemOf } = build.work;
  return stage.steps.flatMap((step) => {
    const run = step.kind === 'attach' && step.item !== undefined ? itemOf(step.item).run : undefined;
    const end = step.ends?.find(({ side }) => side !== 'screen');
    if (run === undefined || end === undefined || run.ownLead) return [];
    const text = `${build.label(end.lug)} to the free end of ${run.mark}: less than ${JOINED} Ω.`;
    return [{ kind: 'joined' as const, a: end.lug, b: [end.lug], low: 0, high: JOINED, text }];
  });
}

/** Lugs that joints have joined in this stage and that a probe reaches. */
function probed(build: Build, fresh: readonly Joint[]): LugId[] {
  const lugs = new Set(fresh.flatMap((joint) => [joint.a, joint.b]));
  return [...lugs]
    .filter((id) => {
      const part = build.partAt(id);
      const isBuried = part.family === 'pickup' && !build.lug(id).metal;
      return build.lug(id).inner !== true && part.family !== 'screen' && !part.inPlace && !isBuried;
    })
    .sort((a, b) => a - b);
}

function joined(build: Build, lugs: readonly LugId[]): StageTest[] {
  const [a, ...b] = lugs;
  if (a === undefined || b.length === 0) return [];
  const others = listed(b.map((lug) => build.label(lug)));
  const text = `${build.label(a)} to ${others}: less than ${JOINED} Ω${b.length > 1 ? ' each' : ''}.`;
  return [{ kind: 'joined', a, b, low: 0, high: JOINED, text }];
}

/** Nets against ground: what each reads through coils and tracks; those that must be open share one line. */
function* against(partial: AnalysedCircuit, lugs: readonly LugId[], ground: LugId): Steps<StageTest[]> {
  const open: LugId[] = [];
  const tests: StageTest[] = [];
  for (const lug of lugs) {
    yield;
    const { low, high, unknown, ohm } = meter(partial, restingSetting(partial), lug, ground);
    const probes = `${lugLabel(partial, lug)} to ${lugLabel(partial, ground)}`;
    const common = { a: lug, b: [ground], low, high };
    if (unknown) tests.push({ ...common, kind: 'apart', text: `${probes}: no short (a value between them is not known yet).` });
    else if (ohm === null) open.push(lug);
    else if (ohm < JOINED)
      tests.push({ ...common, kind: 'reading', text: `${probes}: less than ${JOINED} Ω with the switches as set.` });
    else tests.push({ ...common, kind: 'reading', text: `${probes}: ${span(low ?? ohm, high ?? ohm)}, never a short.` });
  }
  if (open.length === 0) return tests;
  const text = `${lugLabel(partial, ground)} to ${listed(open.map((lug) => lugLabel(partial, lug)))}: open.`;
  return [...tests, { kind: 'apart', a: ground, b: open, low: null, high: null, text }];
}

/** A pickup whose lead was soldered in this stage: its winding, from where the lead is soldered to its other lead. */
function* coilTests(build: Build, partial: AnalysedCircuit, fresh: readonly Joint[]): Steps<StageTest[]> {
  const done = new Set<number>();
  const tests: StageTest[] = [];
  for (const joint of fresh) {
    const end = isOwnLead(build, joint) ? leadEnd(build, joint) : undefined;
    if (end === undefined) continue;
    const part = build.partAt(end);
    const other = part.lugs.find((lug) => lug !== end && build.lug(lug).metal === false);
    if (other === undefined || done.has(part.id)) continue;
    yield;
    const read = meter(partial, restingSetting(partial), end, other);
    // Where other parts lie across it already, the reading is not the winding's alone.
    if (read.ohm === null || read.ohm < JOINED || read.through.some((id) => elementById(build.circuit, id).part !== part.id))
      continue;
    done.add(part.id);
    const at = farEnd(joint, end);
    const text = `${build.label(at)} to the lead of ${build.label(other)}: ${span(read.low ?? read.ohm, read.high ?? read.ohm)}, the winding of ${part.name}.`;
    tests.push({ kind: 'reading', a: at, b: [other], low: read.low, high: read.high, text });
  }
  return tests;
}

function span(low: number, high: number): string {
  const [from, to] = [limitText(low), limitText(high)];
  return from === to ? from : `${from} to ${to}`;
}

/** Where everything stands while the readings are taken. */
function settingText(build: Build): string {
  const { positions } = restingSetting(build.circuit);
  const switches = build.circuit.switches
    .filter((device) => device.rest === undefined)
    .map((device) => `${device.name} ${device.positions[positions[device.id] ?? 0]?.label ?? '1'}`);
  const pots =
    build.circuit.shafts.length === 0 ? [] : [`pots at ${build.circuit.shafts.every(({ rest }) => rest === 10) ? '10' : 'rest'}`];
  // A jack that switches is read as it stands in use: a plug in it.
  const jacks = build.circuit.switches.filter((device) => device.rest !== undefined && build.part(device.part).family === 'jack');
  const mated = build.circuit.switches
    .filter((device) => isMated(build.circuit, device))
    .map(({ name, positions: all, rest }) => `${name} mated “${all[rest ?? 0]?.label ?? '1'}”`);
  return listed([...switches, ...pots, ...jacks.map(({ name }) => `a plain plug in ${name}`), ...mated]);
}

/** Lugs side by side that this stage has soldered and that must not be bridged by a blob: one line a part. */
function* bridges(build: Build, partial: AnalysedCircuit, stage: Stage): Steps<StageTest[]> {
  const { spot } = build.work;
  const soldered = new Set(
    stage.steps.flatMap((step) => (step.kind === 'heat' && step.spot !== undefined ? spot(step.spot).lugs : [])),
  );
  const nets = jointClasses(build.circuit).of;
  const tests: StageTest[] = [];
  for (const part of build.parts) {
    const neighbours = part.rows
      .flatMap((row) => row.slice(1).map((lug, i) => [row[i], lug] as const))
      .filter((pair): pair is readonly [LugId, LugId] => pair.every((lug) => typeof lug === 'number' && soldered.has(lug)))
      .filter(([a, b]) => nets[a] !== nets[b]);
    const pairs: (readonly [LugId, LugId])[] = [];
    for (const pair of part.inPlace ? [] : neighbours) {
      yield;
      if (isApart(partial, ...pair)) pairs.push(pair);
    }
    const [pair] = pairs;
    if (pair === undefined) continue;
    const text = `No solder bridge between ${listed(pairs.map(([a, b]) => `${build.label(a)} and ${build.lug(b).name}`))}: more than ${JOINED} Ω.`;
    tests.push({ kind: 'apart', a: pair[0], b: [pair[1]], low: JOINED, high: null, text });
  }
  return tests;
}

function isApart(partial: AnalysedCircuit, a: LugId, b: LugId): boolean {
  const { ohm, unknown } = meter(partial, restingSetting(partial), a, b);
  return unknown || ohm === null || ohm > 10 * JOINED;
}
