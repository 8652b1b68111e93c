/** The mistakes of someone who types a circuit from a diagram, every one of each kind. */
import type { Circuit, LugId, Part } from '../../../../language/circuit/model.js';
import type { Edit } from '../../../../language/source.js';
import {
  endsOf,
  exchanged,
  label,
  lastLine,
  leftOut,
  nameable,
  swapped,
  wrongLugs,
  type End,
  type LugPair,
} from '../mistakes.js';

export const slipKinds = [
  'another lug of the part',
  'same lug of a twin part',
  'two lugs exchanged',
  'wire forgotten',
  'pot mirrored',
  'switch pole mirrored',
  'wire doubled',
  'capacitor on a wrong lug',
  'pickup leads exchanged',
] as const;
export type SlipKind = (typeof slipKinds)[number];

export interface Slip {
  readonly says: string;
  readonly edits: readonly Edit[];
}

/** Every slip of each kind, in a fixed order. */
export function slipsOf(circuit: Circuit): ReadonlyMap<SlipKind, readonly Slip[]> {
  const ends = endsOf(circuit);
  const ofCapacitors = ends.filter((end) => isOfCapacitor(circuit, end));
  const others = ends.filter((end) => !ofCapacitors.includes(end));
  const onPart = (from: readonly End[]): readonly Slip[] =>
    wrongLugs(circuit, from).filter(({ kind }) => kind === 'lug of the same part');
  return new Map<SlipKind, readonly Slip[]>([
    ['another lug of the part', onPart(others)],
    ['same lug of a twin part', twinSlips(circuit, ends)],
    ['two lugs exchanged', exchanged(circuit, ends)],
    ['wire forgotten', leftOut(circuit)],
    ['pot mirrored', mirroredPots(circuit, ends)],
    ['switch pole mirrored', mirroredPoles(circuit, ends)],
    ['wire doubled', doubledWires(circuit)],
    ['capacitor on a wrong lug', onPart(ofCapacitors)],
    ['pickup leads exchanged', reversedPickups(circuit, ends)],
  ]);
}

function partOf(circuit: Circuit, lug: LugId): Part {
  return circuit.parts[circuit.lugs[lug]!.part]!;
}

/** An end at which the lead of a capacitor is soldered. */
function isOfCapacitor(circuit: Circuit, { lug, others }: End): boolean {
  const isCapacitor = (of: LugId): boolean =>
    partOf(circuit, of).elements.some((id) => circuit.elements[id]!.kind === 'capacitor') &&
    partOf(circuit, of).family === 'passive';
  return others.some(isCapacitor) && !isCapacitor(lug);
}

/** The same lug of another part of the type: the neighbouring pot, the other pickup. */
function twinSlips(circuit: Circuit, ends: readonly End[]): readonly Slip[] {
  return ends.flatMap(({ lug, range, others }) => {
    const own = partOf(circuit, lug);
    const twins = circuit.parts.filter(({ id, type, family }) => id !== own.id && type === own.type && family !== 'screen');
    return twins.flatMap((twin): readonly Slip[] => {
      const to = nameable(circuit, twin.id).find((other) => circuit.lugs[other]!.name === circuit.lugs[lug]!.name);
      if (to === undefined || others.includes(to)) return [];
      const says = `${label(circuit, lug)} (to ${others.map((other) => label(circuit, other)).join(', ')}) is written ${label(circuit, to)}`;
      return [{ says, edits: [{ range, text: label(circuit, to) }] }];
    });
  });
}

/** Both ends of a track exchanged with everything on them. */
function mirroredPots(circuit: Circuit, ends: readonly End[]): readonly Slip[] {
  return circuit.parts.flatMap((part) => {
    const tracks = part.elements.map((id) => circuit.elements[id]!).filter((element) => element.kind === 'track');
    const pairs = tracks.map((track): LugPair => [track.a, track.leavesTo ?? track.b]);
    return part.parent === undefined && pairs.length > 0 ? swapped(circuit, ends, pairs) : [];
  });
}

/** The throws of one pole counted from its other end. */
function mirroredPoles(circuit: Circuit, ends: readonly End[]): readonly Slip[] {
  return circuit.switches.flatMap(({ part, positions }) => {
    const throws = new Map<string, LugId[]>();
    for (const lug of circuit.parts[part]!.lugs) {
      const [, letter, number] = /^([A-Z]|in)(\d+)$/.exec(circuit.lugs[lug]!.name) ?? [];
      if (letter === undefined || Number(number) < 1 || Number(number) > positions.length) continue;
      throws.set(letter, [...(throws.get(letter) ?? []), lug]);
    }
    return [...throws.values()].flatMap((row) => {
      const half = row.slice(0, Math.floor(row.length / 2));
      return swapped(
        circuit,
        ends,
        half.map((lug, index): LugPair => [lug, row[row.length - 1 - index]!]),
      );
    });
  });
}

/** A wire written again, the second time to another lug of the part at one of its ends. */
function doubledWires(circuit: Circuit): readonly Slip[] {
  const place = lastLine(circuit);
  return circuit.joints
    .filter(({ kind }) => kind === 'wire')
    .flatMap(({ a, b }) =>
      [
        [a, b],
        [b, a],
      ].flatMap(([from, to]) =>
        nameable(circuit, circuit.lugs[to!]!.part)
          .filter((other) => other !== to && other !== from)
          .map((other) => ({
            says: `besides the wire from ${label(circuit, from!)} to ${label(circuit, to!)} there is one to ${label(circuit, other)}`,
            edits: [{ range: place, text: `wire ${label(circuit, from!)} to ${label(circuit, other)}\n` }],
          })),
      ),
    );
}

/** Both leads of a pickup, or of one coil of a pickup with four, at each other's place. */
function reversedPickups(circuit: Circuit, ends: readonly End[]): readonly Slip[] {
  return circuit.parts
    .filter(({ family, parent }) => family === 'pickup' && parent === undefined)
    .flatMap(({ elements }) =>
      elements.flatMap((id) => {
        const { a, b } = circuit.elements[id]!;
        return [a, b].every((lug) => circuit.lugs[lug]!.inner !== true) ? swapped(circuit, ends, [[a, b]]) : [];
      }),
    );
}
