/** Faults that happen on the bench, made in a correct circuit, and what a meter at its jack then reads. */
import {
  altered,
  analysed,
  lugId,
  type AnalysedCircuit,
  type Circuit,
  type Element,
  type LugId,
} from '../../../language/circuit/model.js';
import {
  enumerate,
  jointClasses,
  meter,
  readAtJack,
  restingSetting,
  settingLabel,
  withRotation,
  type Setting,
} from '../../../language/electrics/index.js';

export interface BenchFault {
  readonly kind: string;
  readonly says: string;
  readonly circuit: AnalysedCircuit;
}

/** Each joint open, each net on metal, neighbouring lugs bridged, each winding open, shorted and shorted in part, wipers and contacts that do not touch. */
export function benchFaults(circuit: AnalysedCircuit): readonly BenchFault[] {
  const label = (lug: LugId): string => circuit.lugs[lug]!.label;
  const sleeve = circuit.output!.sleeve;
  const { of } = jointClasses(circuit);
  const joined = (a: LugId, b: LugId): AnalysedCircuit =>
    altered(circuit, {
      joints: [...circuit.joints, { ...circuit.joints[0]!, id: circuit.joints.length, kind: 'touch', a, b }],
    });
  const element = (changed: Element): AnalysedCircuit =>
    altered(circuit, { elements: circuit.elements.map((other) => (other.id === changed.id ? changed : other)) });
  const nets = [...new Set(of)].filter((net) => net !== of[sleeve]);
  const members = nets.map((net) => circuit.lugs.filter(({ id, inner }) => of[id] === net && inner !== true));
  const coils = circuit.elements.filter((one) => one.kind === 'coil');
  return [
    ...circuit.joints
      .filter(({ kind, a, b }) => (kind === 'wire' || kind === 'solder') && a !== b)
      .map((joint) => ({
        kind: 'joint open',
        says: `${label(joint.a)} to ${label(joint.b)}`,
        circuit: altered(circuit, { joints: circuit.joints.filter((other) => other !== joint) }),
      })),
    ...members
      .filter((lugs) => lugs.length > 1)
      .map((lugs) => ({
        kind: 'touches metal',
        says: lugs.map(({ label: name }) => name).join(', '),
        circuit: joined(lugs[0]!.id, sleeve),
      })),
    ...circuit.parts.flatMap(({ rows, parent }) =>
      parent !== undefined
        ? []
        : rows.flatMap((row) =>
            row.slice(1).flatMap((lug, i) => {
              const before = row[i];
              return lug === null || before === null || before === undefined || of[lug] === of[before]
                ? []
                : [{ kind: 'lugs bridged', says: `${label(before)} and ${label(lug)}`, circuit: joined(before, lug) }];
            }),
          ),
    ),
    ...coils.flatMap((coil) => {
      const says = `${circuit.parts[coil.part]!.name} ${coil.name}`;
      const part = (share: number): AnalysedCircuit =>
        element({
          ...coil,
          resistance: { ...coil.resistance, value: coil.resistance.value * share },
          inductance: { ...coil.inductance, value: coil.inductance.value * share ** 2 },
          output: coil.output * share,
        });
      return [
        { kind: 'winding open', says, circuit: element({ ...coil, resistance: { ...coil.resistance, value: Infinity } }) },
        { kind: 'winding shorted', says, circuit: joined(coil.a, coil.b) },
        { kind: 'winding shorted in part', says, circuit: part(0.7) },
      ];
    }),
    ...circuit.elements.flatMap((track) => {
      if (track.kind !== 'track') return [];
      const id = lugId(circuit.lugs.length);
      const lugs = [...circuit.lugs, { ...circuit.lugs[track.wiper]!, id, label: '', name: '', inner: true, metal: false }];
      return [
        { kind: 'wiper worn', says: circuit.parts[track.part]!.name, circuit: { ...element({ ...track, wiper: id }), lugs } },
      ];
    }),
    ...circuit.switches.flatMap((device) =>
      device.positions.flatMap((position, at) =>
        position.joins.map((contact, index) => ({
          kind: 'contact open',
          says: `${device.name} ${position.label}: ${contact.map(label).join(' ')}`,
          circuit: {
            ...circuit,
            switches: circuit.switches.map((other) =>
              other === device
                ? {
                    ...device,
                    positions: device.positions.map((one, i) =>
                      i === at ? { ...one, joins: one.joins.filter((_, j) => j !== index) } : one,
                    ),
                  }
                : other,
            ),
          },
        })),
      ),
    ),
  ];
}

/** Parts as they come: pots within 15 % of what is printed on them, coils within 2 %. */
export function asBuilt(circuit: Circuit, random: () => number): AnalysedCircuit {
  const factors = circuit.parts.map(({ family }) => 1 + (family === 'pickup' ? 0.02 : 0.15) * (2 * random() - 1));
  return analysed({
    ...circuit,
    elements: circuit.elements.map((element) =>
      element.kind === 'coil' || element.kind === 'track'
        ? { ...element, resistance: { ...element.resistance, value: element.resistance.value * factors[element.part]! } }
        : element,
    ),
  });
}

/** `measured` lines of every position at the jack and with each pot at 0, three digits each. */
export function jackLines(circuit: AnalysedCircuit): readonly string[] {
  const { settings } = enumerate(circuit);
  const rest = restingSetting(circuit);
  const turned = circuit.shafts.map(({ id }) => withRotation(rest, id, 0));
  return [...settings, ...turned].map((setting) => readingLine(circuit, setting));
}

/** One `measured` line as a meter of 0.5 % would fill it. */
export function readingLine(circuit: AnalysedCircuit, setting: Setting, between?: readonly [LugId, LugId]): string {
  const { ohm } = between === undefined ? readAtJack(circuit, setting) : meter(circuit, setting, ...between);
  const reads = ohm === null || ohm > 20e6 ? 'open' : ohm < 2 ? 'short' : `${Number((ohm * 1.003).toPrecision(3))}R`;
  const probes =
    between === undefined ? '' : ` between ${circuit.lugs[between[0]]!.label} and ${circuit.lugs[between[1]]!.label}`;
  return ['measured' + probes, settingLabel(circuit, setting)].filter(Boolean).join(' ') + ` : reads ${reads}`;
}
