/** Expectations from what is so now: each position's sound, hum and reading, and what the pots do. */
import { isMated, lugById, partById, type AnalysedCircuit, type Shaft } from '../../circuit/model.js';
import { factsOf } from '../../checks/index.js';
import { heardAt, outputsOf, withRotation, withSwitchMoved, type Setting } from '../../electrics/index.js';
import { decibelText, hertzText, ohmText } from '../../checks/index.js';
import { guessedParts } from '../judge/judge-response.js';
import { finished, type Steps } from '../../steps.js';
import { heardOnlyAt, stated, written, type Line, type Stated } from './lines.js';

export interface NowOptions {
  /** True for a line a position alone, with no pot turned. */
  readonly isAtRest?: boolean;
  /**
   * True to state reading, cut-off and level with each pot, and all of them, half way and turned down as well, so that a wire that
   * shows only there is seen.
   */
  readonly turns?: boolean;
  /** Once there are more lines than this the rest is left out: for a caller that has no use for so many. */
  readonly most?: number;
}

/** Share within which a reading, a peak or a cut-off shall stay. */
const within = 'within 5%';
/** A pot at its end is reported where the cut-off moves by more than this share, and a level where it moves by so many dB. */
const leastShare = 0.1;
const leastDecibels = 0.5;
const rotations = [5, 0, 10];
/** A reading below this is a short, and says nothing. */
const short = 2;

/** Lines for every position, in the order of the position table; what hangs on a value that is not known yet is left out. Nothing for a library. */
export function linesOfNow(circuit: AnalysedCircuit, options: NowOptions = {}): readonly string[] {
  return finished(linesOfNowSteps(circuit, options));
}

/** True where no pickup is heard in any position, however pots, buttons and plugs are tried: lines of now would record a mistake. */
export function isDead(circuit: AnalysedCircuit): boolean {
  const { signal } = factsOf(circuit);
  return signal.neverHeard().size === signal.pickups.length;
}

/** The same in steps of one solved setting each; what is heard at a further output follows, each line with its contact. */
export function* linesOfNowSteps(circuit: AnalysedCircuit, options: NowOptions = {}): Steps<readonly string[]> {
  if (circuit.isLibrary || circuit.output === undefined) return [];
  const lines = [...(yield* linesHere(circuit, options))];
  for (const { tip } of outputsOf(circuit)) {
    if (tip === circuit.output.tip) continue;
    const most = options.most === undefined ? {} : { most: options.most - lines.length };
    if (most.most !== undefined && most.most < 0) break;
    const there = yield* linesHere(heardAt(circuit, tip), { ...options, ...most });
    lines.push(...heardOnlyAt(lugById(circuit, tip).label, there));
  }
  return lines;
}

function* linesHere(circuit: AnalysedCircuit, options: NowOptions): Steps<readonly string[]> {
  const { groups, settings } = factsOf(circuit);
  const all = groups().flatMap((group) => group.settings.map((setting) => ({ setting, first: group.setting })));
  const order = new Map(settings().map((setting, index) => [setting, index]));
  all.sort((a, b) => (order.get(a.setting) ?? 0) - (order.get(b.setting) ?? 0));
  yield;
  const most = options.most ?? Infinity;
  /** Lines for all settings with some pots turned; one of the settings that fold alike is solved for all. */
  function* linesAt(
    turn: Turn,
    claims: (turned: Setting, atRest: Setting) => readonly string[],
    left: number,
  ): Steps<readonly Line[]> {
    const kept = new Map<Setting, readonly string[]>();
    const rows: Stated[] = [];
    for (const { setting, first } of all) {
      let known = kept.get(first);
      if (known === undefined) {
        kept.set(first, (known = claims(turn(first), first)));
        yield;
      }
      rows.push({ setting: turn(setting), claims: known });
    }
    return yield* stated(circuit, rows, left);
  }
  const first = yield* linesAt(
    (setting) => setting,
    (setting) => (options.turns === true ? figuresIn(circuit, setting) : claimsIn(circuit, setting)),
    most,
  );
  const turned: Line[] = [];
  for (const press of options.turns === true ? pressesOf(circuit) : []) {
    const left = most - first.length - turned.length;
    if (left < 0) break;
    // Settings that fold alike at rest may differ with a button pressed.
    const rows: Stated[] = [];
    for (const { setting } of all) {
      rows.push({ setting: press(setting), claims: figuresIn(circuit, press(setting)) });
      yield;
    }
    turned.push(...(yield* stated(circuit, rows, left)));
  }
  for (const { turn, claims } of options.isAtRest === true ? [] : turnsOf(circuit, options.turns === true)) {
    const left = most - first.length - turned.length;
    if (left < 0) break;
    turned.push(...(yield* linesAt(turn, claims, left)));
  }
  return [...written(first), ...written(turned)];
}

type Turn = (setting: Setting) => Setting;

/** Each button, and each other switch that rests, in its other positions; plugs and connectors are no switches. */
function pressesOf(circuit: AnalysedCircuit): readonly Turn[] {
  return circuit.switches
    .filter(
      (device) =>
        device.rest !== undefined &&
        device.drive === undefined &&
        partById(circuit, device.part).family !== 'jack' &&
        !isMated(circuit, device),
    )
    .flatMap(({ id, rest, positions }) =>
      [...positions.keys()]
        .filter((index) => index !== rest)
        .map(
          (index): Turn =>
            (setting) =>
              withSwitchMoved(circuit, setting, id, index),
        ),
    );
}

interface TurnedClaims {
  readonly turn: Turn;
  readonly claims: (turned: Setting, atRest: Setting) => readonly string[];
}

/** Each pot at its ends; where turns are wanted too, each half way and turned, and all half way. */
function* turnsOf(circuit: AnalysedCircuit, isTurned: boolean): Generator<TurnedClaims> {
  const to = (shafts: readonly Shaft[], at: number): Turn => {
    return (setting) => shafts.reduce((turning, { id }) => withRotation(turning, id, at), setting);
  };
  const measuring: TurnedClaims['claims'] = (setting, rest) => measured(circuit, setting, rest);
  for (const shaft of circuit.shafts) {
    for (const end of [0, 10])
      if (end !== shaft.rest)
        yield { turn: to([shaft], end), claims: (setting, rest) => changed(circuit, setting, rest, isTurned) };
    for (const at of isTurned ? rotations : []) if (at !== shaft.rest) yield { turn: to([shaft], at), claims: measuring };
  }
  if (isTurned && circuit.shafts.length > 1) yield { turn: to(circuit.shafts, 5), claims: measuring };
}

function claimsIn(circuit: AnalysedCircuit, setting: Setting): readonly string[] {
  const { signal } = factsOf(circuit);
  const sound = signal.sound(setting);
  const { ohm, unknown } = signal.reading(setting);
  // A switch that silences by a short and one that silences by an open joint differ for the amplifier behind them.
  if (sound.silent)
    return ['silent', ...(unknown || (ohm !== null && ohm >= short) ? [] : [ohm === null ? 'reads open' : 'reads short'])];
  return [
    `sounds ${sound.text}`,
    ...(sound.hum === 'none' ? [] : [`hum ${sound.hum}`]),
    ...(unknown ? [] : ohm === null ? ['reads open'] : ohm < short ? [] : [`reads ${ohmText(ohm)} ${within}`]),
  ];
}

/** The same with cut-off or peak, and level, so that a part that only the ear tells from another is stated where no pot is turned, too. */
function figuresIn(circuit: AnalysedCircuit, setting: Setting): readonly string[] {
  const claims = claimsIn(circuit, setting);
  if (factsOf(circuit).signal.sound(setting).silent) return claims;
  const { levelDb } = factsOf(circuit).signal.response(setting);
  return [
    ...claims,
    ...cornerIn(circuit, setting),
    ...(levelDb !== null && isFigureKnown(circuit, setting, 'level') ? [`level ${decibelText(levelDb)}`] : []),
  ];
}

/** What is heard with a pot at its end, where that is something else than with the pot at its rest, and the cut-off that it brings. */
function changed(circuit: AnalysedCircuit, setting: Setting, atRest: Setting, isMeasured: boolean): readonly string[] {
  const { signal } = factsOf(circuit);
  const [sound, before] = [signal.sound(setting), signal.sound(atRest)];
  if (sound.silent) return before.silent ? [] : ['silent'];
  const corner = signal.response(setting).cutoffHz;
  const was = before.silent ? null : signal.response(atRest).cutoffHz;
  const isMoved = corner !== null && was !== null && Math.abs(corner - was) > leastShare * was;
  return [
    ...(sound.text === before.text ? [] : [`sounds ${sound.text}`]),
    ...(isMoved && !isMeasured && isFigureKnown(circuit, setting, 'cutoff') ? [`cutoff ${hertzText(corner)} ${within}`] : []),
  ];
}

/** Reading, cut-off or else peak, and the level where the pot moves it. */
function measured(circuit: AnalysedCircuit, setting: Setting, atRest: Setting): readonly string[] {
  const { signal } = factsOf(circuit);
  if (signal.sound(setting).silent) return [];
  const { ohm, unknown } = signal.reading(setting);
  const { levelDb } = signal.response(setting);
  const before = signal.level(atRest);
  const isLevelMoved = levelDb !== null && before !== null && Math.abs(levelDb - before) > leastDecibels;
  return [
    ...(unknown || ohm === null || ohm < short ? [] : [`reads ${ohmText(ohm)} ${within}`]),
    ...cornerIn(circuit, setting),
    ...(isLevelMoved && isFigureKnown(circuit, setting, 'level') ? [`level ${decibelText(levelDb)}`] : []),
  ];
}

/** The cut-off, or else the peak. */
function cornerIn(circuit: AnalysedCircuit, setting: Setting): readonly string[] {
  const { peak, cutoffHz } = factsOf(circuit).signal.response(setting);
  if (cutoffHz !== null && isFigureKnown(circuit, setting, 'cutoff')) return [`cutoff ${hertzText(cutoffHz)} ${within}`];
  return peak !== null && isFigureKnown(circuit, setting, 'peak') ? [`peak ${hertzText(peak.hz)} ${within}`] : [];
}

/** False where the figure hangs on a value written `?`. */
function isFigureKnown(circuit: AnalysedCircuit, setting: Setting, kind: 'peak' | 'cutoff' | 'level'): boolean {
  const coils = factsOf(circuit)
    .signal.sound(setting)
    .heard.map(({ coil }) => coil);
  return guessedParts(circuit, setting, { kind }, coils).length === 0;
}
