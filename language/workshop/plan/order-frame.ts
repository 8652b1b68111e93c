/** What stands round the soldering: mounting, channels, the string wire, closing. */
import { type AnalysedCircuit, listed } from '../../circuit/index.js';
import { lugLabel, type Channel, type Circuit, lugById, type Part, partOfLug } from '../../circuit/model.js';
import { plugOf } from '../places/channel-fill.js';
import { type Run, runsOf } from '../places/runs.js';
import { type Area, isOwnLead, leadEnd } from '../places/places.js';
import { runLength, wireKind } from '../wording.js';
import { REASONS, type RuleName } from './order-reasons.js';
import type { Step } from './plan.js';
import { fromFarthest } from './stages.js';
import { type Spot, workOf } from './work.js';

export type RoughStep = Omit<Step, 'number'>;

/** A spot that is not soldered: the wire is laid under the bridge or into a post's hole. */
export function isStringSpot(circuit: Circuit, spot: Spot): boolean {
  return partOfLug(circuit, spot.lug).ancestry.includes('bridge-ground');
}

/** Parts put on a plate before anything is soldered there. */
export function mountPlate(circuit: Circuit, area: Area): readonly RoughStep[] {
  const parts = circuit.parts.filter((part) => stands(circuit, part) && areaKey(part) === area.key && !isInBody(part));
  if (parts.length === 0) return [];
  const where = area.kind === 'plate' ? `on plate ${area.name}` : 'on the plate, or on a board with the same holes';
  return [
    step(
      'mount',
      `mount ${area.name}: ${names(parts)}`,
      `Mount ${names(parts)} ${where}. Scrape or sand each case where it will be soldered.`,
      'mounted-first',
    ),
  ];
}

/** What stands in a cavity by itself: a ground point, a jack. Pickups are seated when the cavity is closed. */
export function mountCavity(circuit: Circuit, cavity: string | undefined): readonly RoughStep[] {
  if (cavity === undefined) return [];
  const parts = circuit.parts.filter(
    (part) => stands(circuit, part) && part.plate === undefined && part.cavity === cavity && part.family !== 'pickup',
  );
  return parts.length === 0
    ? []
    : [step('mount', `mount ${cavity}: ${names(parts)}`, `Mount ${names(parts)} in ${cavity}.`, 'mounted-first')];
}

/** What is cut for the channels; then channels from the farthest; then the leads of pickups that no channel is given for; then the string wire. */
export function threadStage(circuit: AnalysedCircuit, begun: ReadonlyMap<number, unknown>): readonly RoughStep[] {
  const steps: RoughStep[] = [];
  const runs = runsOf(circuit);
  for (const item of workOf(circuit).items) {
    const { run } = item;
    if (begun.has(item.id) || run === undefined || run.ownLead || run.route.channels.length === 0) continue;
    const text = `Cut ${run.mark} ${wireKind(circuit, run)}, ${runLength(run)}, and tin both ends. Tag it “${run.mark}”.`;
    const key = `cut ${lugLabel(circuit, run.joint.a)} ${lugLabel(circuit, run.joint.b)} ${wireKind(circuit, run)} ${runLength(run)}`;
    steps.push({ ...step('cut', key, text, 'thread-first'), item: item.id });
  }
  const channels = fromFarthest(
    circuit,
    circuit.channels,
    (channel) => fromFarthest(circuit, [channel.from, channel.to], (x) => x)[0],
  );
  for (const channel of channels) {
    const marks = runs.filter((run) => run.route.channels.includes(channel)).map((run) => run.mark);
    const [from, to] = fromFarthest(circuit, [channel.from, channel.to], (name) => name);
    if (marks.length === 0) continue;
    const plugs = circuit.parts.filter(
      (part) => plugOf(circuit, part.id) !== undefined && runs.some((run) => passes(circuit, run, part, channel)),
    );
    const before = plugs.length === 0 ? '' : ` Pull the plug of ${names(plugs)} through first, before the other wires.`;
    const text = `Channel ${from} to ${to}: pull through ${listed(marks)} (${marks.length}).${before}`;
    steps.push({
      ...step('thread', `thread ${channel.from} ${channel.to}: ${endsOf(circuit, channel)}`, text, 'thread-first'),
      channel,
    });
  }
  const free = runs.filter((run) => isOwnLead(circuit, run.joint) && run.route.channels.length === 0);
  if (free.length > 0) {
    const text = `Lay the pickups in loosely and run ${listed(free.map(({ mark }) => mark))} to their lugs.`;
    steps.push(step('thread', 'thread leads', text, 'thread-first'));
  }
  const { items, spot } = workOf(circuit);
  for (const item of items) {
    for (const end of item.ends) {
      if (!isStringSpot(circuit, spot(end.spot))) continue;
      const name = item.run === undefined ? lugLabel(circuit, end.lug) : `${item.run.mark} (${wireKind(circuit, item.run)})`;
      const text = `${name}: run one end to the bridge, bare 20 mm of it, and lay it where the bridge or a post will press on it (${lugLabel(circuit, end.lug)}).`;
      const key = `lay ${lugLabel(circuit, end.lug)} ${item.ends.map((other) => lugLabel(circuit, other.lug)).join(' ')}`;
      steps.push({ ...step('lay', key, text, 'string-ground'), item: item.id, ends: [end], spot: end.spot });
    }
  }
  return steps;
}

/** Bridge, pickups, plates: what closes the body, after the last solder. */
export function closeStage(circuit: AnalysedCircuit): readonly RoughStep[] {
  const steps: RoughStep[] = [];
  const bridges = circuit.parts.filter((part) => part.ancestry.includes('bridge-ground'));
  if (bridges.length > 0)
    steps.push(step('seat', 'seat bridge', 'Fit the bridge or its posts over the string-ground wire.', 'string-ground'));
  const pickups = fromFarthest(
    circuit,
    circuit.parts.filter((part) => part.family === 'pickup'),
    (part) => part.cavity,
  );
  for (const pickup of pickups) {
    steps.push(
      step('seat', `seat ${pickup.name}`, `Seat ${pickup.name}; keep its leads clear of screws and springs.`, 'thread-first'),
    );
  }
  const plates = fromFarthest(circuit, circuit.plates, (plate) => plate.cavity);
  for (const plate of plates)
    steps.push(
      step('close', `close ${plate.name}`, `Screw down plate ${plate.name}; keep wires clear of its edge.`, 'plates-last'),
    );
  if (plates.length === 0)
    steps.push(step('close', 'close', 'Fit the controls and close the body; keep wires clear of the edges.', 'plates-last'));
  return steps;
}

/** The wires of a channel by their ends, for a key that stays while they do. */
function endsOf(circuit: AnalysedCircuit, channel: Channel): string {
  return runsOf(circuit)
    .filter(({ route }) => route.channels.includes(channel))
    .map(({ joint }) => `${lugLabel(circuit, joint.a)}–${lugLabel(circuit, joint.b)}`)
    .sort()
    .join(' ');
}

function passes(circuit: Circuit, { joint, ownLead, route }: Run, part: Part, channel: Channel): boolean {
  if (!ownLead || !route.channels.includes(channel)) return false;
  const end = leadEnd(circuit, joint);
  return end !== undefined && lugById(circuit, end).part === part.id;
}

function step(kind: Step['kind'], key: string, text: string, rule: RuleName): RoughStep {
  return { kind, key, text, rule, because: REASONS[rule] };
}

/** A part that is fixed somewhere of itself. */
function stands(circuit: Circuit, part: Part): boolean {
  if (part.inPlace || part.parent !== undefined || part.family === 'assembly') return false;
  if (part.family === 'cavity' || part.family === 'plate' || part.family === 'screen') return false;
  if (part.ancestry.includes('junction') || part.ancestry.includes('bridge-ground')) return false;
  return part.lugs.length > 0 && circuit.parts[part.id] === part;
}

function areaKey(part: Part): string {
  return part.plate !== undefined ? `plate ${part.plate}` : part.cavity !== undefined ? `cavity ${part.cavity}` : 'controls';
}

function isInBody(part: Part): boolean {
  return part.family === 'pickup' || part.ancestry.includes('battery');
}

function names(parts: readonly Part[]): string {
  return listed(parts.map(({ name }) => name));
}
