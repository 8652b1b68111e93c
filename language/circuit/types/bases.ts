/** What a type has by its base alone: the seven bases, and the parameters that every type of a base takes. */
import type { Base, Family, Quantity, Unit } from '../model.js';
import type { Parameter } from './type-model.js';

/** What a type may be built on, besides another type. */
export const BASES: readonly Base[] = ['pickup', 'switch', 'control', 'passive', 'metal', 'amplifier', 'assembly'];

/** True for the name of a base. */
export function isBase(name: string): name is Base {
  return (BASES as readonly string[]).includes(name);
}

/** Tolerance of a pot where nothing is said: ±20 %, a rotary pot's data sheet. */
const POT_TOLERANCE = 20;

/** The parameters of a base, which a type of it need not declare. */
export function baseParameters(base: Base): readonly Parameter[] {
  return PARAMETERS[base];
}

/** Properties that any part takes whatever its type says, besides its parameters; for completion and for suggestions. */
export const COMMON_PROPERTIES: readonly string[] = ['lead', 'insulated', 'tolerance', 'body', 'spacing', 'hole'];

/** The family of a type: its base, or the jack's where it comes from the standard jack. */
export function familyOf(base: Base, ancestry: readonly string[]): Family {
  return ancestry.includes('jack') ? 'jack' : base;
}

function valueOf(name: string, value: number, unit: Unit, doc: string, silent = false): Parameter {
  const quantity: Quantity = { value, unit, tolerance: 0, known: true };
  return { name, kind: 'value', unit, value: quantity, doc, ...(silent ? { silent } : {}) };
}

function choiceOf(name: string, choices: readonly string[], doc: string): Parameter {
  return { name, kind: 'choice', choices, doc };
}

/** What a part may be said to be for, by what it is; the reference lists them. `kill` is momentary, `mute` stays. */
export const ROLE_WORDS = {
  pot: ['volume', 'tone', 'blend', 'filter', 'load', 'preset'],
  switch: ['selector', 'split', 'tap', 'phase', 'series', 'parallel', 'on', 'kill', 'mute', 'bypass', 'standby', 'circuit'],
  passive: ['bleed', 'tone-cap', 'blocking', 'load', 'filter'],
  pickup: ['neck', 'middle', 'bridge', 'dummy', 'piezo'],
} as const;

function roleOf(words: readonly string[]): Parameter {
  return { ...choiceOf('role', words, 'What the part is for, where that should not be inferred.'), silent: true };
}

/** What a battery holds, where the text says it: a type with a battery inside takes it. */
export const CAPACITY = valueOf('capacity', 0.5, 'ampere-hour', 'What the battery holds, for how long it lasts.', true);

/** The role of a pot that has a switch as well: a word for either. */
export const ROLE_OF_POT_AND_SWITCH = roleOf([...ROLE_WORDS.pot, ...ROLE_WORDS.switch]);

const INSULATED: Parameter = {
  name: 'insulated',
  kind: 'free',
  silent: true,
  doc: 'Its metal does not touch the plate it is mounted on.',
};
const BODY = valueOf('body', 0.01, 'metre', 'Length of the body.', true);
const PLUG = valueOf(
  'plug',
  0.008,
  'metre',
  'Thickness of the plug on its cable, which has to pass through a drilled channel.',
  true,
);
const BUSH = valueOf('bush', 0.008, 'metre', 'Length of the threaded bushing, from the face that rests against the plate.', true);
const SHAFT = valueOf('shaft', 0.016, 'metre', 'Length of the shaft, from the face that rests against the plate.', true);
const HOLE = valueOf('hole', 0.01, 'metre', 'Diameter of the hole that it is mounted in.', true);
const SPACING = valueOf('spacing', 0.01, 'metre', 'Distance between the leads.', true);

function tolerance(percent: number, silent = false): Parameter {
  return valueOf('tolerance', percent, 'percent', 'Tolerance of the values, plus or minus.', silent);
}

const WOUND = choiceOf('wound', ['forward', 'reverse'], 'Direction of the winding relative to the other pickups.');
const MAGNET = choiceOf('magnet', ['north', 'south'], 'Magnetic pole that faces the strings.');
const OUTPUT = valueOf('output', 100, 'percent', 'Voltage relative to the other pickups, with all coils in series and in phase.');
const FROM_BRIDGE = valueOf(
  'from-bridge',
  0.1,
  'metre',
  'Distance from the bridge to the middle of the pickup, along the strings; for the response of a string.',
  true,
);
const APERTURE = valueOf(
  'aperture',
  0.02,
  'metre',
  'Length of string that the pickup senses, along the strings; for the response of a string.',
  true,
);
const TURN = choiceOf(
  'turn',
  ['right', 'left'],
  'Direction of the turn to 10: right, or left, where the wiper then is at lug 1.',
);
const REST = valueOf('rest', 10, 'count', 'Default rotation, 0 to 10.');

const PARAMETERS: Readonly<Record<Base, readonly Parameter[]>> = {
  pickup: [
    WOUND,
    MAGNET,
    tolerance(0),
    OUTPUT,
    INSULATED,
    BODY,
    SPACING,
    HOLE,
    PLUG,
    FROM_BRIDGE,
    APERTURE,
    roleOf(ROLE_WORDS.pickup),
  ],
  switch: [tolerance(0, true), INSULATED, BODY, SPACING, HOLE, BUSH, roleOf(ROLE_WORDS.switch)],
  control: [TURN, tolerance(POT_TOLERANCE), REST, INSULATED, BODY, SPACING, HOLE, BUSH, SHAFT, roleOf(ROLE_WORDS.pot)],
  passive: [tolerance(0), INSULATED, BODY, SPACING, HOLE, roleOf(ROLE_WORDS.passive)],
  metal: [tolerance(0, true), INSULATED, BODY, SPACING, HOLE],
  amplifier: [tolerance(0), INSULATED, BODY, SPACING, HOLE],
  assembly: [tolerance(0), INSULATED, BODY, SPACING, HOLE, roleOf(ROLE_WORDS.passive)],
};
