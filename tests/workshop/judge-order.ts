/** Judges a solder order from joints and steps alone: what is where is worked out here anew, from the circuit's joints, plates and cavities. */
import type { Plan, Step } from '../../language/workshop/index.js';
import type { Circuit, LugId } from '../../language/circuit/index.js';

/** A sentence for each rule that is broken. */
export function judgeOrder(circuit: Circuit, plan: Plan): string[] {
  const steps = plan.stages.flatMap((stage) => stage.steps.map((step) => ({ ...step, stage })));
  const text = (lug: LugId): string => circuit.lugs[lug]!.label;
  const partOf = (lug: LugId) => circuit.parts[circuit.lugs[lug]!.part]!;
  const faults: string[] = [];
  const arrival = new Map<string, number>();
  const ends = new Map<string, LugId>();
  steps.forEach((step, at) => {
    for (const end of step.ends ?? []) {
      const name = `${end.item} ${end.side} ${end.lug}`;
      if (arrival.has(name)) faults.push(`${text(end.lug)} gets the same end twice`);
      arrival.set(name, at);
      ends.set(name, end.lug);
    }
  });

  // Lugs that are soldered together: bent onto each other, or the lead of a small part on its host.
  const group = circuit.lugs.map((_, id) => id);
  const find = (lug: number): number => (group[lug] === lug ? lug : find(group[lug]!));
  for (const joint of circuit.joints) if (joint.kind === 'solder') group[find(joint.a)] = find(joint.b);
  const heats = (lug: LugId): number[] =>
    steps.flatMap((step, at) =>
      (step.kind === 'heat' || step.kind === 'lay') &&
      step.spot !== undefined &&
      lugsOf(step).some((other) => find(other) === find(lug))
        ? [at]
        : [],
    );
  function lugsOf(step: Step): LugId[] {
    const named = steps.flatMap((other) => (other.ends ?? []).filter((end) => end.spot === step.spot).map((end) => end.lug));
    return [...new Set(named)];
  }

  // Each wire has both ends soldered, but the end at the part that it comes with.
  for (const joint of circuit.joints) {
    if (joint.kind !== 'wire' && joint.kind !== 'solder' && joint.kind !== 'screen') continue;
    const lugs = [joint.a, joint.b].filter((lug) => {
      const part = partOf(lug);
      const comes =
        part.leads?.some((lead) => lead.lug === lug) === true ||
        (part.family === 'pickup' && (part.leads === undefined || circuit.lugs[lug]!.name === 'shield'));
      return part.family !== 'screen' && !part.inPlace && !(joint.kind === 'wire' && comes);
    });
    for (const lug of lugs)
      if (heats(lug).length === 0) faults.push(`${text(joint.a)} to ${text(joint.b)} is not soldered at ${text(lug)}`);
  }

  // No heat before something has arrived; nothing left unsoldered. On a case (no eyelet there) what is brought is soldered before the next thing is
  // brought, two ends a heat at most; a lug is heated as often as its ends make groups of four. `build { ends 4, case-ends 2 }` are the usual figures.
  const isCase = (lug: LugId): boolean =>
    circuit.lugs.some(
      (other) => find(other.id) === find(lug) && other.metal && ['control', 'plate', 'pickup'].includes(partOf(other.id).family),
    );
  const most = (lug: LugId): number => (isCase(lug) ? (circuit.build?.['case-ends'] ?? 2) : (circuit.build?.ends ?? 4));
  const brings = steps.flatMap((step, at) => (step.kind === 'attach' ? [at] : []));
  const open = new Map<number, number>();
  for (const [name, at] of arrival) {
    const lug = ends.get(name)!;
    const [after] = heats(lug).filter((heat) => heat >= at);
    if (after === undefined) faults.push(`what arrives at ${text(lug)} is left unsoldered`);
    else if (isCase(lug) && brings.some((other) => other > at && other < after))
      faults.push(`something lies loose on ${text(lug)}`);
    if (after !== undefined) open.set(after, (open.get(after) ?? 0) + 1);
    const count = [...ends.values()].filter((other) => find(other) === find(lug)).length;
    const isString = partOf(lug).ancestry.includes('bridge-ground');
    if (!isString && !isCase(lug) && heats(lug).length > Math.ceil(count / most(lug)))
      faults.push(`${text(lug)} is heated ${heats(lug).length} times`);
  }
  // What has come since the heat before: more than one heat in a row shares it out.
  for (const [at, count] of open) {
    const lug = lugsOf(steps[at]!)[0]!;
    let inRow = 1;
    while (steps[at + inRow]?.kind === 'heat' && steps[at + inRow]!.spot === steps[at]!.spot) inRow++;
    if (steps[at]!.kind === 'heat' && count > inRow * most(lug)) faults.push(`${text(lug)} takes ${count} ends in one heat`);
  }

  // A pickup's own metal is joined before the pickup goes into the body.
  const inBody = steps.findIndex(({ stage }) => stage.kind !== 'bench');
  for (const joint of circuit.joints) {
    const parts = [partOf(joint.a), partOf(joint.b)];
    const own = parts[0] === parts[1] && parts[0]!.family === 'pickup' && joint.kind === 'solder';
    if (own && inBody >= 0 && heats(joint.a).some((at) => at > inBody) && heats(joint.a).every((at) => at > inBody))
      faults.push(`${text(joint.a)} is soldered when its pickup is in the body`);
  }

  // Plates at the bench before channels, channels before the body, closing last; farther cavities first.
  const rank = { bench: 0, thread: 1, body: 2, hanging: 3, close: 4 } as const;
  steps.forEach((step, at) => {
    if (at > 0 && rank[step.stage.kind] < rank[steps[at - 1]!.stage.kind])
      faults.push(`step ${step.number} stands in a stage out of turn`);
  });
  const jack = circuit.output === undefined ? undefined : circuit.parts[circuit.output.part]!.cavity;
  const far = (cavity: string | undefined): number => hops(circuit, jack, cavity);
  const cavities = plan.stages.filter(({ kind }) => kind === 'body').map(({ cavity }) => far(cavity));
  if (cavities.some((distance, i) => i > 0 && distance > cavities[i - 1]!))
    faults.push('a farther cavity comes after a nearer one');

  // Ground before signal, among wires that stay inside a plate and among those that leave.
  const root = new Map(circuit.lugs.map(({ id }) => [id, id]));
  const net = (lug: LugId): LugId => (root.get(lug) === lug ? lug : net(root.get(lug)!));
  for (const joint of circuit.joints) root.set(net(joint.a), net(joint.b));
  const isGround = (lug: LugId): boolean => circuit.output !== undefined && net(lug) === net(circuit.output.sleeve);
  for (const stage of plan.stages.filter(({ kind }) => kind === 'bench')) {
    const wires = stage.steps.filter((step) => step.kind === 'attach' && step.text.startsWith('W'));
    const leaves = (step: Step): boolean => step.text.includes('Tag the free end');
    for (const part of [wires.filter((step) => !leaves(step)), wires.filter(leaves)]) {
      const grounds = part.map((step) => (step.ends ?? []).every((end) => isGround(end.lug)));
      if (grounds.some((ground, i) => ground && grounds.slice(0, i).includes(false)))
        faults.push(`${stage.title}: a ground wire after a signal wire`);
    }
    const order = wires.map(leaves);
    if (order.some((leaving, i) => !leaving && order.slice(0, i).includes(true)))
      faults.push(`${stage.title}: inside after leaving`);
  }

  // A switch is not heated twice in a row without being told to cool.
  steps.forEach((step, at) => {
    const last = steps
      .slice(0, at)
      .reverse()
      .find(({ kind }) => kind === 'heat');
    if (step.kind !== 'heat' || last === undefined || last.stage !== step.stage) return;
    const parts = [last, step].map(
      (heat) =>
        new Set(
          lugsOf(heat)
            .map((lug) => partOf(lug))
            .filter((part) => part.family === 'switch'),
        ),
    );
    if ([...parts[0]!].some((part) => parts[1]!.has(part)) && !step.text.includes('cool'))
      faults.push(`step ${step.number} heats the same switch at once`);
  });

  // What lengthens a lead is on it before the lead goes anywhere.
  for (const [at, step] of steps.entries()) {
    const mark = /^Splice (L\d+),/.exec(step.text)?.[1];
    const goes = new RegExp(`(pull through|run) .*\\b${mark ?? ''}\\b|^${mark ?? ''} \\(`);
    if (mark !== undefined && steps.slice(0, at).some(({ text: said }) => goes.test(said)))
      faults.push(`${mark} is spliced too late`);
  }

  // Nothing is soldered after closing; plates after all else.
  const closing = steps.findIndex(({ kind }) => kind === 'seat' || kind === 'close');
  if (closing >= 0 && steps.slice(closing).some(({ kind }) => kind === 'heat' || kind === 'thread' || kind === 'lay'))
    faults.push('solder after closing');
  const plates = steps.findIndex(({ kind }) => kind === 'close');
  if (plates >= 0 && steps.slice(plates).some(({ kind }) => kind !== 'close')) faults.push('something after the plates');
  return faults;
}

/** Channels between two cavities, Infinity where no way leads, −1 where no cavity is said. */
function hops(circuit: Circuit, from: string | undefined, to: string | undefined): number {
  if (to === undefined || from === undefined) return -1;
  let reached = new Set([from]);
  for (let count = 0; count <= circuit.cavities.length; count++) {
    if (reached.has(to)) return count;
    const next = circuit.channels.flatMap((channel) =>
      reached.has(channel.from) ? [channel.to] : reached.has(channel.to) ? [channel.from] : [],
    );
    reached = new Set([...reached, ...next]);
  }
  return Infinity;
}
