/** Settings that somebody gives beside a circuit (`selector 1, volume 5`), read as those of an `expect` line are. */
import { parseSettings } from '../../grammar/index.js';
import { lugById, type Circuit, type ControlSetting, type Part, type PartId, type ShaftId } from '../model.js';
import type { Instance } from './builder.js';
import { FileReports, type NamedItem } from './lowering-state.js';
import { makeSettings, type Controls } from './make-settings.js';
import { Spellings } from './spellings.js';

/** What was read: the settings, or the first thing that is wrong and where that begins, counted in characters from 0. */
export type ReadSettings =
  { readonly settings: readonly ControlSetting[] } | { readonly problem: string; readonly character: number };

/** Reads settings for a circuit, at least one. Never throws: what cannot be read is said in trade words with its place in the text. */
export function readSettings(circuit: Circuit, text: string): ReadSettings {
  const { settings: nodes, problems } = parseSettings(text);
  const [unread] = problems;
  if (unread !== undefined) return { problem: unread.message, character: unread.range.start.character };
  const controls = controlsOf(circuit);
  const settings = makeSettings(controls, nodes, { uri: beside, line: 0 });
  const [wrong] = controls.reports.of(beside).problems.findings;
  if (settings !== undefined && wrong === undefined) return { settings };
  return {
    problem: wrong?.message ?? 'the type of this part is not known, so it cannot be set',
    character: wrong?.range.start.character ?? 0,
  };
}

/** The address of a text that is in no file. */
const beside = 'memory:settings';

/** The names and controls of a circuit, as they are while it is made. */
function controlsOf(circuit: Circuit): Controls {
  const namedItems = new Map<string, NamedItem>();
  const spellings = new Spellings();
  const name = (called: string, item: NamedItem): void => {
    namedItems.set(called, item);
    spellings.add(called, item.kind);
  };
  const instances = new Map<PartId, Instance>();
  for (const part of circuit.parts) {
    const instance = instanceOf(circuit, part);
    instances.set(part.id, instance);
    const outer = part.parent === undefined ? undefined : instances.get(part.parent);
    if (outer !== undefined) outer.children.set(part.name.slice(outer.part.name.length + 1), instance);
    else if (part.family === 'cavity' || part.family === 'plate')
      name(part.name, { kind: part.family, nameRange: part.nameRange, instance });
    else if (part.family !== 'screen') name(part.name, { kind: 'part', nameRange: part.nameRange, instance });
  }
  for (const cavity of circuit.cavities)
    if (!namedItems.has(cavity.name)) name(cavity.name, { kind: 'cavity', nameRange: cavity.range });
  for (const plate of circuit.plates)
    if (!namedItems.has(plate.name)) name(plate.name, { kind: 'plate', nameRange: plate.range });
  return { namedItems, spellings, reports: new FileReports(), builder: circuit };
}

function instanceOf(circuit: Circuit, part: Part): Instance {
  const device = circuit.switches.find((one) => one.part === part.id);
  const own = circuit.shafts.filter((shaft) => shaft.part === part.id);
  const shaftName = (name: string): string => (name === part.name ? '' : name.slice(part.name.length + 1));
  return {
    part: { ...part, ancestry: [...part.ancestry], lugs: [...part.lugs], elements: [...part.elements], rows: [...part.rows] },
    view: {},
    lugs: new Map(part.lugs.map((id) => [lugById(circuit, id).name, id])),
    children: new Map(),
    coils: new Map(),
    shafts: new Map(own.map(({ name, id }): [string, ShaftId] => [shaftName(name), id])),
    ...(device === undefined ? {} : { switch: device.id }),
  };
}
