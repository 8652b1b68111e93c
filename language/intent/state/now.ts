/** Expectations from what is so now: each position's sound, hum and reading, and what the pots do. */
import type { Circuit, Shaft } from '../../circuit/model.js';
import { factsOf } from '../../checks/index.js';
import { withRotation, type Setting } from '../../electrics/index.js';
import { decibelText, hertzText, ohmText } from '../amounts.js';
import { guessedParts } from '../judge-response.js';
import { stated, written, type Line, type Stated } from './lines.js';

export interface NowOptions {
  /**
   * True to state reading, cut-off and level with each pot, and all of them, half way and turned down as well, so that a wire that
   * shows only there is seen.
   */
  readonly turns?: boolean;
}

/** Share within which a reading, a peak or a cut-off shall stay. */
const within = 'within 5%';
/** A pot at its end is told where the cut-off moves by more than this share, and a level where it moves by so many dB. */
const leastShare = 0.1;
const leastDecibels = 0.5;
const rotations = [5, 0, 10];
/** A reading below this is a short, and says nothing. */
const short = 2;

/** Lines for every position, in the order of the position table; what hangs on a value that is not known yet is left out. Nothing for a library. */
export function linesOfNow(circuit: Circuit, options: NowOptions = {}): readonly string[] {
  if (circuit.isLibrary || circuit.output === undefined) return [];
  const { groups } = factsOf(circuit);
  const all = groups().flatMap((group) => group.settings.map((setting) => ({ setting, first: group.setting })));
  const order = new Map(
    factsOf(circuit)
      .settings()
      .map((setting, index) => [setting, index]),
  );
  all.sort((a, b) => (order.get(a.setting) ?? 0) - (order.get(b.setting) ?? 0));
  const rows = (claims: (setting: Setting) => readonly string[]): readonly Stated[] => {
    const kept = new Map<Setting, readonly string[]>();
    return all.map(({ setting, first }) => {
      const known = kept.get(first) ?? claims(first);
      kept.set(first, known);
      return { setting, claims: known };
    });
  };
  type Turn = (setting: Setting) => Setting;
  const turned = (turn: Turn, claims: (turned: Setting, setting: Setting) => readonly string[]): readonly Line[] =>
    stated(
      circuit,
      rows((setting) => claims(turn(setting), setting)).map((row) => ({ ...row, setting: turn(row.setting) })),
    );
  const to = (shafts: readonly Shaft[], at: number): Turn => {
    return (setting) => shafts.reduce((turning, { id }) => withRotation(turning, id, at), setting);
  };
  const isTurned = options.turns === true;
  const pots = circuit.shafts.flatMap((shaft) => [
    ...[0, 10]
      .filter((end) => end !== shaft.rest)
      .flatMap((end) => turned(to([shaft], end), (setting, rest) => changed(circuit, setting, rest, isTurned))),
    ...(isTurned
      ? rotations
          .filter((at) => at !== shaft.rest)
          .flatMap((at) => turned(to([shaft], at), (setting, rest) => measured(circuit, setting, rest)))
      : []),
  ]);
  const together =
    isTurned && circuit.shafts.length > 1
      ? turned(to(circuit.shafts, 5), (setting, rest) => measured(circuit, setting, rest))
      : [];
  return [
    ...written(
      stated(
        circuit,
        rows((setting) => claimsIn(circuit, setting)),
      ),
    ),
    ...written([...pots, ...together]),
  ];
}

function claimsIn(circuit: Circuit, setting: Setting): readonly string[] {
  const { hearing } = factsOf(circuit);
  const sound = hearing.sound(setting);
  const { ohm, unknown } = hearing.reading(setting);
  // A switch that silences by a short and one that silences by an open joint differ for the amplifier behind them.
  if (sound.silent)
    return ['silent', ...(unknown || (ohm !== null && ohm >= short) ? [] : [ohm === null ? 'reads open' : 'reads short'])];
  return [
    `sounds ${sound.text}`,
    ...(sound.hum === 'none' ? [] : [`hum ${sound.hum}`]),
    ...(unknown ? [] : ohm === null ? ['reads open'] : ohm < short ? [] : [`reads ${ohmText(ohm)} ${within}`]),
  ];
}

/** What is heard with a pot at its end, where that is something else than with the pot at its rest, and the cut-off that it brings. */
function changed(circuit: Circuit, setting: Setting, atRest: Setting, isMeasured: boolean): readonly string[] {
  const { hearing } = factsOf(circuit);
  const [sound, before] = [hearing.sound(setting), hearing.sound(atRest)];
  if (sound.silent) return before.silent ? [] : ['silent'];
  const corner = hearing.response(setting).cutoffHz;
  const was = before.silent ? null : hearing.response(atRest).cutoffHz;
  const isMoved = corner !== null && was !== null && Math.abs(corner - was) > leastShare * was;
  return [
    ...(sound.text === before.text ? [] : [`sounds ${sound.text}`]),
    ...(isMoved && !isMeasured && isToldOf(circuit, setting, 'cutoff') ? [`cutoff ${hertzText(corner)} ${within}`] : []),
  ];
}

/** Reading, cut-off or else peak, and the level where the pot moves it. */
function measured(circuit: Circuit, setting: Setting, atRest: Setting): readonly string[] {
  const { hearing } = factsOf(circuit);
  if (hearing.sound(setting).silent) return [];
  const { ohm, unknown } = hearing.reading(setting);
  const { peak, cutoffHz, levelDb } = hearing.response(setting);
  const isLevelMoved = Math.abs(levelDb - hearing.level(atRest)) > leastDecibels;
  return [
    ...(unknown || ohm === null || ohm < short ? [] : [`reads ${ohmText(ohm)} ${within}`]),
    ...(cutoffHz !== null && isToldOf(circuit, setting, 'cutoff')
      ? [`cutoff ${hertzText(cutoffHz)} ${within}`]
      : peak !== null && isToldOf(circuit, setting, 'peak')
        ? [`peak ${hertzText(peak.hz)} ${within}`]
        : []),
    ...(isLevelMoved && isToldOf(circuit, setting, 'level') ? [`level ${decibelText(levelDb)}`] : []),
  ];
}

/** False where the figure hangs on a value written `?`. */
function isToldOf(circuit: Circuit, setting: Setting, kind: 'peak' | 'cutoff' | 'level'): boolean {
  const coils = factsOf(circuit)
    .hearing.sound(setting)
    .heard.map(({ coil }) => coil);
  return guessedParts(circuit, setting, { kind }, coils).length === 0;
}
