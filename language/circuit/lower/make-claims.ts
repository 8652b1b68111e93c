/** What `expect` and `measured` claim, what is set aside, and what hangs on the jack. */
import type {
  AllowStatement,
  ArrangementNode,
  ClaimNode,
  DottedName,
  ExpectStatement,
  MeasuredStatement,
  RigStatement,
  Word,
} from '../../grammar/index.js';
import { recordUse, report, reportMisspelling, type Lowering } from './lowering-state.js';
import { canonicalLug, type Instance } from './builder.js';
import { makeSettings } from './make-settings.js';
import type { Allow, Arrangement, Claim, ElementId, Expectation, LugId, Measurement, Rig, Unit } from '../model.js';
import { nameList } from '../phrases.js';
import { readValue, unitPhrase, UNIT_WORDS, whyNoValue } from '../quantities.js';
import { isMissing, rangeOn, type Origin } from '../ranges.js';
import { lugNamedBy, partNamed } from './resolve.js';
import { listed } from '../../words.js';

/** `expect selector "both" : sounds parallel(neck, bridge), hum cancelled`. */
export function makeExpectation(state: Lowering, statement: ExpectStatement, origin: Origin): Expectation | undefined {
  const at = outputNamed(state, statement.output, origin);
  const settings = makeSettings(state, statement.settings, origin);
  const claims = statement.claims.map((claim) => makeClaim(state, claim, origin)).filter((claim) => claim !== undefined);
  if (settings === undefined || claims.length === 0 || at === 'unknown') return undefined;
  return {
    ...(at === undefined ? {} : { at }),
    settings,
    claims,
    range: rangeOn(origin, statement.range),
    ...(statement.doc === undefined ? {} : { doc: statement.doc }),
  };
}

/** `measured between volume.3 and volume.1 selector 1 : reads 3.2k`. */
export function makeMeasurement(state: Lowering, statement: MeasuredStatement, origin: Origin): Measurement | undefined {
  const probes = statement.between?.map((name) => lugNamedBy(state, name, origin));
  const at = outputNamed(state, statement.output, origin);
  const settings = makeSettings(state, statement.settings, origin);
  // A reading that is still to be taken says nothing yet.
  const taken = statement.claims.filter((claim) => claim.kind !== 'reads' || claim.value.kind !== 'unknown');
  const claims = taken.map((claim) => makeClaim(state, claim, origin)).filter((claim) => claim !== undefined);
  const [a, b] = probes ?? [];
  if (
    at === 'unknown' ||
    settings === undefined ||
    claims.length === 0 ||
    (probes !== undefined && (a === undefined || b === undefined))
  )
    return undefined;
  return {
    ...(at === undefined ? {} : { at }),
    settings,
    claims,
    range: rangeOn(origin, statement.range),
    ...(a === undefined || b === undefined ? {} : { between: [a.lug, b.lug] as const }),
    ...(statement.doc === undefined ? {} : { doc: statement.doc }),
  };
}

/** The contact of a jack after `at`; `unknown` where there is none of that name, which is reported. */
function outputNamed(state: Lowering, name: DottedName | undefined, origin: Origin): LugId | 'unknown' | undefined {
  if (name === undefined) return undefined;
  const found = lugNamedBy(state, name, origin);
  if (found === undefined) return 'unknown';
  const { part, name: contact } = state.builder.lugs[found.lug] ?? {};
  const isOutput = part !== undefined && state.builder.instances[part]?.part.family === 'jack' && contact !== 'sleeve';
  if (isOutput) return found.lug;
  report(
    state,
    'setting',
    rangeOn(origin, name.range),
    'an output is a contact of a jack that is not its sleeve, such as output.tip',
  );
  return 'unknown';
}

function makeClaim(state: Lowering, node: ClaimNode, origin: Origin): Claim | undefined {
  const range = rangeOn(origin, node.range);
  switch (node.kind) {
    case 'sounds': {
      const arrangement = makeArrangement(state, node.arrangement, origin);
      return arrangement === undefined ? undefined : { kind: 'sounds', arrangement, range };
    }
    case 'hum':
      return { kind: 'hum', hum: node.hum, range };
    case 'reads':
    case 'peak':
    case 'cutoff':
      return makeFigureClaim(state, node, origin);
    case 'level':
      return makeLevelClaim(state, node, origin);
    default:
      return { kind: node.kind, range };
  }
}

// Without the span or the frequency that was meant a claim would say something else: it is left out where one cannot be read.

function makeFigureClaim(
  state: Lowering,
  node: Extract<ClaimNode, { readonly kind: 'reads' | 'peak' | 'cutoff' }>,
  origin: Origin,
): Claim | undefined {
  const range = rangeOn(origin, node.range);
  const unit = node.kind === 'reads' ? 'ohm' : 'hertz';
  const value = numberIn(state, node.value, unit, node.kind, origin);
  const within = node.within === undefined ? undefined : numberIn(state, node.within, 'percent', 'within', origin);
  if (value === undefined || (node.within !== undefined && within === undefined)) return undefined;
  const span = within === undefined ? {} : { within: within / 100 };
  return node.kind === 'reads' ? { kind: 'reads', ohm: value, range, ...span } : { kind: node.kind, hz: value, range, ...span };
}

function makeLevelClaim(
  state: Lowering,
  node: Extract<ClaimNode, { readonly kind: 'level' }>,
  origin: Origin,
): Claim | undefined {
  const value = numberIn(state, node.value, 'decibel', 'level', origin);
  const hz = node.at === undefined ? undefined : numberIn(state, node.at, 'hertz', 'at', origin);
  const within = node.within === undefined ? undefined : numberIn(state, node.within, 'decibel', 'within', origin);
  if (value === undefined || (node.at !== undefined && hz === undefined)) return undefined;
  if (node.within !== undefined && within === undefined) return undefined;
  const place = hz === undefined ? {} : { hz };
  const span = within === undefined ? {} : { within: Math.abs(within) };
  return { kind: 'level', db: value, range: rangeOn(origin, node.range), ...place, ...span };
}

function makeArrangement(state: Lowering, node: ArrangementNode, origin: Origin): Arrangement | undefined {
  const share = node.share === undefined ? undefined : numberIn(state, node.share, 'percent', 'a share', origin);
  const common = { reversed: node.reversed, ...(share === undefined ? {} : { share: share / 100 }) };
  if (node.group !== undefined) {
    const members = (node.members ?? []).map((member) => makeArrangement(state, member, origin));
    const whole = members.filter((member) => member !== undefined);
    return whole.length === members.length && whole.length > 0 ? { ...common, kind: node.group, members: whole } : undefined;
  }
  if (node.name === undefined) return undefined;
  const found = partNamed(state, node.name.path, origin);
  if (found === undefined) return undefined;
  const { instance, rest } = found;
  const { part, type } = found.instance;
  const range = rangeOn(origin, node.name.range);
  const names = [...instance.coils.keys()];
  if (names.length === 0) {
    if (type !== undefined) {
      reportMisspelling(state, 'unknown-name', range, `${part.name} (${part.type}) has no coil, so it can’t sound`, {
        word: part.name,
        among: state.spellings.of('pickup'),
      });
    }
    return undefined;
  }
  const [word] = rest;
  if (word === undefined) return { ...common, kind: 'pickup', part: part.id };
  const coil = coilNamed(state, instance, rest, origin);
  return coil === undefined ? undefined : { ...common, kind: 'coil', coil };
}

/** The coil of a pickup that the words behind its name say. */
function coilNamed(state: Lowering, instance: Instance, words: readonly Word[], origin: Origin): ElementId | undefined {
  const [word, more] = words;
  if (word === undefined) return undefined;
  const { part, type } = instance;
  const coil = more === undefined ? state.builder.coilNamed(instance, word.text) : undefined;
  const wordRange = rangeOn(origin, word.range);
  if (coil === undefined) {
    const names = [...instance.coils.keys()];
    const among = [...names, ...(type?.aliases.keys() ?? [])];
    const message = `${part.name} has no coil ${word.text}; it has ${nameList(names)}`;
    reportMisspelling(state, 'unknown-name', wordRange, message, { word: word.text, among });
    return undefined;
  }
  const element = type?.elements.find((candidate) => candidate.kind === 'coil' && candidate.name === coil.name);
  const definition = element?.nameRange ?? element?.range;
  recordUse(state, {
    kind: 'coil',
    range: wordRange,
    name: word.text,
    part: part.id,
    ...(definition === undefined ? {} : { definition }),
  });
  return coil.id;
}

/** `allow silent-position on selector "why"`. */
export function makeAllow(state: Lowering, statement: AllowStatement, origin: Origin): Allow | undefined {
  if (isMissing(statement.rule)) return undefined;
  const range = rangeOn(origin, statement.range);
  const ruleRange = rangeOn(origin, statement.rule.range);
  recordUse(state, { kind: 'rule', range: ruleRange, name: statement.rule.text });
  const why = statement.why?.text ?? '';
  if (statement.why !== undefined && why.trim() === '') {
    report(
      state,
      'form',
      rangeOn(origin, statement.why.range),
      `allow needs a reason: allow ${statement.rule.text} "the reason"`,
    );
  }
  const on = statement.on === undefined ? undefined : subjectOf(state, statement, origin);
  if (statement.on !== undefined && on === undefined) return undefined;
  return { rule: statement.rule.text, ruleRange, why, range, ...(on === undefined ? {} : { on }) };
}

/** What findings call the thing: a part's name, a lug's label. A cavity or plate of no metal goes by its name. */
function subjectOf(state: Lowering, statement: AllowStatement, origin: Origin): string | undefined {
  const on = statement.on;
  const [first, second] = on?.path ?? [];
  if (on === undefined || first === undefined) return undefined;
  const item = state.namedItems.get(first.text);
  if (item !== undefined && item.instance === undefined && second === undefined) {
    recordUse(state, { kind: item.kind, range: rangeOn(origin, first.range), definition: item.nameRange, name: first.text });
    return first.text;
  }
  const found = partNamed(state, on.path, origin);
  if (found === undefined) return undefined;
  const [word] = found.rest;
  if (word === undefined) return found.instance.part.name;
  const canonical = canonicalLug(found.instance, word.text);
  // To name a lug here must not bring it into being, so only one that is there already is asked for its label.
  const id = canonical.kind === 'lug' ? state.builder.existing(found.instance, canonical.name) : undefined;
  if (id === undefined && canonical.kind === 'lug') return `${found.instance.part.name}.${canonical.name}`;
  const lug = id === undefined ? lugNamedBy(state, on, origin)?.lug : id;
  if (lug === undefined) return undefined;
  if (id !== undefined)
    recordUse(state, { kind: 'lug', range: rangeOn(origin, word.range), name: word.text, part: found.instance.part.id, lug: id });
  return state.builder.lugs[lug]?.label;
}

/** What 100 pF a metre of lead come to: about 30 pF a foot, Sound on Sound, November 2009. */
const FARAD_A_METRE = 100e-12;

/** Lead and amplifier where nothing is said. */
export const USUAL_RIG: Rig = { cable: 500e-12, input: 1e6 };

/** `rig { cable 3m, input 1M 100pF }`. */
export function makeRig(state: Lowering, statement: RigStatement, origin: Origin): Rig {
  const rig: { -readonly [K in keyof Rig]: Rig[K] } = { ...USUAL_RIG };
  for (const property of statement.properties) {
    if (isMissing(property.name)) continue;
    const name = property.name.text;
    const range = rangeOn(origin, property.range);
    const [word, capacitance, more] = property.values;
    if (name !== 'cable' && name !== 'input') {
      const message = `a rig has no property ${name}; it takes ${listed(['cable', 'input'])}`;
      reportMisspelling(state, 'property', rangeOn(origin, property.name.range), message, {
        word: name,
        among: ['cable', 'input'],
      });
    } else if (word === undefined || (name === 'cable' ? capacitance : more) !== undefined) {
      const takes =
        name === 'cable' ? 'cable takes one value: 500pF or 3m' : 'input takes a resistance, and perhaps a capacitance: 1M 100pF';
      report(state, 'property', range, takes);
    } else if (name === 'cable') {
      rig.cable = cableOf(state, word, origin) ?? rig.cable;
    } else {
      const input = numberIn(state, word, 'ohm', 'input', origin);
      if (input !== undefined && input > 0) rig.input = input;
      else if (input !== undefined) report(state, 'value', range, 'input must be a resistance greater than zero, such as 1M');
      const farad =
        capacitance === undefined ? undefined : numberIn(state, capacitance, 'farad', 'the input’s capacitance', origin);
      if (farad !== undefined) rig.inputCapacitance = farad;
    }
  }
  return rig;
}

function cableOf(state: Lowering, word: Word, origin: Origin): number | undefined {
  const range = rangeOn(origin, word.range);
  const reading = readValue(word, 'farad');
  if (reading === undefined)
    report(state, 'value', range, `cable takes a capacitance or a length, such as 500pF or 3m; ${whyNoValue(word, 'farad')}`);
  else if (reading.unit === 'farad' && reading.value >= 0) return reading.value;
  else if (reading.unit === 'metre' && reading.value >= 0) return reading.value * FARAD_A_METRE;
  else
    report(
      state,
      'value',
      range,
      `${word.text} is ${UNIT_WORDS[reading.unit].name}; cable takes a capacitance or a length, such as 500pF or 3m`,
    );
  return undefined;
}

/** A number in the unit that is wanted. */
function numberIn(state: Lowering, word: Word, unit: Unit, of: string, origin: Origin): number | undefined {
  if (isMissing(word)) return undefined;
  const range = rangeOn(origin, word.range);
  const reading = readValue(word, unit);
  if (reading === undefined) report(state, 'value', range, `${of} takes ${unitPhrase(unit)}; ${whyNoValue(word, unit)}`);
  else if (reading.unit !== unit) {
    const is = reading.unit === 'count' ? 'has no unit' : `is ${UNIT_WORDS[reading.unit].name}`;
    report(state, 'value', range, `${word.text} ${is}; ${of} takes ${unitPhrase(unit)}`);
  } else if (reading.value < 0 && unit !== 'decibel') report(state, 'value', range, `${of} can’t be negative`);
  else return reading.value;
  return undefined;
}
