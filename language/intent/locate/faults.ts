/** Every single fault that the trade knows, each as the circuit that it makes. */
import {
  altered,
  elementById,
  lugById,
  lugId,
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type Element,
  type Joint,
  type Lug,
  type LugId,
} from '../../circuit/model.js';
import { jointClasses } from '../../electrics/index.js';
import { listed } from '../../checks/index.js';
import type { Fault, FaultKind } from './model.js';
import { wiringFaults } from './wiring-faults.js';

/**
 * Weights are judgements of common practice: a joint fails before a winding does, a winding at its start or lead before its middle. Where a fault can
 * be in many places each place has its own weight.
 */
const weights: Readonly<Partial<Record<FaultKind, number>>> = {
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
};

/** Shares of a winding that are left when turns are shorted. */
const shares = [0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55, 0.5, 0.4, 0.3, 0.2, 0.1];

export function faultsOf(circuit: AnalysedCircuit): readonly Fault[] {
  const made = (kind: FaultKind, fault: Omit<Fault, 'kind' | 'weight'>): Fault => ({ kind, weight: weights[kind]!, ...fault });
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

type Make = (kind: FaultKind, fault: Omit<Fault, 'kind' | 'weight'>) => Fault;

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
      where: `${label(circuit, joint.a)} to ${label(circuit, joint.b)}`,
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
  const ground = classes.of[output.sleeve]!;
  const nets = new Map<number, Lug[]>();
  for (const lug of circuit.lugs) {
    if (classes.of[lug.id] !== ground && lug.inner !== true)
      nets.set(classes.of[lug.id]!, [...(nets.get(classes.of[lug.id]!) ?? []), lug]);
  }
  return [...nets.values()].flatMap((lugs): readonly Fault[] => {
    const outside = lugs.filter((lug) => isOnPart(circuit, lug));
    const [first] = outside;
    if (first === undefined) return [];
    const isWired = circuit.joints.some(({ a, b }) => a === first.id || b === first.id) || lugs.length > 1;
    const fault = made('touches metal', {
      says: 'a lug, a lead or a strand touches metal that is on ground',
      where: listed(
        outside.map((lug) => lug.label),
        'or',
        6,
      ),
      circuit: joined(circuit, first.id, output.sleeve),
      probes: [first.id, output.sleeve],
    });
    const screened = circuit.joints.filter((joint) => joint.screen !== undefined && lugs.some(({ id }) => id === joint.a));
    const strands = screened.map((joint) =>
      made('screen strand', {
        says: 'a strand of the screen touches the wire inside it',
        where: `${label(circuit, joint.a)} to ${label(circuit, joint.b)}`,
        circuit: joined(circuit, joint.a, joint.screen!),
        probes: [joint.a, joint.screen!],
      }),
    );
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
              where: `${label(circuit, lug)} and ${label(circuit, other)}`,
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
  const where = nameOf(circuit, element);
  const probes = [element.a, element.b] as const;
  const shorted = joined(circuit, element.a, element.b);
  switch (element.kind) {
    case 'coil':
      return [
        made('broken coil', {
          says: 'the winding is open, most often at its start or where a lead is joined',
          where,
          circuit: openAt(circuit, element),
          probes,
        }),
        made('shorted coil', { says: 'the winding is shorted', where, circuit: shorted, probes }),
        ...shares.map((share) =>
          made('partly shorted coil', {
            says: `turns of the winding are shorted: about ${Math.round(100 * share)} % of its resistance is left`,
            where,
            circuit: replaced(circuit, {
              ...element,
              resistance: { ...element.resistance, value: element.resistance.value * share },
              // Inductance and voltage go with the turns that are left, inductance by their square.
              inductance: { ...element.inductance, value: element.inductance.value * share * share },
              output: element.output * share,
            }),
            probes,
          }),
        ),
      ];
    case 'capacitor':
      return [
        made('shorted capacitor', { says: 'the capacitor is shorted', where, circuit: shorted, probes }),
        made('open capacitor', {
          says: 'the capacitor is open',
          where,
          circuit: replaced(circuit, { ...element, capacitance: { ...element.capacitance, value: 0 } }),
          probes,
        }),
      ];
    case 'track': {
      const end = element.leavesTo ?? element.b;
      const cut = (side: 'a' | 'b' | 'wiper'): AnalysedCircuit => cutOff(circuit, element, side);
      return [
        made('worn wiper', {
          says: 'the wiper no longer touches the track',
          where,
          circuit: cut('wiper'),
          probes: [element.wiper, element.a],
        }),
        made('broken track', {
          says: `the track is broken at ${label(circuit, element.a)}`,
          where,
          circuit: cut('a'),
          probes: [element.a, end],
        }),
        ...(element.leavesTo === undefined
          ? [
              made('broken track', {
                says: `the track is broken at ${label(circuit, element.b)}`,
                where,
                circuit: cut('b'),
                probes: [element.a, end],
              }),
            ]
          : []),
      ];
    }
    case 'battery':
      return [
        made('no supply', {
          says: 'the battery is flat, or its clip does not touch',
          where,
          circuit: cutOff(circuit, element, 'a'),
        }),
      ];
    default:
      return [];
  }
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
          says: 'the coil is turned against the other: its two leads are exchanged',
          where: nameOf(circuit, coil),
          circuit: turned([coil.id]),
        }),
      ),
      made('reversed pickup', {
        says: 'the pickup is wound or connected the other way round than is said',
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
          where: listed(contact.map((lug) => label(circuit, lug))),
          circuit: altered(circuit, { switches }),
          probes: [contact[0]!, contact[contact.length - 1]!],
        });
      }),
    ),
  );
}

function nameOf(circuit: Circuit, { part, name }: Element): string {
  const { name: own, elements } = partById(circuit, part);
  return elements.length > 1 && name !== '' && name !== 'main' ? `${own}.${name}` : own;
}

export function label(circuit: Circuit, lug: LugId): string {
  return lugById(circuit, lug).label;
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
function openAt(circuit: AnalysedCircuit, coil: Extract<Element, { kind: 'coil' }>): AnalysedCircuit {
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
