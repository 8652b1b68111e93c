/** The part of a diagram that lies on one plate or in one cavity; a wire that leaves it ends in a mark that says where it goes. */
import { itemAt } from '../../collections.js';
import type { Circuit } from '../../circuit/model.js';
import type { Diagram, DiagramPart, DiagramRun } from './diagram.js';
import { byId } from './order.js';

/** Names of the plates and cavities that hold something, in the order of the text: what a drawing can be cropped to. */
export function placeNames(circuit: Circuit): string[] {
  const held = new Set(circuit.parts.flatMap(({ plate, cavity }) => [plate, cavity]));
  const plates = circuit.plates.filter(({ name }) => held.has(name));
  const around = new Set(plates.map(({ cavity }) => cavity));
  const cavities = circuit.cavities.filter(({ name }) => held.has(name) || around.has(name));
  return [...new Set([...plates, ...cavities].map(({ name }) => name))];
}

/** What is in the plate or cavity of that name; a plate goes before a cavity. */
export function cropped(diagram: Diagram, name: string): Diagram {
  const root = [`plate:${name}`, `cavity:${name}`].find((id) => diagram.groups.some((group) => group.id === id));
  const inside = new Set(diagram.groups.filter(({ id }) => id === root || isWithin(diagram, id, root)).map(({ id }) => id));
  const parts = diagram.parts.filter(({ group }) => group !== undefined && inside.has(group));
  const lugs = new Set(parts.flatMap(lugIds));
  const kept = diagram.runs.filter((run) => lugs.has(run.to) && (run.kind === 'screen' || lugs.has(run.from)));
  const whole = new Set(kept.filter(({ kind }) => kind !== 'screen').map(({ id }) => id));
  const leaving = diagram.runs.flatMap((run) => stubOf(diagram, run, lugs, whole));
  const marks = leaving.map(({ mark, lug }): DiagramPart => {
    const group = parts.find((part) => lugIds(part).includes(lug))?.group;
    return { ...mark, ...(group === undefined ? {} : { group }) };
  });
  return {
    ...diagram,
    subtitle: [root?.replace(':', ' ') ?? name, diagram.subtitle].filter((text) => text !== '').join(': '),
    parts: [...parts, ...marks].sort(byId),
    runs: [...kept.filter((run) => run.kind !== 'screen' || whole.has(run.from)), ...leaving.map(({ run }) => run)].sort(byId),
    groups: diagram.groups
      .filter(({ id }) => inside.has(id))
      .map((group) => {
        const { parent, ...rest } = group;
        return parent !== undefined && inside.has(parent) ? group : rest;
      }),
    channels: diagram.channels.filter(({ from, to }) => inside.has(from) && inside.has(to)),
  };
}

function isWithin({ groups }: Diagram, id: string, root: string | undefined): boolean {
  for (let at = groups.find((group) => group.id === id)?.parent; at !== undefined;) {
    if (at === root) return true;
    const parent = at;
    at = groups.find((group) => group.id === parent)?.parent;
  }
  return false;
}

function lugIds(part: DiagramPart): string[] {
  return [...part.lugs, ...(part.inner ?? []).flatMap(({ lugs }) => lugs)].map(({ id }) => id);
}

/** The stub of a run that goes out, or of a screen's tie whose run does. */
function stubOf(
  { runs }: Diagram,
  run: DiagramRun,
  lugs: ReadonlySet<string>,
  whole: ReadonlySet<string>,
): { readonly run: DiagramRun; readonly mark: DiagramPart; readonly lug: string }[] {
  const isTie = run.kind === 'screen';
  const ends = (isTie ? [run.to] : [run.from, run.to]).filter((lug) => lugs.has(lug));
  if (ends.length !== 1 || (isTie && whole.has(run.from))) return [];
  const lug = itemAt(ends, 0);
  const screened = isTie ? runs.find(({ id }) => id === run.from) : undefined;
  const other = (run.from === lug ? run.to : run.from).replace(/^(lug|end):/u, '');
  const line = isTie
    ? `screen of ${screened?.number ?? other}`
    : [run.number, '→', other].filter((text) => text !== undefined).join(' ');
  const end = `end:${run.id}`;
  const label = lug.replace(/^lug:/u, '');
  return [
    {
      lug,
      run: {
        ...run,
        id: `stub:${run.id}`,
        kind: 'ground',
        from: lug,
        to: end,
        shielded: false,
        twisted: false,
        says: `${run.says}, which leaves here`,
      },
      mark: {
        id: `leaves:${run.id}`,
        name: label,
        type: 'leaves',
        kind: 'mark',
        values: [line],
        lugs: [{ id: end, name: '', label: end, metal: false, ends: 1 }],
        rows: [],
        contacts: [],
        bent: [],
        inPlace: false,
      },
    },
  ];
}
