/** A substitute judged by what it does: readings, level and resonance of one circuit beside those of another that differs in values. */
import type { AnalysedCircuit } from '../circuit/model.js';
import {
  enumerate,
  readAtJack,
  responseSummary,
  restingSetting,
  settingLabel,
  withRotation,
  type Setting,
} from '../electrics/index.js';

/** What one setting answers. */
export interface Answer {
  /** Ohm at the jack; `null` where it reads open. */
  readonly ohm: number | null;
  /** Resonant peak and its height over the low-frequency level; absent where the response only falls. */
  readonly peak?: { readonly hz: number; readonly db: number };
  /** Upper frequency where the level is 3 dB down; absent above the range. */
  readonly cutoffHz?: number;
  /** Null where the coils cancel. */
  readonly levelDb: number | null;
}

export interface Changed {
  readonly setting: string;
  readonly before: Answer;
  readonly after: Answer;
}

/** Least differences that are told: half a percent in ohm and hertz, a tenth of a decibel. */
const SHARE = 0.005;
const LEVEL = 0.1;

/**
 * Settings in which the second circuit answers otherwise than the first: every setting of the switches with the pots at rest, then, in the first one
 * that is not silent, each pot half way and at 0. Both circuits must have the same switches and shafts.
 */
export function substitution(before: AnalysedCircuit, after: AnalysedCircuit): readonly Changed[] {
  const settings = enumerate(before).settings;
  const first =
    settings.find((setting) => (responseSummary(before, setting).levelDb ?? -Infinity) > -60) ?? restingSetting(before);
  const turned = before.shafts.flatMap(({ id, rest }) =>
    [5, 0].filter((rotation) => rotation !== rest).map((rotation) => withRotation(first, id, rotation)),
  );
  const told = new Set<string>();
  return [...settings, ...turned].flatMap((setting) => {
    const [one, two] = [answerOf(before, setting), answerOf(after, setting)];
    if (!differs(one, two)) return [];
    const name = settingLabel(before, setting) || 'default';
    const key = JSON.stringify([name, one, two]);
    if (told.has(key)) return [];
    told.add(key);
    return [{ setting: name, before: one, after: two }];
  });
}

function answerOf(circuit: AnalysedCircuit, setting: Setting): Answer {
  const { peak, cutoffHz, levelDb } = responseSummary(circuit, setting);
  return {
    ohm: readAtJack(circuit, setting).ohm,
    levelDb,
    ...(peak === null ? {} : { peak }),
    ...(cutoffHz === null ? {} : { cutoffHz }),
  };
}

function differs(a: Answer, b: Answer): boolean {
  const apart = (x: number | null | undefined, y: number | null | undefined): boolean =>
    x === null || y === null || x === undefined || y === undefined
      ? x !== y
      : Math.abs(x - y) > SHARE * Math.max(Math.abs(x), 1e-9);
  return (
    apart(a.ohm, b.ohm) ||
    apart(a.peak?.hz, b.peak?.hz) ||
    apart(a.cutoffHz, b.cutoffHz) ||
    isOtherLevel(a.levelDb, b.levelDb) ||
    isOtherLevel(a.peak?.db ?? 0, b.peak?.db ?? 0)
  );
}

function isOtherLevel(a: number | null, b: number | null): boolean {
  return a === null || b === null ? a !== b : Math.abs(a - b) > LEVEL;
}
