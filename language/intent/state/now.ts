/** Expectations from what is so now: each position's sound, hum and reading, and what the pots do. */
import type { Circuit, Shaft } from '../../circuit/model.js';
import { factsOf } from '../../checks/index.js';
import { withRotation, type Setting } from '../../electrics/index.js';
import { hertzText, ohmText } from '../amounts.js';
import { stated, written, type Line, type Stated } from './lines.js';

export interface NowOptions {
  /** True to state the reading and the peak with each pot half way and turned down as well, so that a wire that shows only there is seen. */
  readonly turns?: boolean;
}

/** Share within which a reading or a peak shall stay. */
const within = 'within 5%';
const halfAndDown = [5, 0];
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
  const turned = (shaft: Shaft, at: number, claims: (setting: Setting) => readonly string[]): readonly Line[] =>
    stated(
      circuit,
      rows((setting) => claims(withRotation(setting, shaft.id, at))).map((row) => ({
        ...row,
        setting: withRotation(row.setting, shaft.id, at),
      })),
    );
  const pots = circuit.shafts.flatMap((shaft) => [
    ...[0, 10]
      .filter((end) => end !== shaft.rest)
      .flatMap((end) => turned(shaft, end, (setting) => changed(circuit, setting, withRotation(setting, shaft.id, shaft.rest)))),
    ...(options.turns === true ? halfAndDown.flatMap((at) => turned(shaft, at, (setting) => measured(circuit, setting))) : []),
  ]);
  return [
    ...written(
      stated(
        circuit,
        rows((setting) => claimsIn(circuit, setting)),
      ),
    ),
    ...written(pots),
  ];
}

function claimsIn(circuit: Circuit, setting: Setting): readonly string[] {
  const { hearing } = factsOf(circuit);
  const sound = hearing.sound(setting);
  if (sound.silent) return ['silent'];
  const { ohm, unknown } = hearing.reading(setting);
  return [
    `sounds ${sound.text}`,
    ...(sound.hum === 'none' ? [] : [`hum ${sound.hum}`]),
    ...(unknown ? [] : ohm === null ? ['reads open'] : ohm < short ? [] : [`reads ${ohmText(ohm)} ${within}`]),
  ];
}

/** What is heard with a pot at its end, where that is something else than with the pot at its rest. */
function changed(circuit: Circuit, setting: Setting, atRest: Setting): readonly string[] {
  const { hearing } = factsOf(circuit);
  const [sound, before] = [hearing.sound(setting), hearing.sound(atRest)];
  if (sound.text === before.text) return [];
  return sound.silent ? ['silent'] : [`sounds ${sound.text}`];
}

function measured(circuit: Circuit, setting: Setting): readonly string[] {
  const { hearing } = factsOf(circuit);
  if (hearing.sound(setting).silent) return [];
  const { ohm, unknown } = hearing.reading(setting);
  const { peak } = hearing.response(setting);
  const guessed = hearing.sound(setting).heard.some(({ coil }) => {
    const element = circuit.elements[coil]!;
    return element.kind === 'coil' && !(element.inductance.known && element.resistance.known && element.capacitance.known);
  });
  return [
    ...(unknown || ohm === null || ohm < short ? [] : [`reads ${ohmText(ohm)} ${within}`]),
    ...(peak === null || guessed ? [] : [`peak ${hertzText(peak.hz)} ${within}`]),
  ];
}
