/** What is ordered besides the parts of the circuit: knobs, screws of plates, solder lugs, shielding, battery clips. Only what the text gives a reason for. */
import { millimetres } from '../../checks/index.js';
import { amount } from '../../circuit/index.js';
import type { Part } from '../../circuit/model.js';
import { groupBy } from '../../collections.js';
import type { Build } from '../build.js';
import type { BuyRow } from './lists.js';

/** The rows, for the batch with its spares. A quantity that the text cannot know is absent. */
export function hardwareRows(build: Build): readonly BuyRow[] {
  return [...knobs(build), ...screws(build), ...solderLugs(build), ...shielding(build), ...clips(build)];
}

/** One for each shaft of a pot, so two for a concentric one, and one for each rotary switch. A preset is set with a screwdriver. */
function knobs(build: Build): BuyRow[] {
  const shafts = build.circuit.shafts.filter(({ part }) => !isPreset(build.part(part))).map(({ name }) => name);
  const rotaries = build.parts.filter(isRotary).map(({ name }) => name);
  return pieces(build, 'knob', '', [...shafts, ...rotaries], 'measure the shaft: diameter, round or splined');
}

/** Set once, inside the instrument: no control of the player. */
export function isPreset({ ancestry, properties: { role } }: Part): boolean {
  return ancestry.includes('trimmer') || (role !== undefined && 'words' in role && role.words.includes('preset'));
}

function isRotary({ ancestry }: Part): boolean {
  return ancestry.some((type) => type.startsWith('rotary-'));
}

function screws(build: Build): BuyRow[] {
  return build.plates.map(({ name, thick }) => ({
    unit: 'piece',
    item: 'screw',
    values: `for plate ${name}${thick === undefined ? '' : `, which is ${millimetres(thick)} thick`}`,
    usedAs: [name],
    note: 'count its screw holes',
  }));
}

/** Paint, foil and a plate take no solder, or only with a large iron: a lug is screwed to them. Nothing is for metal to which the text brings no wire. */
function solderLugs(build: Build): BuyRow[] {
  const soldered = new Set(
    build.joints.filter(({ kind }) => kind !== 'touch' && kind !== 'inside').flatMap(({ a, b }) => [a, b]),
  );
  const metals = build.parts.filter(
    ({ family, lugs }) => (family === 'cavity' || family === 'plate') && lugs.some((lug) => soldered.has(lug)),
  );
  const names = metals.map(({ name }) => name);
  return pieces(build, 'solder lug', 'with its screw', names, '');
}

/** Foil as large as the plate, where that is known; a cavity's walls and floor are measured. */
function shielding(build: Build): BuyRow[] {
  const behind = build.plates.filter(({ shielded, metal }) => shielded && !metal);
  const sizes = groupBy(behind, ({ size }) =>
    size === undefined ? 'as large as the plate' : `${millimetres(size.width)} × ${millimetres(size.height)}`,
  );
  const plates = [...sizes].flatMap(([values, alike]) =>
    pieces(
      build,
      'shielding foil',
      values,
      alike.map(({ name }) => name),
      '',
    ),
  );
  const painted = build.cavities.filter(({ shielded }) => shielded).map(({ name }) => name);
  if (painted.length === 0) return plates;
  return [
    ...plates,
    {
      unit: 'square metre',
      item: 'conductive paint or foil',
      values: 'for the inside of cavities',
      usedAs: painted,
      note: 'measure their floors and walls',
    },
  ];
}

function clips(build: Build): BuyRow[] {
  const cells = groupBy(
    build.circuit.elements.flatMap((element) => (element.kind === 'battery' ? [element] : [])),
    ({ voltage }) => (voltage.known ? `for ${amount(voltage.value, 'volt')}` : ''),
  );
  return [...cells].flatMap(([values, alike]) =>
    pieces(
      build,
      'battery clip',
      values,
      alike.map(({ part }) => build.part(part).name),
      '',
    ),
  );
}

function pieces(build: Build, item: string, values: string, usedAs: readonly string[], note: string): BuyRow[] {
  if (usedAs.length === 0) return [];
  return [{ quantity: usedAs.length * build.count + build.settings.spares, unit: 'piece', item, values, usedAs, note }];
}
