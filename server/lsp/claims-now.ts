/** The current behaviour in some settings, in the words of claims: for completion and hints. */
import { firstOf } from '../../language/collections.js';
import type { Analysis } from '../../language/analysis.js';
import type { AnalysedCircuit, ControlSetting } from '../../language/circuit/index.js';
import { settingsMatching, type Setting, type Sound } from '../../language/electrics/index.js';
import { finished, type Steps } from '../../language/steps.js';
import { decibelText, hertzText, ohmText } from '../../language/intent/index.js';

/** Each in the form of a claim without its word, but for `sounds` and `hum`; absent where it differs between the settings. */
export interface Now {
  readonly sounds?: string;
  readonly hum?: string;
  readonly reads?: string;
  readonly peak?: string;
  readonly cutoff?: string;
  /** At low frequencies. */
  readonly level?: string;
}

const kinds = ['sounds', 'hum', 'reads', 'peak', 'cutoff', 'level'] as const satisfies readonly (keyof Now)[];

/** Of more settings than this nothing is said. */
const most = 64;

/** What all settings with these controls have in common; undefined where there is no output, or too many settings are meant. */
export function claimsNow(analysis: Analysis, circuit: AnalysedCircuit, controls: readonly ControlSetting[]): Now | undefined {
  return finished(claimsNowSteps(analysis, circuit, controls));
}

/** The same in steps of one solved setting each. */
export function* claimsNowSteps(
  analysis: Analysis,
  circuit: AnalysedCircuit,
  controls: readonly ControlSetting[],
): Steps<Now | undefined> {
  if (circuit.output === undefined) return undefined;
  const settings = settingsMatching(circuit, controls);
  if (settings.length === 0 || settings.length > most) return undefined;
  const each: Now[] = [];
  for (const setting of settings) {
    each.push(claimsAt(analysis, circuit, setting));
    yield;
  }
  const first = firstOf(each);
  const common = kinds.filter((kind) => each.every((now) => now[kind] === first[kind]));
  return Object.assign({}, ...common.map((kind) => some(kind, first[kind]))) as Now;
}

/** `sounds parallel(a, b)`, `silent`; nothing for what is neither series nor parallel, since a claim says it otherwise. */
function soundClaim({ silent, text, arrangement }: Sound): string | undefined {
  if (silent) return 'silent';
  return arrangement === undefined ? undefined : `sounds ${text}`;
}

function humClaim({ hum, silent }: Sound): string | undefined {
  return hum === 'none' || silent ? undefined : `hum ${hum}`;
}

function claimsAt(analysis: Analysis, circuit: AnalysedCircuit, setting: Setting): Now {
  const sound = analysis.sound(circuit, setting);
  const { ohm, unknown } = analysis.reading(circuit, setting);
  const response = sound.silent ? undefined : analysis.response(circuit, setting);
  const { peak = null, cutoffHz = null } = response ?? {};
  return {
    ...some('sounds', soundClaim(sound)),
    ...some('hum', humClaim(sound)),
    ...some('reads', unknown ? undefined : ohm === null ? 'open' : ohmText(ohm)),
    ...some('peak', peak === null ? undefined : hertzText(peak.hz)),
    ...some('cutoff', cutoffHz === null ? undefined : hertzText(cutoffHz)),
    ...some('level', typeof response?.levelDb === 'number' ? decibelText(response.levelDb) : undefined),
  };
}

function some<K extends keyof Now>(key: K, value: string | undefined): Now {
  return value === undefined ? {} : { [key]: value };
}
