/** Failed expectations as findings. */
import { partById, shaftById, switchById, type Circuit, type Claim, type Coil } from '../../circuit/model.js';
import { arrangementText, settingLabel } from '../../electrics/index.js';
import { factsOf, whereSaid, type Report } from '../../checks/index.js';
import { decibelText, hertzText, ohmText } from './amounts.js';
import type { ClaimResult, Outcome } from './evaluate.js';

/** At most this many different answers are listed. */
const most = 3;

export function tellFailed(circuit: Circuit, result: ClaimResult): Report {
  const expected = claimSaid(circuit, result.claim);
  const groups = bySentence(result.outcomes.filter((outcome) => outcome.verdict === 'failed'));
  const [only] = groups;
  const answers = groups.slice(0, most).map((group) => [where(circuit, group), sentence(group[0]!)].filter(Boolean).join(' '));
  const message =
    groups.length === 1
      ? `expected ${expected}${spaced(where(circuit, only!))}; ${sentence(only![0]!)}`
      : `expected ${expected}; ${answers.join('; ')}${groups.length > most ? `; and ${groups.length - most} more` : ''}`;
  return { message, range: result.claim.range, subjects: subjectsOf(circuit, result) };
}

export function tellUnknown(circuit: Circuit, result: ClaimResult): Report {
  const open = result.outcomes.filter((outcome) => outcome.verdict === 'unknown');
  return {
    message: `${claimSaid(circuit, result.claim)} cannot be judged${spaced(where(circuit, open))}: ${open[0]!.so}`,
    why: 'A value written `?` stands for one that has still to be read. Meter it and write it in.',
    range: result.claim.range,
    subjects: subjectsOf(circuit, result),
  };
}

/** `6.62k within 5%`, `silence`, `parallel(bridge, neck)`. */
export function claimSaid(circuit: Circuit, claim: Claim): string {
  switch (claim.kind) {
    case 'sounds':
      return arrangementText(circuit, claim.arrangement);
    case 'silent':
      return 'silence';
    case 'hum':
      return `hum ${claim.hum}`;
    case 'hums':
      return 'hum';
    case 'reads':
      return `${ohmText(claim.ohm)}${within(claim.within)}`;
    case 'reads-open':
      return 'an open reading';
    case 'reads-short':
      return 'a short';
    case 'peak':
      return `a peak at ${hertzText(claim.hz)}${within(claim.within)}`;
    case 'cutoff':
      return `3 dB down at ${hertzText(claim.hz)}${within(claim.within)}`;
    case 'level': {
      const at = claim.hz === undefined ? '' : ` at ${hertzText(claim.hz)}`;
      return `a level of ${decibelText(claim.db, 2)}${at}${claim.within === undefined ? '' : ` within ${decibelText(claim.within, 2)}`}`;
    }
  }
}

function within(share: number | undefined): string {
  return share === undefined ? '' : ` within ${Number((share * 100).toFixed(2))}%`;
}

function bySentence(outcomes: readonly Outcome[]): readonly (readonly Outcome[])[] {
  const groups = new Map<string, Outcome[]>();
  for (const outcome of outcomes) {
    const said = sentence(outcome);
    const alike = groups.get(said);
    if (alike === undefined) groups.set(said, [outcome]);
    else alike.push(outcome);
  }
  return [...groups.values()];
}

function sentence({ so, hint }: Outcome): string {
  return hint === undefined ? so : `${so}: ${hint}`;
}

/** The switches by their common positions, then the pots that stand off their rest. */
function where(circuit: Circuit, outcomes: readonly Outcome[]): string {
  const settings = outcomes.map((outcome) => outcome.setting);
  const all = factsOf(circuit).settings();
  const { rotations } = settings[0]!;
  const enumerated = new Map(all.map((setting) => [setting.positions.join(), setting]));
  const known = settings.flatMap((setting) => enumerated.get(setting.positions.join()) ?? []);
  // A resting switch put off its rest is in no enumerated setting, and is named as it stands.
  if (known.length < settings.length) return `at ${settingLabel(circuit, settings[0]!)}`;
  const pots = settingLabel(circuit, { positions: circuit.switches.map(() => -1), rotations });
  const switches = whereSaid(circuit, all, known);
  return [switches, pots && (switches ? `with ${pots}` : `at ${pots}`)].filter(Boolean).join(' ');
}

function spaced(words: string): string {
  return words && ` ${words}`;
}

/** The controls and pickups that the line speaks of. */
function subjectsOf(circuit: Circuit, { expectation, claim, outcomes }: ClaimResult): readonly string[] {
  const controls = expectation.settings.map((set) =>
    set.kind === 'switch' ? switchById(circuit, set.switch).name : shaftById(circuit, set.shaft).name,
  );
  const coils =
    claim.kind === 'sounds'
      ? outcomes.flatMap(({ setting }) =>
          factsOf(circuit)
            .hearing.sound(setting)
            .heard.map(({ coil }) => coil),
        )
      : [];
  const pickups = coils.map((id) => partById(circuit, (circuit.elements[id] as Coil).part).name);
  return [...new Set([...controls, ...pickups])];
}
