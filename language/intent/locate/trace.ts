/** An instrument that is still being traced: values and joints that readings prove. */
import {
  altered,
  type AnalysedCircuit,
  type Circuit,
  type Element,
  elementById,
  type Lug,
  lugById,
  type LugId,
  partById,
  type Quantity,
} from '../../circuit/model.js';
import { jointClasses, meter, netOf, readAtJack, type Setting } from '../../electrics/index.js';
import { createForest, join, rootOf } from '../../numerics/index.js';
import { ohmText } from '../../checks/index.js';
import type { Estimate, Proof, Reading } from './model.js';

/** Resistances that are written `?`, where a reading goes through one of them alone. */
export function estimates(circuit: AnalysedCircuit, readings: readonly Reading[]): readonly Estimate[] {
  const found = new Map<string, { readonly unknown: Unknown; readonly ohms: number[]; readonly from: Reading[] }>();
  for (const reading of readings) {
    const { claim, settings, measurement } = reading;
    const [setting] = settings;
    if (claim.kind !== 'reads' || setting === undefined) continue;
    const unknown = onlyUnknown(circuit, setting, measurement.between);
    const ohm = unknown === undefined ? undefined : solved(circuit, unknown, setting, measurement.between, claim.ohm);
    if (unknown === undefined || ohm === undefined) continue;
    const known = found.get(unknown.key) ?? { unknown, ohms: [], from: [] };
    found.set(unknown.key, known);
    known.ohms.push(ohm);
    known.from.push(reading);
  }
  return [...found.values()].map(({ unknown: { part, range }, ohms, from }) => {
    const ohm = ohms.reduce((sum, one) => sum + one, 0) / ohms.length;
    return { part, property: 'resistance', ohm, text: ohmText(ohm), from, ...(range === undefined ? {} : { range }) };
  });
}

interface Unknown {
  readonly key: string;
  readonly part: string;
  /** All elements whose resistance comes of the one value that is not known. */
  readonly elements: readonly Element[];
  readonly range?: Quantity['range'];
}

/** The one part whose unknown resistance stands in the reading. */
function onlyUnknown(
  circuit: AnalysedCircuit,
  setting: Setting,
  between: readonly [LugId, LugId] | undefined,
): Unknown | undefined {
  const { unknown, through } = between === undefined ? readAtJack(circuit, setting) : meter(circuit, setting, ...between);
  if (!unknown) return undefined;
  const open = through
    .map((id) => elementById(circuit, id))
    .filter((element) => 'resistance' in element && element.resistance?.known === false);
  const [only, ...others] = new Set(open.map(({ part }) => part));
  if (only === undefined || others.length > 0) return undefined;
  const part = partById(circuit, only);
  const elements = part.elements
    .map((id) => elementById(circuit, id))
    .filter((element) => 'resistance' in element && element.resistance?.known === false);
  const property = part.properties['resistance'];
  return { key: part.name, part: part.name, elements, ...(property?.range === undefined ? {} : { range: property.range }) };
}

/** A resistance between two points rises with each resistor in it (Rayleigh), so halving finds the one value that gives the reading. */
function solved(
  circuit: AnalysedCircuit,
  unknown: Unknown,
  setting: Setting,
  between: readonly [LugId, LugId] | undefined,
  wanted: number,
): number | undefined {
  const whole = unknown.elements.reduce((sum, element) => sum + ohmOf(element), 0);
  const readWith = (ohm: number): number => {
    const changed = withShare(circuit, unknown, ohm / whole);
    const read = between === undefined ? readAtJack(changed, setting) : meter(changed, setting, ...between);
    return read.ohm ?? Infinity;
  };
  let [low, high] = [0.1, 20e6];
  if (readWith(low) > wanted || readWith(high) < wanted) return undefined;
  for (let step = 0; step < 60; step++) {
    const middle = Math.sqrt(low * high);
    if (readWith(middle) < wanted) low = middle;
    else high = middle;
  }
  // Where nearly every value gives the reading, the part hardly stands in it.
  if (high > 10e6) return undefined;
  return high;
}

function withShare(circuit: AnalysedCircuit, { elements }: Unknown, share: number): AnalysedCircuit {
  const ids = new Set(elements.map(({ id }) => id));
  return altered(circuit, {
    elements: circuit.elements.map((element) =>
      ids.has(element.id) && 'resistance' in element && element.resistance !== undefined
        ? { ...element, resistance: { ...element.resistance, value: element.resistance.value * share, known: true } }
        : element,
    ),
  });
}

function ohmOf(element: Element): number {
  return 'resistance' in element && element.resistance !== undefined ? element.resistance.value : 0;
}

/** Lugs between which a meter reads a short are joined, in that setting at least: a wire line for each that the text does not join. */
export function proofs(circuit: AnalysedCircuit, readings: readonly Reading[]): readonly Proof[] {
  const classes = jointClasses(circuit);
  const forest = createForest(classes.count);
  return readings.flatMap((reading): readonly Proof[] => {
    const { claim, measurement, settings } = reading;
    const { between } = measurement;
    if (between === undefined || !isShort(claim)) return [];
    const [a, b] = [netOf(classes, between[0]), netOf(classes, between[1])];
    if (rootOf(forest, a) === rootOf(forest, b) || isJoinedBySetting(circuit, settings, between)) return [];
    join(forest, a, b);
    return [{ line: `wire ${lugById(circuit, between[0]).label} to ${lugById(circuit, between[1]).label}`, from: reading }];
  });
}

/** Probes proposed at once. */
const mostProbes = 3;

/**
 * For an instrument of which values are written `?` or readings were taken inside: across each part whose resistance no reading has given yet; from
 * each lug that leads nowhere yet to the sleeve, which most things of a guitar are joined to or stand against; and then, the pickups first, to the
 * lugs of switches, pots and jack that lead nowhere either. What a short reading has joined counts as one place.
 */
export function probesFor(circuit: AnalysedCircuit, readings: readonly Reading[], given: readonly Estimate[]): readonly string[] {
  const unknown = circuit.elements.filter((element) => 'resistance' in element && element.resistance?.known === false);
  const between = readings.flatMap(({ measurement, claim }) =>
    measurement.between === undefined ? [] : [{ pair: measurement.between, claim }],
  );
  const sleeve = circuit.output?.sleeve;
  if ((unknown.length === 0 && between.length === 0) || sleeve === undefined) return [];
  const classes = jointClasses(circuit);
  const forest = createForest(classes.count);
  for (const { pair, claim } of between) {
    if (isShort(claim)) join(forest, netOf(classes, pair[0]), netOf(classes, pair[1]));
  }
  const place = (lug: LugId): number => rootOf(forest, netOf(classes, lug));
  const isTaken = (a: LugId, b: LugId): boolean =>
    place(a) === place(b) ||
    between.some(
      ({ pair: [x, y] }) => (place(x) === place(a) && place(y) === place(b)) || (place(x) === place(b) && place(y) === place(a)),
    );
  const isAlone = (lug: Lug): boolean =>
    isLoose(circuit, lug) && !between.some(({ pair, claim }) => isShort(claim) && pair.includes(lug.id));
  const loose = circuit.lugs.filter(isAlone).sort((a, b) => rankOf(circuit, a) - rankOf(circuit, b));
  const from = loose.filter((lug) => partById(circuit, lug.part).family !== 'switch');
  const pairs = [
    ...unknown
      .filter(({ part }) => !given.some((one) => one.part === partById(circuit, part).name))
      .map(({ a, b }) => [a, b] as const),
    ...from.map(({ id }) => [id, sleeve] as const),
    ...from.flatMap((lug) =>
      loose.filter((other) => other.part !== lug.part && !other.metal).map((other) => [lug.id, other.id] as const),
    ),
  ];
  return pairs
    .filter(([a, b]) => !isTaken(a, b) && lugById(circuit, a).inner !== true && lugById(circuit, b).inner !== true)
    .slice(0, mostProbes)
    .map(([a, b]) => `measured between ${lugById(circuit, a).label} and ${lugById(circuit, b).label} : reads …`);
}

function isShort(claim: Reading['claim']): boolean {
  return claim.kind === 'reads-short' || (claim.kind === 'reads' && claim.ohm < 2);
}

/** Pickups are followed first, then what lies between them and the jack. */
function rankOf(circuit: Circuit, { part }: Lug): number {
  return ['pickup', 'switch', 'control', 'passive', 'jack', 'metal'].indexOf(partById(circuit, part).family);
}

/** A lug that should lead somewhere, and to which nothing is joined yet. */
function isLoose(circuit: Circuit, { id, part, inner, name }: Lug): boolean {
  const { family, parent } = partById(circuit, part);
  const isWorking = ['pickup', 'control', 'metal', 'passive', 'switch'].includes(family) || (family === 'jack' && name === 'tip');
  return inner !== true && parent === undefined && isWorking && !circuit.joints.some(({ a, b }) => a === id || b === id);
}

/** A contact, or a wiper at the end of its track, reads short too. */
function isJoinedBySetting(circuit: AnalysedCircuit, settings: readonly Setting[], between: readonly [LugId, LugId]): boolean {
  return settings.every((setting) => {
    const { ohm, unknown } = meter(circuit, setting, ...between);
    return !unknown && ohm !== null && ohm < 2;
  });
}
