/** `build { slack 20mm, gauge 24awg, fill 50% }`: the workshop's habits, for lengths, cut list and solder order. */
import type { BuildStatement, PropertyNode } from '../../grammar/index.js';
import { report, reportMisspelling, type Lowering } from './lowering-state.js';
import type { BuildSetting, Circuit, OrderSetting, Unit } from '../model.js';
import { readValue, unitPhrase, UNIT_WORDS, whyNoValue } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { listed } from '../../words.js';

/** What may be said, and in which unit. */
export const BUILD_UNITS: Readonly<Record<BuildSetting, Unit>> = {
  slack: 'metre',
  lift: 'metre',
  strip: 'metre',
  step: 'metre',
  crossing: 'metre',
  depth: 'metre',
  gauge: 'awg',
  fill: 'percent',
  shielded: 'metre',
  lead: 'metre',
  cable: 'metre',
  sleeve: 'metre',
  spares: 'count',
  ends: 'count',
  'case-ends': 'count',
  nut: 'metre',
  knob: 'metre',
  'pickup-tolerance': 'percent',
  meter: 'percent',
  temperature: 'count',
  'shielded-capacitance': 'farad',
};

/** What is preferred in the solder order: its words, the usual one first. */
export const ORDER_WORDS: Readonly<Record<OrderSetting, readonly string[]>> = {
  first: ['ground', 'signal'],
  leads: ['with', 'first', 'last'],
  from: ['farthest', 'jack'],
};

/** Settings that must be more than nothing: a step of nothing would round to no length. */
const ABOVE_NOTHING: ReadonlySet<string> = new Set(['step', 'fill', 'shielded', 'lead', 'cable', 'ends', 'case-ends']);

/** More capacitance a metre than this has no shielded wire, by a factor of ten or more (common practice: 50 to 500 pF), farad. */
const MOST_A_METRE = 5e-9;

/** Settings that count things. */
const WHOLE: ReadonlySet<string> = new Set(['spares', 'ends', 'case-ends']);

/** Reads the statement; what cannot be read is reported and the usual setting applies. */
export function makeBuild(state: Lowering, statement: BuildStatement, origin: Origin): Pick<Circuit, 'build' | 'order'> {
  const build: Partial<Record<BuildSetting, number>> = {};
  const order: Partial<Record<OrderSetting, string>> = {};
  const names = [...Object.keys(BUILD_UNITS), ...Object.keys(ORDER_WORDS)];
  for (const property of statement.properties) {
    if (isMissing(property.name)) continue;
    const name = property.name.text;
    if (isPreference(name)) {
      const words = ORDER_WORDS[name];
      const [value, more] = property.values;
      if (value !== undefined && more === undefined && words.includes(value.text)) order[name] = value.text;
      else report(state, 'property', rangeOn(origin, property.range), `${name} is ${listed(words, 'or')}`);
    } else if (isSetting(name)) {
      const value = settingOf(state, name, property, origin);
      if (value !== undefined) build[name] = value;
    } else {
      const message = `build has no setting ${name}; it takes ${listed(names)}`;
      reportMisspelling(state, 'property', rangeOn(origin, property.name.range), message, { word: name, among: names });
    }
  }
  return { build, ...(Object.keys(order).length > 0 ? { order } : {}) };
}

/** The value of one setting; `undefined` where it cannot be read, which is reported. */
function settingOf(state: Lowering, name: BuildSetting, property: PropertyNode, origin: Origin): number | undefined {
  const range = rangeOn(origin, property.range);
  const [word, more] = property.values;
  const unit = BUILD_UNITS[name];
  const isWhole = WHOLE.has(name);
  const phrase = isWhole ? 'a whole number' : name === 'temperature' ? 'a number of kelvin' : unitPhrase(unit);
  if (word === undefined || more !== undefined) {
    report(state, 'property', range, `${name} takes one value, ${phrase}`);
    return undefined;
  }
  if (isMissing(word) || word.kind === 'unknown') return undefined;
  // No setting is printed on a capacitor: `150` is no code for 15 pF.
  const reading = readValue(word, unit === 'farad' ? undefined : unit);
  if (reading === undefined) report(state, 'value', range, `${name} takes ${phrase}; ${whyNoValue(word, unit)}`);
  else if (reading.unit !== unit)
    report(state, 'value', range, `${word.text} is ${UNIT_WORDS[reading.unit].name}; ${name} takes ${phrase}`);
  else if (reading.value < 0 || (reading.value === 0 && ABOVE_NOTHING.has(name)))
    report(state, 'value', range, `${name} must be greater than zero`);
  else if (name === 'shielded-capacitance' && reading.value > MOST_A_METRE)
    report(
      state,
      'value',
      range,
      `${word.text} a metre is more than any cable has; ${name} is for one metre, such as 150pF: a prefix may be wrong`,
    );
  else if (isWhole && !Number.isInteger(reading.value)) report(state, 'value', range, `${name} takes ${phrase}`);
  else return unit === 'percent' ? reading.value / 100 : reading.value;
  return undefined;
}

function isPreference(name: string): name is OrderSetting {
  return Object.hasOwn(ORDER_WORDS, name);
}

function isSetting(name: string): name is BuildSetting {
  return Object.hasOwn(BUILD_UNITS, name);
}
