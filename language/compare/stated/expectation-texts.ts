/** Expectations as they are written, in one order, so that equal ones have equal texts. */
import {
  lugById,
  shaftById,
  switchById,
  type AnalysedCircuit,
  type Arrangement,
  type Circuit,
  type Claim,
  type ControlSetting,
  type Expectation,
} from '../../circuit/model.js';
import { arrangementText, settingLabel } from '../../electrics/index.js';
import { decibelText, hertzText, ohmText } from '../../intent/index.js';

/** One line for each claim; `isSorted` puts the settings in alphabetical order, for comparing. */
export function expectationTexts(circuit: AnalysedCircuit, line: Expectation, isSorted = false): readonly string[] {
  const place = placeText(circuit, line, isSorted);
  return line.claims.map((claim) => `expect ${place === '' ? '' : `${place} `}: ${claimText(circuit, claim)}`);
}

/** Where a line holds: its output and its settings. */
export function placeText(circuit: AnalysedCircuit, line: Expectation, isSorted = false): string {
  const texts = settingTexts(circuit, line.settings);
  const output = line.at === undefined ? [] : [`at ${lugById(circuit, line.at).label}`];
  return [...output, ...(isSorted ? [...texts].sort() : texts)].join(', ');
}

function settingTexts(circuit: Circuit, settings: readonly ControlSetting[]): readonly string[] {
  const positions = circuit.switches.map((device) => device.rest ?? -1);
  const rotations = circuit.shafts.map((shaft) => shaft.rest);
  return settings.map((setting) => {
    if (setting.kind === 'shaft') return `${shaftById(circuit, setting.shaft).name} ${Number(setting.rotation.toFixed(2))}`;
    const at = positions.map((rest, id) => (id === setting.switch ? setting.position : rest));
    const { name } = switchById(circuit, setting.switch);
    return settingLabel(circuit, { positions: at, rotations }) || `${name} ${setting.position + 1}`;
  });
}

/** The text of a claim, with the members of an arrangement sorted by name. */
export function claimText(circuit: AnalysedCircuit, claim: Claim): string {
  const within = (share: number | undefined): string =>
    share === undefined ? '' : ` within ${Number((share * 100).toFixed(2))}%`;
  switch (claim.kind) {
    case 'sounds':
      return `sounds ${arrangementText(circuit, sorted(circuit, claim.arrangement))}`;
    case 'hum':
      return `hum ${claim.hum}`;
    case 'reads':
      return `reads ${ohmText(claim.ohm)}${within(claim.within)}`;
    case 'reads-open':
      return 'reads open';
    case 'reads-short':
      return 'reads short';
    case 'peak':
      return `peak ${hertzText(claim.hz)}${within(claim.within)}`;
    case 'cutoff':
      return `cutoff ${hertzText(claim.hz)}${within(claim.within)}`;
    case 'level': {
      const at = claim.hz === undefined ? '' : ` at ${hertzText(claim.hz)}`;
      return `level ${decibelText(claim.db, 2)}${at}${claim.within === undefined ? '' : ` within ${decibelText(claim.within, 2)}`}`;
    }
    default:
      return claim.kind;
  }
}

function sorted(circuit: AnalysedCircuit, arrangement: Arrangement): Arrangement {
  if (arrangement.kind === 'pickup' || arrangement.kind === 'coil') return arrangement;
  const key = (member: Arrangement): string => arrangementText(circuit, { ...member, reversed: false });
  const members = arrangement.members.map((member) => sorted(circuit, member));
  return { ...arrangement, members: members.sort((a, b) => (key(a) < key(b) ? -1 : 1)) };
}
