/** Expectations that hold now or are broken, and lines that are new or gone. */
import {
  shaftById,
  switchById,
  type Arrangement,
  type AnalysedCircuit,
  type Circuit,
  type Claim,
  type ControlSetting,
  type Expectation,
  lugById,
} from '../circuit/model.js';
import { groupBy, itemAt } from '../collections.js';
import { describeFound, factsOf } from '../checks/index.js';
import { arrangementText, settingLabel } from '../electrics/index.js';
import { decibelText, evaluateSteps, hertzText, ohmText, type ClaimResult } from '../intent/index.js';
import type { Steps } from '../steps.js';
import type { ExpectationChange } from './change.js';
import { mapArrangement } from './heard.js';
import type { Match } from './match.js';

interface Stated {
  /** What it says, whatever the order of its settings. */
  readonly key: string;
  /** `expect selector "both" : hum cancelled`, in the names of the new circuit where they have their like there. */
  readonly text: string;
  readonly result: ClaimResult;
}

/** Claim by claim, each known by what it says of the setting it says it of; in steps of one judged setting each. */
export function* expectationSteps(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  match: Match,
): Steps<readonly ExpectationChange[]> {
  const old = yield* statedIn(before, (line) => {
    const shown = mapped(before, after, line, match);
    return shown === undefined ? [before, line] : [after, shown];
  });
  const now = yield* statedIn(after, (line) => [after, line]);
  const waiting = groupBy(old, ({ key }) => key);
  const changes = now.flatMap((stated): ExpectationChange[] => {
    const earlier = waiting.get(stated.key)?.shift();
    const { text, result } = stated;
    const place = { after: result.claim.range };
    if (earlier === undefined)
      return [
        { kind: 'new', expects: text, holds: result.verdict === 'held', says: `new: ${text} (${soNow(result)})`, ...place },
      ];
    const kind = kinds[`${earlier.result.verdict} ${result.verdict}`];
    if (kind === undefined) return [];
    return [
      {
        kind,
        expects: text,
        holds: result.verdict === 'held',
        says: describeExpectation(kind, text, result),
        before: earlier.result.claim.range,
        ...place,
      },
    ];
  });
  const gone = [...waiting.values()].flat().map(({ text, result }): ExpectationChange => ({
    kind: 'gone',
    expects: text,
    says: `gone: ${text} (${result.verdict === 'held' ? 'it was met' : result.verdict === 'failed' ? 'it was not met' : 'it could not be checked'})`,
    before: result.claim.range,
  }));
  return [...changes, ...gone];
}

const kinds: Readonly<Record<string, 'held' | 'broken' | 'unknown'>> = {
  'held failed': 'broken',
  'unknown failed': 'broken',
  'failed held': 'held',
  'unknown held': 'held',
  'held unknown': 'unknown',
  'failed unknown': 'unknown',
};

function describeExpectation(kind: 'held' | 'broken' | 'unknown', text: string, result: ClaimResult): string {
  if (kind === 'held') return `now met: ${text}`;
  return kind === 'broken'
    ? `broken: ${text} (${soIn(result, 'failed')})`
    : `can’t be checked now: ${text} (${soIn(result, 'unknown')})`;
}

function soNow(result: ClaimResult): string {
  if (result.verdict === 'held') return 'it is met';
  return `${result.verdict === 'failed' ? 'it is not met' : 'it can’t be checked'}: ${soIn(result, result.verdict)}`;
}

function soIn({ outcomes }: ClaimResult, verdict: 'failed' | 'unknown'): string {
  const outcome = outcomes.find((one) => one.verdict === verdict);
  return outcome === undefined ? '' : describeFound(outcome.found);
}

/** Nothing is judged while a statement that wires or declares something cannot be read. */
function* statedIn(
  circuit: AnalysedCircuit,
  shownAs: (line: Expectation) => readonly [AnalysedCircuit, Expectation],
): Steps<readonly Stated[]> {
  if (circuit.isLibrary || factsOf(circuit).unread.any) return [];
  const stated: Stated[] = [];
  for (const line of circuit.expectations) {
    const [own, shown] = shownAs(line);
    const [texts, keys] = [expectationTexts(own, shown), expectationTexts(own, shown, true)];
    const results = yield* evaluateSteps(circuit, line);
    stated.push(...results.map((result, index) => ({ key: itemAt(keys, index), text: itemAt(texts, index), result })));
  }
  return stated;
}

/** Each claim of a line as a line of its own; with its settings in the order of the alphabet where they are to be compared. */
export function expectationTexts(circuit: AnalysedCircuit, line: Expectation, isSorted = false): readonly string[] {
  const texts = settingTexts(circuit, line.settings);
  const settings = isSorted ? [...texts].sort() : texts;
  const output = line.at === undefined ? [] : [`at ${lugById(circuit, line.at).label}`];
  return line.claims.map(
    (claim) =>
      `expect ${[...output, ...settings].join(', ')}${output.length + settings.length === 0 ? '' : ' '}: ${claimText(circuit, claim)}`,
  );
}

/** The line with the ids of the new circuit; absent where something in it is gone. */
function mapped(before: Circuit, after: Circuit, line: Expectation, match: Match): Expectation | undefined {
  const settings = line.settings.map((setting): ControlSetting | undefined => {
    if (setting.kind === 'shaft') {
      const shaft = match.shafts.to.get(setting.shaft);
      return shaft === undefined ? undefined : { ...setting, shaft };
    }
    const device = match.switches.to.get(setting.switch);
    if (device === undefined || switchById(after, device).positions[setting.position] === undefined) return undefined;
    return { ...setting, switch: device };
  });
  const claims = line.claims.map((claim): Claim | undefined => {
    if (claim.kind !== 'sounds') return claim;
    const arrangement = mapArrangement(before, claim.arrangement, match);
    return arrangement === undefined ? undefined : { ...claim, arrangement };
  });
  const at = line.at === undefined ? undefined : match.lugs.to.get(line.at);
  if (settings.includes(undefined) || claims.includes(undefined) || (at === undefined && line.at !== undefined)) return undefined;
  return { ...line, ...(at === undefined ? {} : { at }), settings: settings as ControlSetting[], claims: claims as Claim[] };
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

/** The claim as it is written, the members of an arrangement by name. */
function claimText(circuit: AnalysedCircuit, claim: Claim): string {
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
