/** A pickup's resonance: by itself, on a lead, and in its place in the instrument. */
import {
  analysed,
  elementId,
  lugById,
  lugId,
  partById,
  partId,
  type AnalysedCircuit,
  type Circuit,
  type Coil,
  type Lug,
  type PartId,
  type Rig,
} from '../../circuit/model.js';
import { coilsOf } from '../sound/arrangement.js';
import type { ResponseSummary, Setting } from '../model.js';
import { responseSummarySteps } from '../response.js';
import { describeSound } from '../sound/sound.js';
import { finished, type Steps } from '../../steps.js';
import { whereHeardSteps, type SoundIn } from './where-heard.js';

export interface PickupAnswer {
  /** Nothing connected: the winding with its own capacitance. */
  readonly alone: ResponseSummary;
  /** On the lead and amplifier of the rig, no controls. */
  readonly onLead: ResponseSummary;
  /** In the instrument, in the first setting where it sounds alone (else the first where it sounds); absent where it is never heard. */
  readonly inPlace?: { readonly setting: Setting; readonly response: ResponseSummary };
  /** True where coupling between its coils is left out because it is not known, which makes figures for a split pickup approximate. */
  readonly approximate: boolean;
}

/** Peak, height and corner of a pickup, all its coils in series and in phase, by the solver. Undefined for a part without a coil. */
export function pickupAnswer(circuit: AnalysedCircuit, part: PartId): PickupAnswer | undefined {
  return finished(pickupSteps(circuit, part, describeSound));
}

/** The same in steps of one solved setting each. */
export function* pickupSteps(circuit: AnalysedCircuit, part: PartId, soundIn: SoundIn): Steps<PickupAnswer | undefined> {
  const coils = coilsOf(circuit, part).map((id) => circuit.elements[id] as Coil);
  if (coils.length === 0) return undefined;
  const setting = yield* whereHeardSteps(circuit, part, soundIn);
  yield;
  return {
    alone: yield* onRig(circuit, part, coils, { cable: 0, input: Infinity }),
    onLead: yield* onRig(circuit, part, coils, circuit.rig),
    ...(setting === undefined ? {} : { inPlace: { setting, response: yield* responseSummarySteps(circuit, setting) } }),
    approximate: coils.length > 1 && coils.some((coil) => coil.coupling === undefined),
  };
}

/** The pickup between tip and sleeve of an imagined jack, with nothing else. */
function* onRig(circuit: Circuit, part: PartId, coils: readonly Coil[], rig: Rig): Steps<ResponseSummary> {
  const imagined = partId(0);
  const model = lugById(circuit, lugId(0));
  const lugs = Array.from({ length: coils.length + 1 }, (_, id): Lug => ({
    ...model,
    id: lugId(id),
    part: imagined,
    label: `point ${id}`,
    metal: false,
  }));
  // Each coil from one point to the next, turned where it must be so that all drive the same way.
  const elements = coils.map((coil, i): Coil => {
    const isTurned = coil.winding * coil.magnet === -1;
    const [from, to] = [lugId(i), lugId(i + 1)];
    return { ...coil, id: elementId(i), part: imagined, a: isTurned ? to : from, b: isTurned ? from : to };
  });
  const alone = analysed({
    ...circuit,
    parts: [
      { ...partById(circuit, part), id: imagined, lugs: lugs.map((lug) => lug.id), elements: elements.map((coil) => coil.id) },
    ],
    lugs,
    elements,
    joints: [],
    switches: [],
    shafts: [],
    rig,
    output: { part: imagined, tip: lugId(coils.length), sleeve: lugId(0) },
  });
  return yield* responseSummarySteps(alone, { positions: [], rotations: [] });
}
