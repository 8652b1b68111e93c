/** What stands round the soldering: mounting, channels, the string wire, closing. */
import { farEnd, leadEnd, type Channel, type Part } from '../../circuit/model.js';
import type { Build } from '../build.js';
import { plugOf } from '../places/channel-fill.js';
import { spliceLength, type Run } from '../places/runs.js';
import type { Area } from '../places/areas.js';
import type { Places } from '../places/places.js';
import { millimetres } from '../../checks/index.js';
import { lengthText, spliceKind, wireKind } from '../wording.js';
import { splicePieces } from './sleeves.js';
import { REASONS, type RuleName } from './order-reasons.js';
import type { Step } from './plan.js';
import { fromFarthest } from './stages.js';
import type { Spot } from './work.js';
import { listed } from '../../words.js';

export type RoughStep = Omit<Step, 'number'>;

/** A spot that is not soldered: the wire is laid under the bridge or into a post's hole. */
export function isStringSpot({ partAt }: Places, spot: Spot): boolean {
  return partAt(spot.lug).ancestry.includes('bridge-ground');
}

/** Parts put on a plate before anything is soldered there. */
export function mountPlate(build: Build, area: Area): readonly RoughStep[] {
  const parts = build.parts.filter((part) => stands(build, part) && areaKey(part) === area.key && !isInBody(part));
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
export function mountCavity(build: Build, cavity: string | undefined): readonly RoughStep[] {
  if (cavity === undefined) return [];
  const parts = build.parts.filter(
    (part) => stands(build, part) && part.plate === undefined && part.cavity === cavity && part.family !== 'pickup',
  );
  return parts.length === 0
    ? []
    : [step('mount', `mount ${cavity}: ${names(parts)}`, `Mount ${names(parts)} in ${cavity}.`, 'mounted-first')];
}

/** What is cut for the channels; then channels from the farthest; then the leads of pickups that no channel is given for; then the string wire. */
export function threadStage(build: Build, begun: ReadonlyMap<number, unknown>): readonly RoughStep[] {
  const steps: RoughStep[] = [];
  const { runs } = build;
  for (const item of build.work.items) {
    const { run } = item;
    if (begun.has(item.id) || run === undefined || run.ownLead || run.route.channels.length === 0) continue;
    const [kind, length] = [wireKind(build, run), lengthText(item.runs)];
    const text = `Cut ${run.mark} ${kind}, ${length}, and tin both ends. Tag it “${run.mark}”.`;
    const key = `cut ${build.label(run.joint.a)} ${build.label(run.joint.b)} ${kind} ${length}`;
    steps.push({ ...step('cut', key, text, 'thread-first'), item: item.id });
  }
  const channels = fromFarthest(build, build.channels, (channel) => fromFarthest(build, [channel.from, channel.to], (x) => x)[0]);
  for (const channel of channels) {
    const marks = runs.filter((run) => run.route.channels.includes(channel)).map((run) => run.mark);
    const [from, to] = fromFarthest(build, [channel.from, channel.to], (name) => name);
    if (marks.length === 0) continue;
    const plugs = build.parts.filter(
      (part) => plugOf(part) !== undefined && runs.some((run) => passes(build, run, part, channel)),
    );
    const before = plugs.length === 0 ? '' : ` Pull the plug of ${names(plugs)} through first, before the other wires.`;
    const text = `Channel ${from} to ${to}: pull through ${listed(marks)} (${marks.length}).${before}`;
    steps.push({
      ...step('thread', `thread ${channel.from} ${channel.to}: ${endsOf(build, channel)}`, text, 'thread-first'),
      channel,
    });
  }
  const free = runs.filter((run) => run.ownLead && run.route.channels.length === 0);
  if (free.length > 0) {
    const text = `Lay the pickups in loosely and run ${listed(free.map(({ mark }) => mark))} to their lugs.`;
    steps.push(step('thread', 'thread leads', text, 'thread-first'));
  }
  const { items, spot } = build.work;
  for (const item of items) {
    for (const end of item.ends) {
      if (!isStringSpot(build, spot(end.spot))) continue;
      const name = item.run === undefined ? build.label(end.lug) : `${item.run.mark} (${wireKind(build, item.run)})`;
      const text = `${name}: run one end to the bridge, bare 20 mm of it, and lay it where the bridge or a post will press on it (${build.label(end.lug)}).`;
      const key = `lay ${build.label(end.lug)} ${item.ends.map((other) => build.label(other.lug)).join(' ')}`;
      steps.push({ ...step('lay', key, text, 'string-ground'), item: item.id, ends: [end], spot: end.spot });
    }
  }
  return steps;
}

/** Each own lead that is too short is made longer. */
export function spliceSteps(build: Build): readonly RoughStep[] {
  return build.work.items.flatMap(({ id, run }) => {
    if (run === undefined) return [];
    const length = spliceLength(build, run);
    if (length === undefined) return [];
    const end = leadEnd(build, run.joint) ?? run.joint.a;
    const to = build.label(farEnd(run.joint, end));
    const sleeves = splicePieces(build, run);
    const joining =
      sleeves.length > 1
        ? 'solder core to core and slide the short sleeve over it, then screen to screen with the long sleeve over all'
        : 'solder the ends side by side, and slide the sleeve over the joint';
    const text = `Splice ${run.mark}, which is too short: slide on ${sleeves.length} × sleeve, ${joining}. Piece: ${millimetres(length)} of ${spliceKind(build, run)}. Shrink, and tag the free end “${run.mark} ${to}”.`;
    return [{ ...step('splice', `splice ${build.label(end)} ${to} ${millimetres(length)}`, text, 'splice-first'), item: id }];
  });
}

/** Bridge, pickups, plates: what closes the body, after the last solder. */
export function closeStage(build: Build): readonly RoughStep[] {
  const steps: RoughStep[] = [];
  const bridges = build.parts.filter((part) => part.ancestry.includes('bridge-ground'));
  if (bridges.length > 0)
    steps.push(step('seat', 'seat bridge', 'Fit the bridge or its posts over the string-ground wire.', 'string-ground'));
  const pickups = fromFarthest(
    build,
    build.parts.filter((part) => part.family === 'pickup'),
    (part) => part.cavity,
  );
  for (const pickup of pickups) {
    steps.push(
      step('seat', `seat ${pickup.name}`, `Seat ${pickup.name}; keep its leads clear of screws and springs.`, 'thread-first'),
    );
  }
  const plates = fromFarthest(build, build.plates, (plate) => plate.cavity);
  for (const plate of plates)
    steps.push(
      step('close', `close ${plate.name}`, `Screw down plate ${plate.name}; keep wires clear of its edge.`, 'plates-last'),
    );
  if (plates.length === 0)
    steps.push(step('close', 'close', 'Fit the controls and close the body; keep wires clear of the edges.', 'plates-last'));
  return steps;
}

/** The wires of a channel by their ends, for a key that stays while they do. */
function endsOf(build: Build, channel: Channel): string {
  return build.runs
    .filter(({ route }) => route.channels.includes(channel))
    .map(({ joint }) => `${build.label(joint.a)}–${build.label(joint.b)}`)
    .sort()
    .join(' ');
}

function passes(build: Build, { joint, ownLead, route }: Run, part: Part, channel: Channel): boolean {
  if (!ownLead || !route.channels.includes(channel)) return false;
  const end = leadEnd(build, joint);
  return end !== undefined && build.lug(end).part === part.id;
}

function step(kind: Step['kind'], key: string, text: string, rule: RuleName): RoughStep {
  return { kind, key, text, rule, because: REASONS[rule] };
}

/** A part that is fixed somewhere of itself. */
function stands(build: Build, part: Part): boolean {
  if (part.inPlace || part.parent !== undefined || part.family === 'assembly') return false;
  if (part.family === 'cavity' || part.family === 'plate' || part.family === 'screen') return false;
  if (part.ancestry.includes('junction') || part.ancestry.includes('bridge-ground')) return false;
  return part.lugs.length > 0 && build.parts[part.id] === part;
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
