/** Every single fault that the trade knows, each as the circuit that it makes. */
import {
  altered,
  elementById,
  lugId,
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Capacitor,
  type Circuit,
  type Coil,
  type Element,
  type Joint,
  type Lug,
  type LugId,
  type Track,
} from '../../circuit/model.js';
import { jointClasses, netOf } from '../../electrics/index.js';
import type { Fault, FaultKind } from './model.js';
import { wiringFaults } from './wiring-faults.js';
import { firstOf, groupBy, lastOf } from '../../collections.js';
import { lugLabel } from '../../circuit/model.js';
import { abridged } from '../../words.js';

/**
 * Weights are judgements of common practice: a joint fails before a winding does, a winding at its start or lead before its middle. Where a fault can
 * be in many places each place has its own weight.
 */
const weights = {
  'cold joint': 1,
  'broken coil': 0.8,
  'touches metal': 0.7,
  'screen strand': 0.8,
  'open contact': 0.5,
  'bridged lugs': 0.35,
  'partly shorted coil': 0.4,
  'shorted coil': 0.3,
  'worn wiper': 0.4,
  'broken track': 0.2,
  'shorted capacitor': 0.25,
  'open capacitor': 0.2,
  'reversed pickup': 0.3,
  'reversed coil': 0.25,
  'no supply': 0.9,
} as const satisfies Partial<Record<FaultKind, number>>;

/** Shares of a winding that are left when turns are shorted. */
const shares = [0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55, 0.5, 0.4, 0.3, 0.2, 0.1];

export function faultsOf(circuit: AnalysedCircuit): readonly Fault[] {
  const made: Make = (kind, fault) => ({ kind, weight: weights[kind], ...fault });
  return [
    ...coldJoints(circuit, made),
    ...touches(circuit, made),
    ...bridges(circuit, made),
    ...circuit.elements.flatMap((element) => elementFaults(circuit, element, made)),
    ...pickupsReversed(circuit, made),
    ...contacts(circuit, made),
    ...wiringFaults(circuit),
  ];
}

type Make = (kind: keyof typeof weights, fault: Omit<Fault, 'kind' | 'weight'>) => Fault;

function coldJoints(circuit: AnalysedCircuit, made: Make): readonly Fault[] {
  return circuit.joints.flatMap((joint): readonly Fault[] => {
    if (joint.kind === 'touch' || joint.a === joint.b) return [];
    const rest = altered(circuit, { joints: circuit.joints.filter((other) => other !== joint) });
    const isInside = joint.kind === 'inside';
    const says = isInside
      ? 'a joint inside the part is open'
      : joint.kind === 'wire'
        ? 'a cold joint, or a broken wire'
        : 'a cold joint';
    const fault = made('cold joint', {
      says,
      where: `${lugLabel(circuit, joint.a)} to ${lugLabel(circuit, joint.b)}`,
      circuit: rest,
      probes: [joint.a, joint.b],
    });
    return [isInside ? { ...fault, weight: 0.2 } : fault];
  });
}

/** A lug, a lead's end or a strand that meets a case, a frame, a painted wall: one fault a net, since the meter sees nets. */
function touches(circuit: AnalysedCircuit, made: Make): readonly Fault[] {
  const { output } = circuit;
  if (output === undefined) return [];
  const classes = jointClasses(circuit);
  const ground = netOf(classes, output.sleeve);
  const reachable = circuit.lugs.filter((lug) => netOf(classes, lug.id) !== ground && lug.inner !== true);
  const nets = groupBy(reachable, (lug) => netOf(classes, lug.id));
  return [...nets.values()].flatMap((lugs): readonly Fault[] => {
    const outside = lugs.filter((lug) => isOnPart(circuit, lug));
    const [first] = outside;
    if (first === undefined) return [];
    const isWired = circuit.joints.some(({ a, b }) => a === first.id || b === first.id) || lugs.length > 1;
    const fault = made('touches metal', {
      says: 'a lug, a lead or a strand touches metal that is on ground',
      where: abridged(
        outside.map((lug) => lug.label),
        'or',
        6,
      ),
      circuit: joined(circuit, first.id, output.sleeve),
      probes: [first.id, output.sleeve],
    });
    const strands = circuit.joints.flatMap(({ a, b, screen }) => {
      if (screen === undefined || !lugs.some(({ id }) => id === a)) return [];
      return made('screen strand', {
        says: 'a strand of the screen touches the wire inside it',
        where: `${lugLabel(circuit, a)} to ${lugLabel(circuit, b)}`,
        circuit: joined(circuit, a, screen),
        probes: [a, screen],
      });
    });
    return [isWired ? fault : { ...fault, weight: 0.1 }, ...strands];
  });
}

function isOnPart(circuit: Circuit, { part }: Lug): boolean {
  const { parent, family } = partById(circuit, part);
  return parent === undefined && family !== 'screen';
}

function bridges(circuit: AnalysedCircuit, made: Make): readonly Fault[] {
  const { of } = jointClasses(circuit);
  return circuit.parts.flatMap(({ rows, parent }) => {
    if (parent !== undefined) return [];
    return rows.flatMap((row, r) =>
      row.flatMap((lug, c) =>
        [row[c + 1], rows[r + 1]?.[c]].flatMap((other): readonly Fault[] => {
          if (lug === null || other === null || other === undefined || of[lug] === of[other]) return [];
          return [
            made('bridged lugs', {
              says: 'solder or a strand bridges two lugs',
              where: `${lugLabel(circuit, lug)} and ${lugLabel(circuit, other)}`,
              circuit: joined(circuit, lug, other),
              probes: [lug, other],
            }),
          ];
        }),
      ),
    );
  });
}

function elementFaults(circuit: AnalysedCircuit, element: Element, made: Make): readonly Fault[] {
  switch (element.kind) {
    case 'coil':
      return coilFaults(circuit, element, made);
    case 'capacitor':
      return capacitorFaults(circuit, element, made);
    case 'track':
      return trackFaults(circuit, element, made);
    case 'battery':
      return [
        made('no supply', {
          says: 'the battery is flat, or its clip makes no contact',
          where: nameOf(circuit, element),
          circuit: cutOff(circuit, element, 'a'),
        }),
      ];
    default:
      return [];
  }
}

function coilFaults(circuit: AnalysedCircuit, coil: Coil, made: Make): readonly Fault[] {
  const where = nameOf(circuit, coil);
  const probes = [coil.a, coil.b] as const;
  return [
    made('broken coil', {
      says: 'the winding is open, most often at its start or where a lead is joined',
      where,
      circuit: openAt(circuit, coil),
      probes,
    }),
    made('shorted coil', { says: 'the winding is shorted', where, circuit: joined(circuit, coil.a, coil.b), probes }),
    ...shares.map((share) =>
      made('partly shorted coil', {
        says: `turns of the winding are shorted: about ${Math.round(100 * share)} % of its resistance is left`,
        where,
        circuit: replaced(circuit, {
          ...coil,
          resistance: { ...coil.resistance, value: coil.resistance.value * share },
          // Inductance and voltage go with the turns that are left, inductance by their square.
          inductance: { ...coil.inductance, value: coil.inductance.value * share * share },
          output: coil.output * share,
        }),
        probes,
      }),
    ),
  ];
}

function capacitorFaults(circuit: AnalysedCircuit, capacitor: Capacitor, made: Make): readonly Fault[] {
  const where = nameOf(circuit, capacitor);
  const probes = [capacitor.a, capacitor.b] as const;
  return [
    made('shorted capacitor', {
      says: 'the capacitor is shorted',
      where,
      circuit: joined(circuit, capacitor.a, capacitor.b),
      probes,
    }),
    made('open capacitor', {
      says: 'the capacitor is open',
      where,
      circuit: replaced(circuit, { ...capacitor, capacitance: { ...capacitor.capacitance, value: 0 } }),
      probes,
    }),
  ];
}

function trackFaults(circuit: AnalysedCircuit, track: Track, made: Make): readonly Fault[] {
  const where = nameOf(circuit, track);
  const brokenAt = (side: 'a' | 'b'): Fault =>
    made('broken track', {
      says: `the track is broken at ${lugLabel(circuit, track[side])}`,
      where,
      circuit: cutOff(circuit, track, side),
      probes: [track.a, track.leavesTo ?? track.b],
    });
  return [
    made('worn wiper', {
      says: 'the wiper no longer touches the track',
      where,
      circuit: cutOff(circuit, track, 'wiper'),
      probes: [track.wiper, track.a],
    }),
    brokenAt('a'),
    ...(track.leavesTo === undefined ? [brokenAt('b')] : []),
  ];
}

function pickupsReversed(circuit: AnalysedCircuit, made: Make): readonly Fault[] {
  return circuit.parts.flatMap(({ name, family, elements }): readonly Fault[] => {
    if (family !== 'pickup') return [];
    const turned = (ids: readonly number[]): AnalysedCircuit =>
      altered(circuit, {
        elements: circuit.elements.map((element) =>
          ids.includes(element.id) && element.kind === 'coil' ? { ...element, winding: -element.winding as 1 | -1 } : element,
        ),
      });
    const coils = elements.map((id) => elementById(circuit, id)).filter((element) => element.kind === 'coil');
    const alone = coils.length < 2 ? [] : coils;
    return [
      ...alone.map((coil) =>
        made('reversed coil', {
          says: 'the coil is reversed relative to the other: its two leads are exchanged',
          where: nameOf(circuit, coil),
          circuit: turned([coil.id]),
        }),
      ),
      made('reversed pickup', {
        says: 'the pickup is wound or connected the opposite way to what the file says',
        where: name,
        circuit: turned(elements),
      }),
    ];
  });
}

/** A contact that does not close, in one position or in all. */
function contacts(circuit: AnalysedCircuit, made: Make): readonly Fault[] {
  return circuit.switches.flatMap((device) =>
    device.positions.flatMap((position, at) =>
      position.joins.map((contact, index) => {
        const positions = device.positions.map((other, i) =>
          i === at ? { ...other, joins: other.joins.filter((_, j) => j !== index) } : other,
        );
        const switches = circuit.switches.map((other) => (other === device ? { ...device, positions } : other));
        const name = position.label === position.key ? position.label : `"${position.label}"`;
        return made('open contact', {
          says: `the contact does not close at ${device.name} ${name}`,
          where: abridged(contact.map((lug) => lugLabel(circuit, lug))),
          circuit: altered(circuit, { switches }),
          probes: [firstOf(contact), lastOf(contact)],
        });
      }),
    ),
  );
}

function nameOf(circuit: Circuit, { part, name }: Element): string {
  const { name: own, elements } = partById(circuit, part);
  return elements.length > 1 && name !== '' && name !== 'main' ? `${own}.${name}` : own;
}

/** The circuit with one more joint, which nobody made. */
export function joined(circuit: AnalysedCircuit, a: LugId, b: LugId): AnalysedCircuit {
  const { nameRange } = partOfLug(circuit, a);
  const joint: Joint = {
    id: circuit.joints.length,
    kind: 'touch',
    a,
    b,
    statement: -1,
    bare: true,
    twisted: false,
    shielded: false,
    ownLead: false,
    range: nameRange,
    aRange: nameRange,
    bRange: nameRange,
    statementRange: nameRange,
  };
  return altered(circuit, { joints: [...circuit.joints, joint] });
}

function replaced(circuit: AnalysedCircuit, element: Element): AnalysedCircuit {
  return altered(circuit, { elements: circuit.elements.map((other) => (other.id === element.id ? element : other)) });
}

/** An open winding still has its capacitance: a faint, thin sound may be left. */
function openAt(circuit: AnalysedCircuit, coil: Coil): AnalysedCircuit {
  return replaced(circuit, { ...coil, resistance: { ...coil.resistance, value: Infinity } });
}

/** One end of an element leads to nothing any more. */
function cutOff(circuit: AnalysedCircuit, element: Element, side: 'a' | 'b' | 'wiper'): AnalysedCircuit {
  const id = lugId(circuit.lugs.length);
  const loose: Lug = {
    id,
    part: element.part,
    name: '',
    label: '',
    metal: false,
    takesMany: false,
    uses: [],
    inner: true,
  };
  return altered(replaced(circuit, { ...element, [side]: id }), { lugs: [...circuit.lugs, loose] });
}
