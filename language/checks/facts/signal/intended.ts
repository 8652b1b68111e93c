/** Which positions an `expect` line speaks of at one output, pots at rest: what is asked for is no mistake. */
import {
  shaftById,
  type Arrangement,
  type AnalysedCircuit,
  type Circuit,
  type Claim,
  type Expectation,
  usualOutput,
} from '../../../circuit/model.js';
import { settingsMatching, type Setting } from '../../../electrics/index.js';
import { lazy } from '../../../lazy.js';

export interface Intended {
  /** True where an expectation asks for silence in the setting, or a position's own name does. */
  asksSilence(setting: Setting): boolean;
  /** True where an expectation asks for something reversed in the setting. */
  asksReversed(setting: Setting): boolean;
  /** True where an expectation says what sounds in the setting. */
  asksSound(setting: Setting): boolean;
}

export function createIntended(circuit: AnalysedCircuit): Intended {
  const silence = lazy(() => covered(circuit, (claim) => claim.kind === 'silent'));
  const reversed = lazy(() => covered(circuit, (claim) => claim.kind === 'sounds' && hasReversed(claim.arrangement)));
  const sounding = lazy(() => covered(circuit, (claim) => claim.kind === 'sounds'));
  return {
    asksSound: ({ positions }) => sounding().has(positions.join()),
    asksSilence: ({ positions }) => silence().has(positions.join()) || isAtSilentName(circuit, positions),
    asksReversed: ({ positions }) => reversed().has(positions.join()),
  };
}

const silentNames = /^(mute|muted|kill|silent|silence|standby)$/i;

/** A position that its builder called “mute” is meant to be silent. */
export function isNamedSilent(label: string): boolean {
  return silentNames.test(label);
}

function isAtSilentName({ switches }: Circuit, positions: readonly number[]): boolean {
  return switches.some((device) => isNamedSilent(device.positions[positions[device.id] ?? -1]?.label ?? ''));
}

/** Positions of the settings for which some line of the circuit's output makes such a claim; a line that names none speaks of the usual one. */
function covered(circuit: AnalysedCircuit, isMeant: (claim: Claim) => boolean): ReadonlySet<string> {
  const usual = usualOutput(circuit)?.tip;
  const lines = circuit.expectations.filter(
    (line) => (line.at ?? usual) === circuit.output?.tip && isAtRest(circuit, line) && line.claims.some(isMeant),
  );
  return new Set(lines.flatMap((line) => settingsMatching(circuit, line.settings).map(({ positions }) => positions.join())));
}

function hasReversed(arrangement: Arrangement): boolean {
  if (arrangement.reversed) return true;
  return 'members' in arrangement && arrangement.members.some(hasReversed);
}

function isAtRest(circuit: Circuit, expectation: Expectation): boolean {
  return expectation.settings.every((set) => set.kind === 'switch' || shaftById(circuit, set.shaft).rest === set.rotation);
}
