/** Readings behind each stage, from the circuit as far as it is soldered: what must be joined, what it reads, what must not be a short. */
import type { Circuit, Joint, LugId } from '../circuit/model.js';
import { jointClasses, meter, restingSetting } from '../electrics/index.js';
import { ohmText } from '../intent/index.js';
import { builtAfter } from './built.js';
import type { Stage, StageTest } from './plan.js';
import { label, listed } from './say.js';

/** Most that a sound joint reads in ohm, the meter's leads subtracted; common practice. */
export const JOINED = 2;

/** Fills in the tests of each stage that solders. */
export function withTests(circuit: Circuit, stages: readonly Stage[]): Stage[] {
  const built = builtAfter(circuit, stages);
  return stages.map((stage, i) => {
    if (!stage.steps.some((step) => step.kind === 'heat')) return stage;
    return { ...stage, ...testsOf(circuit, built[i]!, i === 0 ? [] : built[i - 1]!.joints.map(({ id }) => id)) };
  });
}

function testsOf(circuit: Circuit, partial: Circuit, before: readonly number[]): Pick<Stage, 'tests' | 'setting'> {
  const old = new Set(before);
  const classes = jointClasses(partial);
  const whole = jointClasses(circuit);
  const groundOf = circuit.output === undefined ? -1 : whole.of[circuit.output.sleeve]!;
  const fresh = partial.joints.filter((joint) => !old.has(joint.id) && joint.kind !== 'inside');
  const nets = [...new Set(fresh.map((joint) => classes.of[joint.a]!))].map((net) => {
    const mine = fresh.filter((joint) => classes.of[joint.a] === net);
    const lugs = probed(partial, mine);
    const done = mine.length;
    return { net, lugs, done, isGround: lugs.some((lug) => whole.of[lug] === groundOf) };
  });
  const grounds = nets.filter(({ isGround, lugs }) => isGround && lugs.length > 0).sort((a, b) => b.done - a.done);
  const hot = nets.filter(({ isGround, lugs }) => !isGround && lugs.length > 0);
  const tests: StageTest[] = [...grounds, ...hot].flatMap(({ lugs }) => joined(circuit, lugs));
  const reference = grounds[0]?.lugs[0];
  if (reference !== undefined) tests.push(...hot.map(({ lugs }) => against(partial, lugs[0]!, reference)));
  tests.push(
    ...pairs(
      partial,
      hot.map(({ lugs }) => lugs[0]!),
    ),
  );
  return { tests, setting: settingText(circuit) };
}

/** Lugs that joints have joined in this stage and that a probe reaches. */
function probed(circuit: Circuit, fresh: readonly Joint[]): LugId[] {
  const lugs = new Set(fresh.flatMap((joint) => [joint.a, joint.b]));
  return [...lugs]
    .filter((id) => {
      const part = circuit.parts[circuit.lugs[id]!.part]!;
      return circuit.lugs[id]!.inner !== true && part.family !== 'screen' && !part.inPlace;
    })
    .sort((a, b) => a - b);
}

function joined(circuit: Circuit, lugs: readonly LugId[]): StageTest[] {
  const [a, ...b] = lugs;
  if (a === undefined || b.length === 0) return [];
  const others = listed(b.map((lug) => label(circuit, lug)));
  const text = `One probe on ${label(circuit, a)}, the other on ${others}: under ${JOINED} Ω${b.length > 1 ? ' each' : ''}.`;
  return [{ kind: 'joined', a, b, low: 0, high: JOINED, text }];
}

/** A net against ground: what it reads through coils and tracks, or that nothing joins them. */
function against(partial: Circuit, a: LugId, b: LugId): StageTest {
  const { low, high, unknown, ohm } = meter(partial, restingSetting(partial), a, b);
  const probes = `${label(partial, a)} to ${label(partial, b)}`;
  if (unknown)
    return {
      kind: 'apart',
      a,
      b: [b],
      low: null,
      high: null,
      text: `${probes}: no short (a value on the way is not known yet).`,
    };
  if (ohm === null)
    return {
      kind: 'apart',
      a,
      b: [b],
      low: null,
      high: null,
      text: `${probes}: open. A reading is a short or a wire on the wrong lug.`,
    };
  if (ohm < JOINED) return { kind: 'reading', a, b: [b], low, high, text: `${probes}: under ${JOINED} Ω in this setting.` };
  const span = ohmText(low!) === ohmText(high!) ? ohmText(low!) : `${ohmText(low!)} to ${ohmText(high!)}`;
  return { kind: 'reading', a, b: [b], low, high, text: `${probes}: ${span}, never a short.` };
}

/** Nets that must not touch each other where nothing joins them in this setting: neighbours in order, each against the next. */
function pairs(partial: Circuit, lugs: readonly LugId[]): StageTest[] {
  return lugs.slice(1).flatMap((b, i) => {
    const a = lugs[i]!;
    const { ohm } = meter(partial, restingSetting(partial), a, b);
    if (ohm !== null) return [];
    return [
      { kind: 'apart' as const, a, b: [b], low: null, high: null, text: `${label(partial, a)} to ${label(partial, b)}: open.` },
    ];
  });
}

/** Where everything stands while the readings are taken. */
function settingText(circuit: Circuit): string {
  const { positions } = restingSetting(circuit);
  const switches = circuit.switches
    .filter((device) => device.rest === undefined)
    .map((device) => `${device.name} ${device.positions[positions[device.id]!]?.label ?? '1'}`);
  const pots = circuit.shafts.length === 0 ? [] : [`pots at ${circuit.shafts.every(({ rest }) => rest === 10) ? '10' : 'rest'}`];
  return listed([...switches, ...pots]);
}
