/** Claims about the frequency response in one setting: peak, cut-off, level. */
import {
  altered,
  partById,
  type AnalysedCircuit,
  type Claim,
  type Element,
  type ElementId,
  type Quantity,
} from '../../circuit/model.js';
import { figure } from '../../claim.js';
import { hertzText } from '../../checks/index.js';
import {
  earlierHum,
  earlierSummary,
  levelAt,
  responseSummary,
  withEarlierInductances,
  type ResponseSummary,
  type Setting,
} from '../../electrics/index.js';
import { isKnown, usualDecibels, usualWithin, verdict, type Heard, type Judgement } from './judgement.js';

/** What version 0.1 counted in another way. */
export type EarlierCount = 'level' | 'hum' | 'inductance';

type ResponseClaim = Extract<Claim, { readonly kind: 'peak' | 'cutoff' | 'level' }>;

export function judgeResponse(circuit: AnalysedCircuit, claim: ResponseClaim, setting: Setting, heard: Heard): Judgement {
  const sound = heard.sound(setting);
  if (sound.silent) return verdict(false, { kind: 'silent' });
  const guessed = guessedParts(
    circuit,
    setting,
    claim,
    sound.heard.map(({ coil }) => coil),
  );
  if (guessed.length > 0) return { verdict: 'unknown', found: { kind: 'unknown-value', subjects: { parts: guessed } } };
  return judgeFigure(claim, setting, heard);
}

function judgeFigure(claim: ResponseClaim, setting: Setting, heard: Pick<Heard, 'response' | 'level'>): Judgement {
  if (claim.kind === 'level') return judgeLevel(claim, heard.level(setting, claim.hz));
  const summary = heard.response(setting);
  if (summary.problem !== undefined) return verdict(false, { kind: 'unsolved', subjects: { note: summary.problem } });
  if (summary.cancels) return verdict(false, { kind: 'cancels' });
  return claim.kind === 'peak' ? judgePeak(claim, summary) : judgeCutoff(claim, summary);
}

/** By which count of version 0.1 a claim that fails would hold, so that only the meaning of its figure is another; nothing where it would not. */
export function earlierCountOf(circuit: AnalysedCircuit, setting: Setting, claim: Claim): EarlierCount | undefined {
  if (claim.kind === 'hum') return earlierHum(circuit, setting) === claim.hum ? 'hum' : undefined;
  if (claim.kind !== 'peak' && claim.kind !== 'cutoff' && claim.kind !== 'level') return undefined;
  if (holdsByEarlierReference(circuit, setting, claim)) return 'level';
  const earlier = withEarlierInductances(circuit);
  if (earlier === undefined) return undefined;
  const heard: Pick<Heard, 'response' | 'level'> = {
    response: (at) => responseSummary(earlier, at),
    level: (at, hz) => levelAt(earlier, at, hz),
  };
  const holds = judgeFigure(claim, setting, heard).verdict === 'held' || holdsByEarlierReference(earlier, setting, claim);
  return holds ? 'inductance' : undefined;
}

function holdsByEarlierReference(circuit: AnalysedCircuit, setting: Setting, claim: ResponseClaim): boolean {
  if (claim.kind === 'peak' || (claim.kind === 'level' && claim.hz !== undefined)) return false;
  const { levelDb, cutoffHz } = earlierSummary(circuit, setting);
  return claim.kind === 'level'
    ? levelDb !== null && judgeLevel(claim, levelDb).verdict === 'held'
    : judgeCutoff(claim, { peak: null, cutoffHz, levelDb }).verdict === 'held';
}

function judgePeak(claim: Extract<Claim, { kind: 'peak' }>, { peak }: ResponseSummary): Judgement {
  if (peak === null) return verdict(false, { kind: 'no-peak' });
  return verdict(isNear(peak.hz, claim), { kind: 'peak', figures: { value: figure(peak.hz, 'hertz', 3) } });
}

function judgeCutoff(claim: Extract<Claim, { kind: 'cutoff' }>, { cutoffHz }: ResponseSummary): Judgement {
  if (cutoffHz === null) return verdict(false, { kind: 'no-cutoff' });
  return verdict(isNear(cutoffHz, claim), { kind: 'cutoff', figures: { value: figure(cutoffHz, 'hertz', 3) } });
}

function judgeLevel({ db, hz, within }: Extract<Claim, { kind: 'level' }>, level: number | null): Judgement {
  if (level === null) return verdict(false, { kind: 'cancels' });
  return verdict(Math.abs(level - db) <= (within ?? usualDecibels), {
    kind: 'level',
    ...(hz === undefined ? {} : { subjects: { at: hertzText(hz) } }),
    figures: { value: figure(Number(level.toFixed(1)) + 0, 'decibel') },
  });
}

function isNear(found: number, { hz, within }: { readonly hz: number; readonly within?: number }): boolean {
  return Math.abs(found - hz) <= (within ?? usualWithin) * hz;
}

/** Parts with a value written `?` on which the figure hangs: the coils that are heard, and what moves it when it is doubled. */
export function guessedParts(
  circuit: AnalysedCircuit,
  setting: Setting,
  claim: Pick<ResponseClaim, 'kind'> & { readonly hz?: number },
  heard: readonly ElementId[],
): readonly string[] {
  const open = circuit.elements.filter((element) => !isKnown(element));
  if (open.length === 0) return [];
  const figure = (of: AnalysedCircuit): number =>
    (claim.kind === 'level' ? levelAt(of, setting, claim.hz) : figureOf(claim, responseSummary(of, setting))) ?? 0;
  const asIs = figure(circuit);
  const moved = open.filter(
    (element) => heard.includes(element.id) || !isSteady(asIs, figure(withElement(circuit, doubled(element))), claim),
  );
  return [...new Set(moved.map(({ part }) => partById(circuit, part).name))];
}

function figureOf({ kind }: Pick<ResponseClaim, 'kind'>, { peak, cutoffHz }: ResponseSummary): number | undefined {
  return kind === 'peak' ? peak?.hz : (cutoffHz ?? undefined);
}

/** A tenth of what the claim leaves where nothing is said. */
function isSteady(a: number, b: number, { kind }: Pick<ResponseClaim, 'kind'>): boolean {
  return Math.abs(a - b) <= (kind === 'level' ? usualDecibels : usualWithin * Math.max(a, b)) / 10;
}

function doubled(element: Element): Element {
  const twice = (quantity: Quantity): Quantity => (quantity.known ? quantity : { ...quantity, value: quantity.value * 2 });
  return {
    ...element,
    ...('resistance' in element && element.resistance !== undefined ? { resistance: twice(element.resistance) } : {}),
    ...('inductance' in element && element.inductance !== undefined ? { inductance: twice(element.inductance) } : {}),
    ...('capacitance' in element && element.capacitance !== undefined ? { capacitance: twice(element.capacitance) } : {}),
  };
}

function withElement(circuit: AnalysedCircuit, changed: Element): AnalysedCircuit {
  return altered(circuit, { elements: circuit.elements.map((element) => (element.id === changed.id ? changed : element)) });
}
