/** What a capacitor does in this circuit, by solving with it and without it. */
import {
  shaftById,
  type Capacitor,
  type AnalysedCircuit,
  type Circuit,
  type ElementId,
  type ShaftId,
  type Track,
} from '../../circuit/model.js';
import { levelsIn, totalAt, type comparedHz } from '../controls/control-levels.js';
import { enumerate } from '../settings/enumerate.js';
import type { ResponseSummary, Setting } from '../model.js';
import { netOf, nets } from '../network/nets.js';
import { responseSummarySteps } from '../response.js';
import { withRotation } from '../settings/settings.js';
import { finished, type Steps } from '../../steps.js';
import { withElement, withValue } from './variant.js';

/** `tone` takes treble to ground, `treble-bleed` lets it past a control, `bass-cut` stands in the signal's way; `none`: it changes nothing. */
export type CapacitorRole = 'tone' | 'treble-bleed' | 'bass-cut' | 'other' | 'none';

export interface CapacitorAnswer {
  readonly role: CapacitorRole;
  /** The setting in which it does most. */
  readonly setting: Setting;
  /** The shaft whose track it is soldered to, if any. */
  readonly shaft?: ShaftId;
  /**
   * The response with that shaft at 10, 5 and 0 (one entry, the setting as it is, where there is no such shaft), and the change in dB at
   * 100 Hz and at 4 kHz against the same without the capacitor. The resonance is what is heard; the corner of a bare resistor and
   * capacitor is not ("On pickups and tone controls", guitarhacking.net, 2021).
   */
  readonly at: readonly {
    readonly rotation?: number;
    readonly response: ResponseSummary;
    readonly bassDb: number;
    readonly trebleDb: number;
  }[];
  /** One sentence. */
  readonly says: string;
}

/** Groups of equal nets looked through at most. */
const most = 64;

/** The role and effect of a capacitor, in `setting` or, where none is given, in the setting in which it changes most. Undefined for another element. */
export function capacitorAnswer(circuit: AnalysedCircuit, id: ElementId, setting?: Setting): CapacitorAnswer | undefined {
  return finished(capacitorSteps(circuit, id, setting));
}

/** The same in steps of one solved setting each. */
export function* capacitorSteps(circuit: AnalysedCircuit, id: ElementId, setting?: Setting): Steps<CapacitorAnswer | undefined> {
  const element = circuit.elements[id];
  if (element?.kind !== 'capacitor') return undefined;
  const without = withElement(circuit, id, (capacitor) => ({
    ...(capacitor as Capacitor),
    capacitance: withValue(element.capacitance, 0),
  }));
  const both = [createVariant(circuit), createVariant(without)] as const;
  let best:
    { readonly setting: Setting; readonly shaft?: ShaftId; readonly at: readonly Change[]; readonly change: number } | undefined;
  for (const candidate of setting === undefined ? candidates(circuit) : [setting]) {
    const shaft = shaftOf(circuit, element, candidate);
    const turned = shaft === undefined ? [undefined] : [10, 5, 0];
    yield;
    const at: Change[] = [];
    for (const rotation of turned) {
      at.push(yield* changeAt(both, candidate, shaft, rotation));
    }
    const change = Math.max(...at.map(({ bassDb, trebleDb }) => Math.max(Math.abs(bassDb), Math.abs(trebleDb))));
    if (best === undefined || change > best.change + 0.01)
      best = { setting: candidate, at, change, ...(shaft === undefined ? {} : { shaft }) };
  }
  if (best === undefined) return undefined;
  const role = roleOf(best.at);
  // In the signal's way it works whatever stands behind it; only a pot across it has a say.
  const isTurned = best.shaft !== undefined && (role !== 'bass-cut' || isAcross(circuit, element, best.shaft, best.setting));
  const changes = isTurned || best.shaft === undefined ? best.at : [yield* changeAt(both, best.setting)];
  const at = yield* withResponses(circuit, changes);
  return {
    role,
    setting: best.setting,
    at,
    says: sentence(role, at),
    ...(isTurned && best.shaft !== undefined ? { shaft: best.shaft } : {}),
  };
}

/** True where a track of the shaft lies between the capacitor's two nets. */
function isAcross(circuit: AnalysedCircuit, capacitor: Capacitor, shaft: ShaftId, setting: Setting): boolean {
  const { of } = nets(circuit, setting.positions);
  return shaftById(circuit, shaft).tracks.some((id) => {
    const track = circuit.elements[id] as Track;
    const own = new Set([track.a, track.wiper, track.b].map((lug) => of[lug]));
    return own.has(of[capacitor.a]) && own.has(of[capacitor.b]);
  });
}

function candidates(circuit: AnalysedCircuit): readonly Setting[] {
  const { settings, group } = enumerate(circuit);
  const seen = new Set<number>();
  return settings.filter((_, i) => {
    const number = group[i];
    return number !== undefined && seen.size < most && !seen.has(number) && seen.add(number);
  });
}

/** The shaft with a track on one of the capacitor's nets, ground apart. */
function shaftOf(circuit: AnalysedCircuit, capacitor: Capacitor, setting: Setting): ShaftId | undefined {
  const folded = nets(circuit, setting.positions);
  const own = [capacitor.a, capacitor.b].map((lug) => netOf(folded, lug)).filter((net) => net !== folded.ground);
  const touches = (shaft: Circuit['shafts'][number]): number =>
    shaft.tracks.reduce((sum, id) => {
      const track = circuit.elements[id] as Track;
      return sum + [track.a, track.wiper, track.b].filter((lug) => own.includes(netOf(folded, lug))).length;
    }, 0);
  const beside = [capacitor.a, capacitor.b].map((lug) =>
    circuit.elements.filter((element) => element.id !== capacitor.id && onNet(element, folded.of, netOf(folded, lug))),
  );
  const shafts = circuit.shafts.map((shaft) => ({
    shaft,
    score: touches(shaft),
    alone: beside.some((others) => others.length > 0 && others.every((other) => shaft.tracks.includes(other.id))),
  }));
  // A net of the capacitor and one track only is a surer sign than the hot net, on which everything meets.
  shafts.sort((a, b) => Number(b.alone) - Number(a.alone) || b.score - a.score);
  return shafts[0] !== undefined && shafts[0].score > 0 ? shafts[0].shaft.id : undefined;
}

function onNet(element: Circuit['elements'][number], of: Int32Array, net: number): boolean {
  return of[element.a] === net || of[element.b] === net || (element.kind === 'track' && of[element.wiper] === net);
}

/** What the capacitor changes in one setting, in dB. */
interface Change {
  readonly setting: Setting;
  readonly rotation?: number;
  readonly bassDb: number;
  readonly trebleDb: number;
}

/** The circuit with the capacitor or without it, and a setting of it with one shaft turned. */
interface Variant {
  readonly circuit: AnalysedCircuit;
  readonly turned: (setting: Setting, shaft: ShaftId | undefined, rotation: number | undefined) => Setting;
}

/** Gives the same rotations as the same array each time, since the branches of a circuit are kept by it, and those of one circuit at a time. */
function createVariant(circuit: AnalysedCircuit): Variant {
  const made = new Map<string, readonly number[]>();
  return {
    circuit,
    turned: (setting, shaft, rotation) => {
      const { rotations } = shaft === undefined || rotation === undefined ? setting : withRotation(setting, shaft, rotation);
      const key = rotations.join();
      const own = made.get(key) ?? [...rotations];
      made.set(key, own);
      return { positions: setting.positions, rotations: own };
    },
  };
}

function* changeAt(both: readonly [Variant, Variant], from: Setting, shaft?: ShaftId, rotation?: number): Steps<Change> {
  const [here, gone] = both;
  const folded = nets(here.circuit, from.positions);
  const setting = here.turned(from, shaft, rotation);
  const levels = levelsIn(here.circuit, folded, setting);
  yield;
  const others = levelsIn(gone.circuit, folded, gone.turned(from, shaft, rotation));
  yield;
  const change = (hz: (typeof comparedHz)[number]): number => totalAt(levels, hz) - totalAt(others, hz);
  const common = { setting, bassDb: change(100), trebleDb: change(4000) };
  return rotation === undefined ? common : { rotation, ...common };
}

/** A whole response takes many times what the two levels take, so it is worked out only for what is answered. */
function* withResponses(circuit: AnalysedCircuit, changes: readonly Change[]): Steps<CapacitorAnswer['at']> {
  const at: CapacitorAnswer['at'][number][] = [];
  for (const { setting, ...change } of changes) {
    at.push({ ...change, response: yield* responseSummarySteps(circuit, setting) });
    yield;
  }
  return at;
}

function roleOf(at: readonly Change[]): CapacitorRole {
  const bass = at.map(({ bassDb }) => bassDb);
  const treble = at.map(({ trebleDb }) => trebleDb);
  if ([...bass, ...treble].every((change) => Math.abs(change) < 0.5)) return 'none';
  // Without a capacitor in the signal's way nothing arrives at all.
  if (Math.max(...bass) > 10 && Math.max(...treble) > Math.max(...bass)) return 'bass-cut';
  const most = Math.max(...treble.map(Math.abs));
  if (bass.some((change) => Math.abs(change) > Math.max(3, most / 4))) return 'other';
  if (Math.min(...treble) <= -0.5) return 'tone';
  return Math.max(...treble) >= 0.5 ? 'treble-bleed' : 'other';
}

function sentence(role: CapacitorRole, at: CapacitorAnswer['at']): string {
  const peaks = at
    .map(({ rotation, response: { peak, cutoffHz } }) => {
      const where = rotation === undefined ? '' : ` at ${rotation}`;
      if (peak !== null) return `peak ${hertz(peak.hz)}, ${peak.db.toFixed(1)} dB${where}`;
      return `no peak${cutoffHz === null ? '' : `, −3 dB at ${hertz(cutoffHz)}`}${where}`;
    })
    .join('; ');
  const words: Readonly<Record<CapacitorRole, string>> = {
    tone: 'takes treble to ground',
    'treble-bleed': 'lets treble bypass the control',
    'bass-cut': 'blocks bass',
    other: 'changes the sound',
    none: 'changes nothing here',
  };
  return role === 'none' ? words.none : `${words[role]}: ${peaks}`;
}

function hertz(hz: number): string {
  return hz < 1000 ? `${hz.toFixed(0)} Hz` : `${(hz / 1000).toFixed(2)} kHz`;
}
