/** Signatures of a circuit: texts that stay the same while what they stand for does, so that caches can tell what an edit has changed. */
import type { Arrangement, Circuit, Claim, ControlSetting, Joint, Part } from './circuit.js';
import type { Element } from './elements.js';
import { lugLookup, statedLength } from './own-leads.js';
import type { Quantity } from './unit.js';

/**
 * What joins what: parts, lugs, joints, elements without their values, contacts, shafts, the output. Ids count, so equal signatures mean that
 * ids of one circuit can be used in the other. No place in the text and no comment is in it.
 */
export function topologySignature(circuit: Circuit): string {
  return [
    ...circuit.parts.map((part) => row('part', part.name, part.type, part.family, part.parent, part.inPlace, part.lugs)),
    ...circuit.lugs.map((lug) => row('lug', lug.part, lug.name, lug.metal, lug.takesMany, lug.inner)),
    ...circuit.joints.map((joint) =>
      row('joint', joint.kind, joint.a, joint.b, joint.statement, joint.screen, joint.holder, joint.form),
    ),
    ...circuit.elements.map((element) =>
      row('element', element.kind, element.part, element.name, element.a, element.b, ...endsOf(element)),
    ),
    ...circuit.switches.map((control) =>
      row(
        'switch',
        control.part,
        control.rest,
        control.positions.map((position) => [position.key, position.joins]),
      ),
    ),
    ...circuit.shafts.map((shaft) => row('shaft', shaft.part, shaft.name, shaft.tracks)),
    ...circuit.cavities.map((cavity) => row('cavity', cavity.name, cavity.shielded, cavity.part)),
    ...circuit.plates.map((plate) =>
      row('plate', plate.name, plate.cavity, plate.metal, plate.shielded, plate.part, plate.carries),
    ),
    row('output', circuit.output?.part, circuit.output?.tip, circuit.output?.sleeve),
    row('jacks', circuit.jacks),
  ].join('\n');
}

/** Every number that a result in volts, ohms or hertz hangs on: values, tolerances, windings, tapers, rests, the rig; and what else a part is given, but its shape. */
export function valuesSignature(circuit: Circuit): string {
  return [
    ...circuit.elements.map((element) => row(...valuesOf(element))),
    ...circuit.shafts.map((shaft) => row('shaft', shaft.rest, shaft.turn)),
    ...circuit.parts.map((part) => row('part', given(part, false))),
    row('rig', circuit.rig.cable, circuit.rig.input, circuit.rig.inputCapacitance),
    row('meter', circuit.build?.meter, circuit.build?.temperature),
    row('screens', ...screensOf(circuit)),
  ].join('\n');
}

/** What a drawing is laid out by besides the topology, and what it is labelled with: titles, names of positions, colours, lengths, places, shapes. No value is in it. */
export function looksSignature(circuit: Circuit): string {
  return [
    row('instrument', circuit.title, circuit.batch, circuit.hand, circuit.seen, circuit.doc),
    ...circuit.parts.map((part) =>
      row('part', part.rows, part.cavity, part.plate, part.at?.x, part.at?.y, part.leads?.map(lookOf), given(part, true)),
    ),
    ...circuit.joints.map((joint) => row('joint', ...lookOf(joint), joint.bare, joint.twisted, joint.ownLead, joint.mark)),
    ...circuit.switches.map((control) =>
      row(
        'switch',
        control.positions.map((position) => position.label),
      ),
    ),
    ...circuit.cavities.map((cavity) => row('cavity', cavity.depth)),
    ...circuit.plates.map((plate) => row('plate', plate.thick, plate.size?.width, plate.size?.height)),
    ...circuit.channels.map((channel) => row('channel', channel.from, channel.to, channel.length, channel.bore)),
    row('build', circuit.build, circuit.order),
  ].join('\n');
}

/** What is expected, was measured, and is set aside. */
export function intentSignature(circuit: Circuit): string {
  return [
    ...circuit.expectations.map((expectation) =>
      row('expect', expectation.settings.map(settingOf), expectation.claims.map(claimOf)),
    ),
    ...circuit.measurements.map((measured) =>
      row('measured', measured.between, measured.settings.map(settingOf), measured.claims.map(claimOf)),
    ),
    ...circuit.allows.map((allow) => row('allow', allow.rule, allow.on, allow.why)),
    row('record', circuit.record?.number, circuit.record?.changed, circuit.record?.before, circuit.record?.done),
  ].join('\n');
}

/** One line of a signature; JSON keeps names with odd letters apart. */
function row(...fields: readonly unknown[]): string {
  return JSON.stringify(fields);
}

/** The capacitance a metre of shielded wire and the lengths that it is counted for; nothing where none is given. */
function screensOf(circuit: Circuit): readonly unknown[] {
  const perMetre = circuit.build?.['shielded-capacitance'] ?? 0;
  if (perMetre === 0) return [];
  const lookup = lugLookup(circuit);
  const shielded = circuit.joints.filter(({ screen }) => screen !== undefined);
  return [perMetre, ...shielded.map((joint) => statedLength(lookup, joint) ?? null)];
}

function endsOf(element: Element): readonly (number | undefined)[] {
  if (element.kind === 'track') return [element.wiper, element.shaft, element.leavesTo];
  return element.kind === 'gain' ? [element.plus, element.minus, element.inverting] : [];
}

function valuesOf(element: Element): readonly unknown[] {
  switch (element.kind) {
    case 'coil': {
      const { resistance, inductance, capacitance, loss, output, winding, magnet, coupling, turns, piezo } = element;
      const { eddyInductance, eddyResistance, lossExponent, coverShading } = element;
      return [
        ...[resistance, inductance, capacitance, loss, eddyResistance].map(amount),
        ...[eddyInductance, lossExponent, coverShading, output, winding, magnet, coupling, turns, piezo],
      ];
    }
    case 'resistor':
      return [amount(element.resistance)];
    case 'capacitor':
      return [amount(element.capacitance)];
    case 'inductor':
      return [amount(element.inductance), amount(element.resistance), element.coupling];
    case 'diode':
      return [amount(element.forward), amount(element.breakdown), element.lights];
    case 'battery':
      return [amount(element.voltage)];
    case 'track':
      return [amount(element.resistance), element.taper, element.points, element.mid, element.empty, element.full, element.end];
    case 'gain': {
      const { gain, inputResistance, outputResistance, current, transistor, bands } = element;
      return [gain, ...[inputResistance, outputResistance, current].map(amount), transistor, bands];
    }
  }
}

function amount(quantity: Quantity | undefined): readonly unknown[] {
  return quantity === undefined ? [] : [quantity.value, quantity.tolerance, quantity.known];
}

function lookOf(item: Pick<Joint, 'colour' | 'gauge' | 'length' | 'shielded' | 'make'>): readonly unknown[] {
  return [item.colour ?? null, item.gauge ?? null, item.length ?? null, item.shielded, item.make ?? null];
}

/** Properties that say how a part looks: they move the drawing, and no current. */
const SHAPES = ['body', 'spacing', 'insulated', 'hole'];

/** Properties that the response of a string alone reads, of which nothing is kept. */
const PLACES_ON_STRING = ['from-bridge', 'aperture'];

/** A part's properties: its shape, or all others. */
function given(part: Part, shapes: boolean): readonly unknown[] {
  return Object.entries(part.properties)
    .filter(([name]) => SHAPES.includes(name) === shapes && !PLACES_ON_STRING.includes(name))
    .map(([name, property]) => [name, 'words' in property ? property.words : amount(property)]);
}

function settingOf(setting: ControlSetting): readonly unknown[] {
  return setting.kind === 'switch' ? ['switch', setting.switch, setting.position] : ['shaft', setting.shaft, setting.rotation];
}

function claimOf(claim: Claim): readonly unknown[] {
  switch (claim.kind) {
    case 'sounds':
      return [claim.kind, arrangementOf(claim.arrangement)];
    case 'hum':
      return [claim.kind, claim.hum];
    case 'reads':
      return [claim.kind, claim.ohm, claim.within];
    case 'peak':
    case 'cutoff':
      return [claim.kind, claim.hz, claim.within];
    case 'level':
      return [claim.kind, claim.db, claim.hz, claim.within];
    default:
      return [claim.kind];
  }
}

function arrangementOf(arrangement: Arrangement): readonly unknown[] {
  const common = [arrangement.kind, arrangement.reversed, arrangement.share ?? null];
  if (arrangement.kind === 'pickup') return [...common, arrangement.part];
  if (arrangement.kind === 'coil') return [...common, arrangement.coil];
  return [...common, ...arrangement.members.map(arrangementOf)];
}
