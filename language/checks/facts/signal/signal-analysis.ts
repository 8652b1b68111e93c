/** What is heard, setting by setting, and which pickups nothing can make heard. */
import {
  isMated,
  altered,
  type AnalysedCircuit,
  type Circuit,
  elementById,
  isBuiltIn,
  type Joint,
  lugById,
  type LugId,
  type Output,
  type Part,
  partById,
  type PartId,
  partOfElement,
  type Shaft,
} from '../../../circuit/model.js';
import {
  describeSound,
  describeSoundSteps,
  levelAt,
  type MeterReading,
  type Nets,
  nets,
  readAtJackSteps,
  type ResponseSummary,
  responseSummarySteps,
  type Setting,
  type Sound,
  withPosition,
  withSwitchMoved,
  withRotation,
} from '../../../electrics/index.js';
import { finished, type Steps } from '../../../steps.js';
import type { Group } from '../group.js';
import { lazy } from '../../../lazy.js';
import { createSettingKey } from './setting-key.js';
import { audibleParts } from './audible.js';
import { shortedWithout } from './shorted.js';

export interface SignalAnalysis {
  /** What reaches the output, kept by setting. */
  sound(setting: Setting): Sound;
  /** What a meter reads at the jack, and the response's peak, kept alike. */
  reading(setting: Setting): MeterReading;
  response(setting: Setting): ResponseSummary;
  /** The same in steps of a few milliseconds each; what is returned at the end is kept. */
  soundSteps(setting: Setting): Steps<Sound>;
  readingSteps(setting: Setting): Steps<MeterReading>;
  responseSteps(setting: Setting): Steps<ResponseSummary>;
  /** The level at one frequency, or the reference level, null where the coils cancel. */
  level(setting: Setting, hz?: number): number | null;
  /** Those of `pickupsOf`. */
  readonly pickups: readonly Part[];
  /** Pickups that are heard in no position, however pots, resting switches and jacks are tried. */
  neverHeard(): ReadonlySet<PartId>;
  /** The search for them, step by step; `neverHeard` then has its result. */
  searchNeverHeard(): Generator<undefined, ReadonlySet<PartId>>;
  /** True where some turn of one pot makes the setting sound. */
  soundsWhenTurned(setting: Setting): boolean;
  /** The circuit as each jack hears it: the output's own view first, then other plugs in it, rings and other jacks. */
  views(): readonly View[];
}

/** The same circuit with another output, and with another plug in its jack. */
export interface View {
  readonly circuit: AnalysedCircuit;
  /** A setting with that plug put in. */
  at(setting: Setting): Setting;
}

/** `groupsAt` gives the groups of settings that differ at the circuit's output. */
export function createSignalAnalysis(
  circuit: AnalysedCircuit,
  groupsAt: (circuit: AnalysedCircuit) => readonly Group[],
): Omit<SignalAnalysis, 'pickups'> {
  const groups = (): readonly Group[] => groupsAt(circuit);
  const keyOf = createSettingKey(groups);
  const sounds = keepBySetting(circuit, keyOf, describeSoundSteps);
  const readings = keepBySetting(circuit, keyOf, readAtJackSteps);
  const responses = keepBySetting(circuit, keyOf, responseSummarySteps);
  const pickups = lazy(() => pickupsOf(circuit));
  const views = lazy(() => viewsOf(circuit));
  const turned = createTurns(circuit);
  let silentPickups: ReadonlySet<PartId> | undefined;
  function* searchNeverHeard(): Generator<undefined, ReadonlySet<PartId>> {
    return (silentPickups ??= yield* searchSilent({ circuit, groupsAt, pickups: pickups(), sounds, turned, views }));
  }
  return {
    sound: sounds.at,
    reading: readings.at,
    response: responses.at,
    soundSteps: sounds.steps,
    readingSteps: readings.steps,
    responseSteps: responses.steps,
    level(setting, hz) {
      const known = hz === undefined ? responses.known(setting) : undefined;
      return known === undefined ? levelAt(circuit, setting, hz) : known.levelDb;
    },
    views,
    searchNeverHeard,
    neverHeard: () => finished(searchNeverHeard()),
    soundsWhenTurned(setting) {
      // Without a pickup there is nothing to hear, whatever is turned.
      if (pickups().length === 0) return false;
      for (const other of turned(setting, nets(circuit, setting.positions))) if (!sounds.at(other).silent) return true;
      return false;
    },
  };
}

interface KeptBySetting<T> {
  steps(setting: Setting): Steps<T>;
  at(setting: Setting): T;
  /** What was solved before; nothing is solved for it. */
  known(setting: Setting): T | undefined;
}

function keepBySetting<T>(
  circuit: AnalysedCircuit,
  keyOf: (setting: Setting) => string,
  solve: (circuit: AnalysedCircuit, setting: Setting) => Steps<T>,
): KeptBySetting<T> {
  const kept = new Map<string, T>();
  function* steps(setting: Setting): Steps<T> {
    const key = keyOf(setting);
    const known = kept.get(key) ?? (yield* solve(circuit, setting));
    kept.set(key, known);
    return known;
  }
  const known = (setting: Setting): T | undefined => kept.get(keyOf(setting));
  return { steps, at: (setting) => known(setting) ?? finished(steps(setting)), known };
}

type Turns = (setting: Setting, folded: Nets) => Generator<Setting>;

/** Each pot at its ends and in the middle, one at a time, each made when it is asked for; without those that can't make anything heard. */
function createTurns(circuit: AnalysedCircuit): Turns {
  const shafts = lazy(() => solderedShafts(circuit));
  return function* (setting, folded) {
    const shorted = shortedWithout(circuit, folded, setting, shafts());
    for (const shaft of shafts()) {
      if (shorted.has(shaft.id)) continue;
      for (const rotation of [0, 5, 10]) {
        if (rotation !== setting.rotations[shaft.id]) yield withRotation(setting, shaft.id, rotation);
      }
    }
  };
}

interface Search {
  readonly circuit: AnalysedCircuit;
  readonly groupsAt: (circuit: AnalysedCircuit) => readonly Group[];
  readonly pickups: readonly Part[];
  readonly sounds: KeptBySetting<Sound>;
  readonly turned: Turns;
  readonly views: () => readonly View[];
}

/** Pickups that stay silent: first with the pots at rest, then with each pot turned, each resting switch pressed, and at the other jacks, pots turned too. */
function* searchSilent({ circuit, groupsAt, pickups, sounds, turned, views }: Search): Steps<ReadonlySet<PartId>> {
  const groups = groupsAt(circuit);
  const missing = new Set(pickups.map((part) => part.id));
  const tick = (heard: Sound): void => heard.heard.forEach(({ coil }) => missing.delete(elementById(circuit, coil).part));
  const couldFind = (parts: ReadonlySet<PartId>): boolean => [...missing].some((part) => parts.has(part));
  for (const { setting } of groups) {
    if (missing.size > 0) tick(yield* sounds.steps(setting));
    yield;
  }
  for (const { setting, folded } of missing.size > 0 ? groups : []) {
    const parts = audibleParts(circuit, folded);
    for (const other of turned(setting, folded)) {
      if (!couldFind(parts)) break;
      tick(yield* sounds.steps(other));
      yield;
    }
  }
  for (const setting of missing.size > 0 ? pressed(circuit, groups) : []) {
    if (couldFind(audibleParts(circuit, nets(circuit, setting.positions)))) tick(sounds.at(setting));
    yield;
  }
  for (const view of missing.size > 0 ? views().slice(1) : []) {
    const turnedThere = createTurns(view.circuit);
    // A switch that does nothing at the usual output may choose the pickups of this one.
    for (const group of groupsAt(view.circuit)) {
      const setting = view.at(group.setting);
      const folded = nets(view.circuit, setting.positions);
      const parts = audibleParts(view.circuit, folded);
      if (couldFind(parts)) tick(describeSound(view.circuit, setting));
      yield;
      for (const other of couldFind(parts) ? turnedThere(setting, folded) : []) {
        if (!couldFind(parts)) break;
        tick(describeSound(view.circuit, other));
        yield;
      }
    }
  }
  return missing;
}

/** Pickups that are meant to be heard: those with a coil that gives a voltage (a dummy coil has an output of 0 %). */
export function pickupsOf(circuit: Circuit): readonly Part[] {
  return circuit.parts.filter((part) =>
    part.elements.some((id) => {
      const element = elementById(circuit, id);
      return element.kind === 'coil' && element.output > 0;
    }),
  );
}

/** Each resting switch in its other positions, one at a time; connectors stay as they are mated, relays follow their batteries. */
function pressed(circuit: AnalysedCircuit, groups: readonly Group[]): readonly Setting[] {
  return groups.flatMap(({ setting }) =>
    circuit.switches
      .filter((device) => device.rest !== undefined && device.drive === undefined && !isMated(circuit, device))
      .flatMap((device) =>
        device.positions.flatMap((_, index) =>
          index === device.rest ? [] : [withSwitchMoved(circuit, setting, device.id, index)],
        ),
      ),
  );
}

/** Pots to which something is soldered; one with nothing soldered to it changes nothing. */
function solderedShafts(circuit: Circuit): readonly Shaft[] {
  const leadsOn = (joint: Joint): boolean => {
    const { part } = lugById(circuit, joint.a);
    return lugById(circuit, joint.b).part !== part || !isBuiltIn(joint, part);
  };
  const soldered = new Set(circuit.joints.flatMap((joint) => (leadsOn(joint) ? [joint.a, joint.b] : [])));
  return circuit.shafts.filter(({ tracks }) =>
    tracks.some((id) => partOfElement(circuit, id).lugs.some((lug) => soldered.has(lug))),
  );
}

function viewsOf(circuit: AnalysedCircuit): readonly View[] {
  const own: View = { circuit, at: (setting) => setting };
  const others = outputsOf(circuit).flatMap((output) => {
    const plugs = circuit.switches.find((device) => device.part === output.part);
    if (plugs === undefined) return output === circuit.output ? [] : [{ circuit: altered(circuit, { output }), at: own.at }];
    return plugs.positions.flatMap((_, index): View[] => {
      if (output === circuit.output && index === plugs.rest) return [];
      const switches = circuit.switches.map((device) => (device === plugs ? { ...device, rest: index } : device));
      return [{ circuit: altered(circuit, { output, switches }), at: (setting) => withPosition(setting, plugs.id, index) }];
    });
  });
  return [own, ...others];
}

function outputsOf(circuit: Circuit): readonly Output[] {
  const outputs: Output[] = circuit.output === undefined ? [] : [circuit.output];
  for (const id of circuit.jacks) {
    const lug = (name: string): LugId | undefined => partById(circuit, id).lugs.find((at) => lugById(circuit, at).name === name);
    const sleeve = lug('sleeve');
    if (sleeve === undefined) continue;
    for (const tip of [lug('tip'), lug('ring')]) {
      if (tip !== undefined && !outputs.some((output) => output.tip === tip)) outputs.push({ part: id, tip, sleeve });
    }
  }
  return outputs;
}
