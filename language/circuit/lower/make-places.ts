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
import { giveName, note, tell, tellMeant, type Lowering } from './lowering-state.js';
import type { Draft, Instance } from './builder.js';
import { makePseudoPart } from './instantiate.js';
import type { Cavity, Channel, LugId, Plate } from '../model.js';
import { readValue, unitPhrase, UNIT_WORDS, whyNoValue } from '../quantities.js';
import { isMissing, rangeOn, type Ground } from '../ranges.js';
import { thingNamed } from './resolve.js';
import { PLAIN_WIRE } from '../types/wire-looks.js';

/** `cavity control shield depth 38mm`. */
export function makeCavity(state: Lowering, statement: CavityStatement, ground: Ground): Cavity | undefined {
  if (isMissing(statement.name)) return undefined;
  refuse(state, statement.properties, ground, 'a cavity', 'write shield and depth before the end of the line');
  const range = rangeOn(ground, statement.range);
  const nameRange = rangeOn(ground, statement.name.range);
  const depth = statement.depth === undefined ? undefined : lengthOf(state, statement.depth, 'depth', ground);
  const cavity: Draft<Cavity> = {
    name: statement.name.text,
    shielded: statement.shield,
    range,
    nameRange,
    ...(depth === undefined ? {} : { depth }),
  };
  if (!giveName(state, statement.name, { kind: 'cavity', nameRange, cavity })) return undefined;
  note(state, { kind: 'cavity', range: nameRange, definition: nameRange, name: cavity.name }, true);
  if (statement.shield) {
    const instance = makePseudoPart(state, cavity.name, 'cavity', 'shield', range, nameRange, statement.doc);
    cavity.part = instance.part.id;
    state.things.set(cavity.name, { kind: 'cavity', nameRange, cavity, instance });
  }
  return cavity;
}

/** `channel control to pickups 85mm bore 6mm`. */
export function makeChannel(state: Lowering, statement: ChannelStatement, ground: Ground): Channel | undefined {
  refuse(state, statement.properties, ground, 'a channel', 'write its length and bore on the same line');
  const from = thingNamed(state, statement.from, ground, 'cavity');
  const to = thingNamed(state, statement.to, ground, 'cavity');
  const length = statement.length === undefined ? undefined : lengthOf(state, statement.length, 'a channel', ground);
  const bore = statement.bore === undefined ? undefined : lengthOf(state, statement.bore, 'bore', ground);
  if (from === undefined || to === undefined) return undefined;
  return {
    from: statement.from.text,
    to: statement.to.text,
    range: rangeOn(ground, statement.range),
    ...(length === undefined ? {} : { length }),
    ...(bore === undefined ? {} : { bore }),
  };
}

/** `plate cover in control metal`: the plate itself, so that wires can be tied to its metal. */
export function makePlate(state: Lowering, statement: PlateStatement, ground: Ground): Draft<Plate> | undefined {
  if (isMissing(statement.name)) return undefined;
  const range = rangeOn(ground, statement.range);
  const nameRange = rangeOn(ground, statement.name.range);
  const thick = statement.thick === undefined ? undefined : lengthOf(state, statement.thick, 'thick', ground);
  const plate: Draft<Plate> = {
    name: statement.name.text,
    cavity: statement.cavity.text,
    metal: statement.metal,
    shielded: statement.shield,
    carries: [],
    range,
    nameRange,
    ...(thick === undefined ? {} : { thick }),
  };
  if (!giveName(state, statement.name, { kind: 'plate', nameRange, plate })) return undefined;
  note(state, { kind: 'plate', range: nameRange, definition: nameRange, name: plate.name }, true);
  if (statement.metal || statement.shield) {
    const lug = statement.metal ? 'metal' : 'shield';
    const instance = makePseudoPart(state, plate.name, 'plate', lug, range, nameRange, statement.doc);
    plate.part = instance.part.id;
    state.things.set(plate.name, { kind: 'plate', nameRange, plate, instance });
  }
  return plate;
}

/** `{ volume at 20 30, tone }`: what the plate carries, and what of it touches, once every lug is known. */
export function fillPlate(state: Lowering, statement: PlateStatement, plate: Draft<Plate>, ground: Ground): void {
  const cavity = thingNamed(state, statement.cavity, ground, 'cavity')?.cavity;
  const places: { lug: LugId; range: SourceRange }[] = [];
  for (const entry of statement.entries) {
    const instance = placed(state, entry.part, ground, `on ${plate.name}`);
    if (instance === undefined) continue;
    put(instance, entry.spot === undefined ? undefined : spotOf(state, entry.spot, ground), cavity?.name, plate.name);
    plate.carries.push(instance.part.id);
    const entryRange = rangeOn(ground, entry.part.range);
    places.push(...touching(state, instance).map((lug) => ({ lug, range: entryRange })));
  }
  const metal = plate.part === undefined ? undefined : state.builder.instances[plate.part];
  if (metal !== undefined)
    touchAll(state, metal, places, cavity, rangeOn(ground, statement.cavity.range), plate.range, plate.nameRange);
}

/** `place bridge, neck in pickups at 10 20`. */
export function makePlaces(state: Lowering, statement: PlaceStatement, ground: Ground): void {
  const cavity = thingNamed(state, statement.cavity, ground, 'cavity')?.cavity;
  const spot = statement.spot === undefined ? undefined : spotOf(state, statement.spot, ground);
  for (const word of statement.parts) {
    const instance = placed(state, word, ground, `in ${statement.cavity.text}`);
    if (instance !== undefined && cavity !== undefined) put(instance, spot, cavity.name, undefined);
  }
}

/** The part that is put somewhere; `undefined` where it isn't known, or lies somewhere else already. */
function placed(state: Lowering, word: Word, ground: Ground, where: string): Instance | undefined {
  const instance = thingNamed(state, word, ground, 'part')?.instance;
  const { cavity, plate } = instance?.part ?? {};
  if (instance === undefined || (cavity === undefined && plate === undefined)) return instance;
  const before = plate === undefined ? `in ${cavity}` : `on ${plate}`;
  tell(state, 'form', rangeOn(ground, word.range), `${word.text} is already ${before}, so it can’t be ${where} as well`);
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
  state: Lowering,
  metal: Instance,
  places: readonly { lug: LugId; range: SourceRange }[],
  cavity: Draft<Cavity> | undefined,
  cavityRange: SourceRange,
  statementRange: SourceRange,
  nameRange: SourceRange,
): void {
  const { builder, things } = state;
  const plate = builder.lug(metal, [...metal.lugs.keys()][0] ?? 'metal');
  const statement = builder.statement();
  const touch = (lug: LugId, range: SourceRange): void => {
    builder.join(plate, lug, {
      kind: 'touch',
      statement,
      looks: PLAIN_WIRE,
      range,
      aRange: nameRange,
      bRange: range,
      statementRange,
    });
  };
  for (const { lug, range } of places) touch(lug, range);
  const paint = cavity === undefined ? undefined : things.get(cavity.name)?.instance;
  if (paint !== undefined) touch(builder.lug(paint, 'shield'), cavityRange);
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

function spotOf(state: Lowering, spot: SpotNode, ground: Ground): { x: number; y: number } | undefined {
  const x = lengthOf(state, spot.x, 'a place', ground, true);
  const y = lengthOf(state, spot.y, 'a place', ground, true);
  return x === undefined || y === undefined ? undefined : { x, y };
}

/** A length in metres; a bare number counts as millimetres where `bare` says so. */
function lengthOf(state: Lowering, word: Word, of: string, ground: Ground, bare = false): number | undefined {
  if (isMissing(word) || word.kind === 'unknown') return undefined;
  const range = rangeOn(ground, word.range);
  const reading = readValue(word, 'metre');
  if (reading === undefined) tell(state, 'value', range, `${of} takes ${unitPhrase('metre')}; ${whyNoValue(word, 'metre')}`);
  else if (reading.unit === 'metre') return reading.value;
  else if (reading.unit !== 'count')
    tell(state, 'value', range, `${word.text} is ${UNIT_WORDS[reading.unit].name}; ${of} takes ${unitPhrase('metre')}`);
  else if (bare) return reading.value / 1000;
  else {
    const fixes = [{ title: `write ${word.text}mm`, edits: [{ range, text: `${word.text}mm` }] }];
    tell(state, 'value', range, `${word.text} has no unit; ${of} takes ${unitPhrase('metre')}`, { fixes });
  }
  return undefined;
}

/** Braces where nothing may stand in them. */
function refuse(state: Lowering, properties: readonly PropertyNode[], ground: Ground, what: string, hint: string): void {
  for (const property of properties) {
    if (isMissing(property.name)) continue;
    tellMeant(
      state,
      'property',
      rangeOn(ground, property.name.range),
      `${what} has no property ${property.name.text}; ${hint}`,
      property.name.text,
      [],
    );
  }
}
