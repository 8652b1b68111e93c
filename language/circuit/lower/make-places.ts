/** Cavities, channels, plates, and what lies in them; metal that touches. */
import type {
  CavityStatement,
  ChannelStatement,
  PlaceStatement,
  PlateStatement,
  PropertyNode,
  SpotNode,
  Word,
} from '../../grammar/index.js';
import type { SourceRange } from '../../source.js';
import { giveName, recordUse, report, reportMisspelling, type Lowering } from './lowering-state.js';
import type { Draft, Instance } from './builder.js';
import { makePseudoPart } from './instantiate.js';
import type { Cavity, Channel, LugId, Plate } from '../model.js';
import { replaceWith } from '../problems.js';
import { readValue, unitPhrase, UNIT_WORDS, whyNoValue } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { itemNamed } from './resolve.js';
import { PLAIN_WIRE } from '../types/wire-looks.js';

/** `cavity control shield depth 38mm`. */
export function makeCavity(state: Lowering, statement: CavityStatement, origin: Origin): Cavity | undefined {
  if (isMissing(statement.name)) return undefined;
  refuse(state, statement.properties, origin, 'a cavity', 'write shield and depth before the end of the line');
  const range = rangeOn(origin, statement.range);
  const nameRange = rangeOn(origin, statement.name.range);
  const depth = statement.depth === undefined ? undefined : lengthOf(state, statement.depth, 'depth', origin);
  const cavity: Draft<Cavity> = {
    name: statement.name.text,
    shielded: statement.shield,
    range,
    nameRange,
    ...(depth === undefined ? {} : { depth }),
  };
  if (!giveName(state, statement.name, { kind: 'cavity', nameRange, cavity })) return undefined;
  recordUse(state, { kind: 'cavity', range: nameRange, definition: nameRange, name: cavity.name }, true);
  if (statement.shield) {
    const { doc } = statement;
    const instance = makePseudoPart(state, { name: cavity.name, family: 'cavity', lug: 'shield', range, nameRange, doc });
    cavity.part = instance.part.id;
    state.namedItems.set(cavity.name, { kind: 'cavity', nameRange, cavity, instance });
  }
  return cavity;
}

/** `channel control to pickups 85mm bore 6mm`. */
export function makeChannel(state: Lowering, statement: ChannelStatement, origin: Origin): Channel | undefined {
  refuse(state, statement.properties, origin, 'a channel', 'write its length and bore on the same line');
  const from = itemNamed(state, statement.from, origin, 'cavity');
  const to = itemNamed(state, statement.to, origin, 'cavity');
  const length = statement.length === undefined ? undefined : lengthOf(state, statement.length, 'a channel', origin);
  const bore = statement.bore === undefined ? undefined : lengthOf(state, statement.bore, 'bore', origin);
  if (from === undefined || to === undefined) return undefined;
  return {
    from: statement.from.text,
    to: statement.to.text,
    range: rangeOn(origin, statement.range),
    ...(length === undefined ? {} : { length }),
    ...(bore === undefined ? {} : { bore }),
  };
}

/** `plate cover in control metal`: the plate itself, so that wires can be tied to its metal. */
export function makePlate(state: Lowering, statement: PlateStatement, origin: Origin): Draft<Plate> | undefined {
  if (isMissing(statement.name)) return undefined;
  const range = rangeOn(origin, statement.range);
  const nameRange = rangeOn(origin, statement.name.range);
  const thick = statement.thick === undefined ? undefined : lengthOf(state, statement.thick, 'thick', origin);
  const size = statement.size === undefined ? undefined : sizeOf(state, statement.size, origin);
  const plate: Draft<Plate> = {
    name: statement.name.text,
    cavity: statement.cavity.text,
    metal: statement.metal,
    shielded: statement.shield,
    carries: [],
    range,
    nameRange,
    ...(thick === undefined ? {} : { thick }),
    ...(size === undefined ? {} : { size }),
  };
  if (!giveName(state, statement.name, { kind: 'plate', nameRange, plate })) return undefined;
  recordUse(state, { kind: 'plate', range: nameRange, definition: nameRange, name: plate.name }, true);
  if (statement.metal || statement.shield) {
    const lug = statement.metal ? 'metal' : 'shield';
    const { doc } = statement;
    const instance = makePseudoPart(state, { name: plate.name, family: 'plate', lug, range, nameRange, doc });
    plate.part = instance.part.id;
    state.namedItems.set(plate.name, { kind: 'plate', nameRange, plate, instance });
  }
  return plate;
}

/** `{ volume at 20 30, tone }`: what the plate carries, and what of it touches, once every lug is known. */
export function fillPlate(state: Lowering, statement: PlateStatement, plate: Draft<Plate>, origin: Origin): void {
  const cavity = itemNamed(state, statement.cavity, origin, 'cavity')?.cavity;
  const places: { lug: LugId; range: SourceRange }[] = [];
  for (const entry of statement.entries) {
    const instance = placed(state, entry.part, origin, `on ${plate.name}`);
    if (instance === undefined) continue;
    put(instance, entry.spot === undefined ? undefined : spotOf(state, entry.spot, origin), cavity?.name, plate.name);
    plate.carries.push(instance.part.id);
    const entryRange = rangeOn(origin, entry.part.range);
    places.push(...touching(state, instance).map((lug) => ({ lug, range: entryRange })));
  }
  const metal = plate.part === undefined ? undefined : state.builder.instances[plate.part];
  if (metal === undefined) return;
  const paint = cavity === undefined ? undefined : state.namedItems.get(cavity.name)?.instance;
  if (paint !== undefined)
    places.push({ lug: state.builder.lug(paint, 'shield'), range: rangeOn(origin, statement.cavity.range) });
  touchAll(state, metal, places, plate);
}

/** `place bridge, neck in pickups at 10 20`. */
export function makePlaces(state: Lowering, statement: PlaceStatement, origin: Origin): void {
  const cavity = itemNamed(state, statement.cavity, origin, 'cavity')?.cavity;
  const spot = statement.spot === undefined ? undefined : spotOf(state, statement.spot, origin);
  for (const word of statement.parts) {
    const instance = placed(state, word, origin, `in ${statement.cavity.text}`);
    if (instance !== undefined && cavity !== undefined) put(instance, spot, cavity.name, undefined);
  }
}

/** The part that is put somewhere; `undefined` where it isn't known, or lies somewhere else already. */
function placed(state: Lowering, word: Word, origin: Origin, where: string): Instance | undefined {
  const instance = itemNamed(state, word, origin, 'part')?.instance;
  const { cavity, plate } = instance?.part ?? {};
  if (instance === undefined || (cavity === undefined && plate === undefined)) return instance;
  const before = plate === undefined ? `in ${cavity}` : `on ${plate}`;
  report(state, 'form', rangeOn(origin, word.range), `${word.text} is already ${before}, so it can’t be ${where} as well`);
  return undefined;
}

function put(
  instance: Instance,
  spot: { x: number; y: number } | undefined,
  cavity: string | undefined,
  plate: string | undefined,
): void {
  const { part } = instance;
  if (cavity !== undefined) part.cavity = cavity;
  if (plate !== undefined) part.plate = plate;
  if (spot !== undefined) part.at = spot;
  // What stands inside an assembly lies where the assembly lies.
  for (const child of instance.children.values()) put(child, undefined, cavity, plate);
}

/** A metal plate joins what it carries, and touches the paint of the cavity that it closes. */
function touchAll(
  { builder }: Lowering,
  metal: Instance,
  places: readonly { lug: LugId; range: SourceRange }[],
  { range: statementRange, nameRange }: Draft<Plate>,
): void {
  const plate = builder.lug(metal, [...metal.lugs.keys()][0] ?? 'metal');
  const statement = builder.statement();
  for (const { lug, range } of places)
    builder.join(plate, lug, {
      kind: 'touch',
      statement,
      looks: PLAIN_WIRE,
      range,
      aRange: nameRange,
      bRange: range,
      statementRange,
    });
}

/** Cases, frames and open-jack bushings touch the metal they stand in, but those that say `insulated`. */
function touching(state: Lowering, instance: Instance): LugId[] {
  const { part } = instance;
  const inside = [...instance.children.values()].flatMap((child) => touching(state, child));
  const bushed = part.family === 'control' || part.family === 'switch' || part.family === 'jack';
  if (!bushed || part.properties.insulated !== undefined) return inside;
  const own = [...instance.lugs.values()].filter((lug) => state.builder.lugs[lug]?.metal === true);
  return [...own, ...inside];
}

function spotOf(state: Lowering, spot: SpotNode, origin: Origin): { x: number; y: number } | undefined {
  const x = lengthOf(state, spot.x, 'a place', origin, true);
  const y = lengthOf(state, spot.y, 'a place', origin, true);
  return x === undefined || y === undefined ? undefined : { x, y };
}

function sizeOf(state: Lowering, size: NonNullable<PlateStatement['size']>, origin: Origin): Plate['size'] {
  const [width, height] = [size.width, size.height].map((word) => {
    const length = lengthOf(state, word, 'the size of a plate', origin, true);
    if (length === undefined || length > 0) return length;
    report(state, 'value', rangeOn(origin, word.range), `the size of a plate must be greater than zero, not ${word.text}`);
    return undefined;
  });
  return width === undefined || height === undefined ? undefined : { width, height };
}

/** A length in metres; a bare number counts as millimetres where `bare` says so. */
function lengthOf(state: Lowering, word: Word, of: string, origin: Origin, bare = false): number | undefined {
  if (isMissing(word) || word.kind === 'unknown') return undefined;
  const range = rangeOn(origin, word.range);
  const reading = readValue(word, 'metre');
  if (reading === undefined) report(state, 'value', range, `${of} takes ${unitPhrase('metre')}; ${whyNoValue(word, 'metre')}`);
  else if (reading.unit === 'metre') return reading.value;
  else if (reading.unit !== 'count')
    report(state, 'value', range, `${word.text} is ${UNIT_WORDS[reading.unit].name}; ${of} takes ${unitPhrase('metre')}`);
  else if (bare) return reading.value / 1000;
  else {
    const fixes = [replaceWith(range, `${word.text}mm`)];
    report(state, 'value', range, `${word.text} has no unit; ${of} takes ${unitPhrase('metre')}`, { fixes });
  }
  return undefined;
}

/** Braces where nothing may stand in them. */
function refuse(state: Lowering, properties: readonly PropertyNode[], origin: Origin, what: string, hint: string): void {
  for (const property of properties) {
    if (isMissing(property.name)) continue;
    reportMisspelling(
      state,
      'property',
      rangeOn(origin, property.name.range),
      `${what} has no property ${property.name.text}; ${hint}`,
      {
        word: property.name.text,
        among: [],
      },
    );
  }
}
