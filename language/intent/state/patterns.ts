/** Expectations by the patterns of the trade: what the positions of a switch usually bring. */
import type { AnalysedCircuit, Circuit, Part, Switch } from '../../circuit/model.js';
import { factsOf } from '../../checks/index.js';
import type { Setting } from '../../electrics/index.js';
import { parallel, patterns } from '../../roles/index.js';
import { finished, type Steps } from '../../steps.js';
import { stated, written } from './lines.js';

/** What `linesOfPattern` made, or the sentence that says why it could not. */
export type PatternLines = { readonly lines: readonly string[] } | { readonly problem: string };

/**
 * Lines for all settings by a pattern, or by one with `split` behind it (`neighbours`, `split`). A pattern goes to the first switch whose positions
 * fit it; pickups come in the order given, else as they are declared. Only what sounds is stated: hum and readings hang on the parts.
 */
export function linesOfPattern(circuit: AnalysedCircuit, names: readonly string[], order?: readonly string[]): PatternLines {
  return finished(linesOfPatternSteps(circuit, names, order));
}

/** The same in small steps; it stops once there are more lines than `most`. */
export function* linesOfPatternSteps(
  circuit: AnalysedCircuit,
  names: readonly string[],
  order?: readonly string[],
  most = Infinity,
): Steps<PatternLines> {
  const pickups = pickupsOf(circuit, order);
  if (typeof pickups === 'string') return { problem: pickups };
  const taken = taking(circuit, names, pickups);
  if (typeof taken === 'string') return { problem: taken };
  const settings = factsOf(circuit).settings();
  yield;
  const kept = new Map<string, readonly string[]>();
  const rows = settings.map((setting) => {
    const key = [...taken.keys()].map(({ id }) => setting.positions[id]).join();
    const claims = kept.get(key) ?? claimsIn(setting, taken, pickups);
    kept.set(key, claims);
    return { setting, claims };
  });
  yield;
  return { lines: written(yield* stated(circuit, rows, most)) };
}

/** True where a pattern, or one with others behind it, fits pickups and switches; no setting is enumerated for it. */
export function fitsPattern(circuit: AnalysedCircuit, names: readonly string[]): boolean {
  const pickups = pickupsOf(circuit, undefined);
  return typeof pickups !== 'string' && typeof taking(circuit, names, pickups) !== 'string';
}

type Taken = ReadonlyMap<Switch, { readonly name: string; readonly arranged: readonly string[] }>;

/** The switch that each pattern goes to; a sentence where one fits none. */
function taking(circuit: Circuit, names: readonly string[], pickups: readonly string[]): Taken | string {
  const switches = circuit.switches.filter(({ rest, positions }) => rest === undefined && positions.length > 1);
  const taken = new Map<Switch, { readonly name: string; readonly arranged: readonly string[] }>();
  for (const name of names) {
    const pattern = patterns.find((known) => known.name === name);
    if (pattern === undefined) return `there is no pattern ${name}; there are ${patterns.map((known) => known.name).join(', ')}`;
    const [fitting] = switches.flatMap((device) => {
      const arranged = taken.has(device) ? undefined : pattern.arrange(pickups, device.positions.length);
      return arranged === undefined ? [] : [{ device, arranged }];
    });
    if (fitting === undefined) return `${name} does not fit any switch of this instrument: ${pattern.says}`;
    taken.set(fitting.device, { name, arranged: fitting.arranged });
  }
  return taken;
}

function claimsIn({ positions }: Setting, taken: Taken, pickups: readonly string[]): readonly string[] {
  let sounds: string | undefined;
  let isSplit = false;
  for (const [device, { name, arranged }] of taken) {
    const at = positions[device.id] ?? -1;
    if (name !== 'split') sounds = arranged[at];
    else if (at === 1) isSplit = true;
  }
  const [only, ...others] = pickups;
  sounds ??= only !== undefined && others.length === 0 ? only : parallel(...pickups);
  if (isSplit)
    for (const name of pickups)
      sounds = sounds.replace(new RegExp(`(?<![\\w.-])${escaped(name)}(?![\\w.-])`, 'gu'), `${name}.north`);
  return [`sounds ${sounds}`];
}

function escaped(name: string): string {
  return name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

/** Names of the pickups in the order wished; a sentence where a name is none of them. */
function pickupsOf(circuit: AnalysedCircuit, order: readonly string[] | undefined): readonly string[] | string {
  const all = factsOf(circuit).signal.pickups.filter(({ parent }: Part) => parent === undefined);
  if (all.length === 0) return 'there is no pickup in it';
  if (order === undefined) return all.map(({ name }) => name);
  const unknown = order.find((name) => !all.some((part) => part.name === name));
  return unknown === undefined ? order : `${unknown} is not a pickup of this instrument`;
}
