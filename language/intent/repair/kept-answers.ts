/** What the circuits of a search do, solved once for all whose nets are equal in a setting. */
import type { AnalysedCircuit } from '../../circuit/model.js';
import { getOrCreate } from '../../collections.js';
import {
  describeSound,
  levelAt,
  readAtJack,
  responseSummary,
  type MeterReading,
  type ResponseSummary,
  type Setting,
} from '../../electrics/index.js';
import { factsOf } from '../../checks/index.js';
import type { Heard } from '../judge/judge.js';
import type { Folding } from './folding.js';

/** A circuit of the search: `made` builds it when it has to be solved, `heard` says what it does at one of its outputs. */
export interface Asked {
  readonly made: () => AnalysedCircuit;
  readonly heard: (at: AnalysedCircuit) => Heard;
}

/** A circuit as it was read: what it does is known from its findings, or is kept with them. */
export function asRead(circuit: AnalysedCircuit): Asked {
  return { made: () => circuit, heard: (at) => factsOf(at).signal };
}

/** To be asked while the classes that `folding` folded last are those of the circuit. */
export type KeptAnswers = (folding: Folding, made: () => AnalysedCircuit) => Asked;

export function createKeptAnswers(): KeptAnswers {
  const readings = new Map<string, MeterReading>();
  const responses = new Map<string, ResponseSummary>();
  return (folding, made) => ({
    made,
    heard(at) {
      const tip = at.output?.tip ?? '';
      const keyOf = (setting: Setting): string =>
        `${tip}|${setting.positions.join()}|${setting.rotations.join()}|${folding.turnedKey(setting, at.output)}`;
      const response = (setting: Setting): ResponseSummary =>
        getOrCreate(responses, keyOf(setting), () => responseSummary(at, setting));
      return {
        // Sounds are kept by their nets already.
        sound: (setting) => describeSound(at, setting),
        reading: (setting) => getOrCreate(readings, keyOf(setting), () => readAtJack(at, setting)),
        response,
        level: (setting, hz) => {
          const known = hz === undefined ? responses.get(keyOf(setting)) : undefined;
          return known === undefined ? levelAt(at, setting, hz) : known.levelDb;
        },
      };
    },
  });
}
