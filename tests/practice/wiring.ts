/** Lays out the wires of a node: its lugs in a chain or a tree, then the leads that end there, no lug with more than three wires. */
import { addPart, lug, type Draft, type Lug, type Node, type Part } from './draft.js';
import { isLead } from './ground.js';

/** A run of wire, or a lead, from one lug to another. */
export interface Run {
  readonly from: Lug;
  readonly to: Lug;
}

const mostWires = 3;

/** The runs that make a node one. Leads of parts `inPlace` are soldered straight to their lug and take no room of a wire there. */
export function runsOf(draft: Draft, { lugs }: Node, inPlace: ReadonlySet<Part>): readonly Run[] {
  const bodies = bodiesOf(draft, lugs);
  const leads = lugs.filter((one) => isLead(one) && one !== bodies[0]);
  const runs: Run[] = [];
  const wires = new Map<Lug, number>();
  const hasRoom =
    (most: number) =>
    (body: Lug): boolean =>
      // A board's lug already has a wire.
      body.part.type === 'junction' || (wires.get(body) ?? 0) < (body.part.type === 'tone-board' ? most - 1 : most);
  const put = (from: Lug, to: Lug, isWire: boolean): void => {
    if (isWire) for (const end of [from, to]) wires.set(end, (wires.get(end) ?? 0) + 1);
    runs.push({ from, to });
  };
  bodies.forEach((body, index) => {
    const free = bodies.slice(0, index).filter(hasRoom(mostWires - 1));
    if (free.length > 0) put(draft.dice.percent(80) ? free.at(-1)! : draft.dice.pick(free), body, true);
  });
  for (const lead of leads) {
    const free = bodies.filter(hasRoom(mostWires));
    const near = draft.dice.percent(70) ? free[0] : undefined;
    put(lead, near ?? draft.dice.pick(free.length > 0 ? free : bodies), !inPlace.has(lead.part));
  }
  return runs;
}

/** The lugs that leads may end at: where there is none, one of two leads, or a splice of more. */
function bodiesOf(draft: Draft, lugs: readonly Lug[]): readonly Lug[] {
  const bodies = lugs.filter((one) => !isLead(one));
  if (bodies.length > 0) return bodies;
  if (lugs.length <= 2) return lugs.slice(0, 1);
  return [lug(addPart(draft, 'splice', { type: 'junction', reach: 'single' }), 'point')];
}

/** True where a lug has more wires on it than one solders there. */
export function isCrowded(runs: readonly Run[], inPlace: ReadonlySet<Part>): boolean {
  const wires = new Map<string, number>();
  for (const { from, to } of runs)
    if (!inPlace.has(from.part))
      for (const { part, name } of [from, to]) wires.set(`${part.name}.${name}`, (wires.get(`${part.name}.${name}`) ?? 0) + 1);
  return [...wires].some(([name, count]) => count > mostWires && !/\.(case|frame|sleeve|point|shield|strings)$/.test(name));
}
