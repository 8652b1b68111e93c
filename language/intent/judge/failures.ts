/** Expectations that fail or can't be judged, as reports. */
import { contentOf, figure, type ControlAt } from '../../claim.js';
import { partOfElement, shaftById, switchById, type AnalysedCircuit, type Claim } from '../../circuit/model.js';
import { arrangementText } from '../../electrics/index.js';
import {
  controlsIn,
  describeExpected,
  factsOf,
  hertzText,
  potsIn,
  settingsOf,
  type Expected,
  type ExpectationClaim,
  type Report,
} from '../../checks/index.js';
import type { Statement } from '../../source.js';
import type { ClaimResult, Outcome } from './evaluate.js';
import { earlierCountOf, type EarlierCount } from './judge-response.js';

export function reportFailed(circuit: AnalysedCircuit, result: ClaimResult): Report<ExpectationClaim> {
  const failed = result.outcomes.filter(({ verdict }) => verdict === 'failed');
  const [count, ...others] = new Set(failed.map(({ setting }) => earlierCountOf(circuit, setting, result.claim)));
  return {
    claim: claimOf(circuit, result, 'failed'),
    ...(count === undefined || others.length > 0 ? {} : { why: earlierCounts[count] }),
    range: result.claim.range,
    subjects: subjectsOf(circuit, result),
  };
}

const earlierCounts: Readonly<Record<EarlierCount, string>> = {
  level:
    'It holds by the count of version 0.1, from the level at 20 Hz. Levels now count from the median between 80 Hz and 1.3 kHz: write the new figure.',
  hum: 'It holds by the count of version 0.1, which weighed each coil by its output and called hum cancelled below a quarter. Hum now goes by turns, is cancelled below a tenth and `partly` cancelled below a half: write what holds now, or the `turns` of the pickups.',
  inductance:
    'It holds with the inductances of version 0.1, which divided a tapped winding and read a coupling in another way. The inductance of a pickup is now that of both coils in series, coupling included: write the new figure.',
};

export function reportUnknown(circuit: AnalysedCircuit, result: ClaimResult): Report<ExpectationClaim> {
  return {
    claim: claimOf(circuit, result, 'unknown'),
    why: result.outcomes.some(({ found }) => found.kind === 'not-metered')
      ? 'Measure in front of the stage, at its input, or test by tapping on the pickups.'
      : 'A value written `?` still has to be read. Measure it and write it in.',
    range: result.claim.range,
    subjects: subjectsOf(circuit, result),
  };
}

/** `6.62k within 5%`, `silence`, `parallel(bridge, neck)`. */
export function describeClaim(circuit: AnalysedCircuit, claim: Claim): string {
  return describeExpected(expectedOf(circuit, claim));
}

function claimOf(circuit: AnalysedCircuit, { claim, outcomes }: ClaimResult, verdict: 'failed' | 'unknown'): ExpectationClaim {
  const meant = outcomes.filter((outcome) => outcome.verdict === verdict);
  return {
    ...expectedOf(circuit, claim),
    ...placesOf(circuit, meant),
    observed: alike(meant).flatMap((group) => group.slice(0, 1).map(({ found }) => ({ ...found, ...placesOf(circuit, group) }))),
  };
}

function expectedOf(circuit: AnalysedCircuit, claim: Claim): Expected {
  const share = (within: number | undefined) =>
    within === undefined ? {} : { within: figure(Number((within * 100).toFixed(2)), 'percent') };
  const { kind } = claim;
  switch (claim.kind) {
    case 'sounds':
      return { kind: 'sounds', subjects: { sounds: arrangementText(circuit, claim.arrangement) } };
    case 'hum':
      return { kind: 'hum', subjects: { hum: claim.hum } };
    case 'reads':
      return { kind: 'reads', subjects: {}, figures: { value: figure(claim.ohm, 'ohm'), ...share(claim.within) } };
    case 'peak':
    case 'cutoff':
      return { kind: claim.kind, subjects: {}, figures: { value: figure(claim.hz, 'hertz'), ...share(claim.within) } };
    case 'level':
      return {
        kind: 'level',
        subjects: claim.hz === undefined ? {} : { at: hertzText(claim.hz) },
        figures: {
          value: figure(claim.db, 'decibel'),
          ...(claim.within === undefined ? {} : { within: figure(claim.within, 'decibel') }),
        },
      };
    default:
      return { kind, subjects: {} };
  }
}

/** Outcomes with the same answer. */
function alike(outcomes: readonly Outcome[]): readonly (readonly Outcome[])[] {
  const groups = new Map<string, Outcome[]>();
  for (const outcome of outcomes) {
    const content = contentOf({ rule: '', ...outcome.found });
    const group = groups.get(content);
    if (group === undefined) groups.set(content, [outcome]);
    else group.push(outcome);
  }
  return [...groups.values()];
}

/** The switches by their common positions, and the pots that are off their rest. */
function placesOf(circuit: AnalysedCircuit, outcomes: readonly Outcome[]): Pick<Statement, 'settings' | 'moreSettings'> {
  const [first] = outcomes;
  if (first === undefined) return {};
  const all = factsOf(circuit).settings();
  const enumerated = new Map(all.map((setting) => [setting.positions.join(), setting]));
  const known = outcomes.flatMap(({ setting }) => enumerated.get(setting.positions.join()) ?? []);
  // No enumerated setting has a momentary switch away from its rest, so such a setting is named by its controls.
  if (known.length < outcomes.length) return { settings: [controlsIn(circuit, first.setting)] };
  const pots = potsIn(circuit, first.setting.rotations);
  const { settings, ...more } = settingsOf(circuit, all, known);
  if (pots.length === 0) return settings === undefined ? {} : { settings, ...more };
  const withPots = (controls: readonly ControlAt[]): readonly ControlAt[] => [...controls, ...pots];
  return { settings: settings?.map(withPots) ?? [pots], ...more };
}

/** The controls and pickups that the line speaks of. */
function subjectsOf(circuit: AnalysedCircuit, { expectation, claim, outcomes }: ClaimResult): readonly string[] {
  const controls = expectation.settings.map((set) =>
    set.kind === 'switch' ? switchById(circuit, set.switch).name : shaftById(circuit, set.shaft).name,
  );
  const coils =
    claim.kind === 'sounds'
      ? outcomes.flatMap(({ setting }) =>
          factsOf(circuit)
            .signal.sound(setting)
            .heard.map(({ coil }) => coil),
        )
      : [];
  const pickups = coils.map((id) => partOfElement(circuit, id).name);
  return [...new Set([...controls, ...pickups])];
}
