/** What a repaired circuit must do, asked as cheaply as it can be: claims and plausibility by nets that are kept once they are solved. */
import {
  elementById,
  partById,
  type AnalysedCircuit,
  type Circuit,
  type Claim,
  type Expectation,
  lugById,
  type LugId,
  type Output,
  type PartId,
} from '../../circuit/model.js';
import {
  createListener,
  heardAt,
  type Listener,
  outputsOf,
  restingSetting,
  settingsMatching,
  soundWithoutArrangement,
  type Setting,
  type Sound,
} from '../../electrics/index.js';
import { factsOf, type Facts } from '../../checks/index.js';
import { judge, type Heard as Sources } from '../judge/judge.js';
import { isSmall } from './focus.js';
import type { Folding } from './folding.js';
import { asRead, createKeptAnswers, type Asked, type KeptAnswers } from './kept-answers.js';
import { getOrCreate, groupBy, itemAt } from '../../collections.js';
import { classOf, groundClass } from './wiring.js';

/** How far a circuit is from doing what it should: nothing is wanting where all are 0. */
export interface Shortfall {
  /** Claims that fail, counted setting by setting. */
  readonly claims: number;
  /** Pickups never heard, settings silent that nobody asked to be, leads on nothing, metal not on ground. */
  readonly silence: number;
  readonly loose: number;
}

export interface CandidateEvaluator {
  /** The circuit as it was read. */
  readonly read: Asked;
  /** What a changed circuit does, for as long as `folding` folds no other. */
  readonly answers: KeptAnswers;
  /** How the circuit stands whose classes `folding` folded last. */
  measure(folding: Folding, classes: Int32Array, asked: Asked): Shortfall;
  /**
   * The same, given up as soon as it is worse than `limit`: most changes leave something wrong. With `than`, also given up where nothing
   * that is looked at first is better than it was there.
   */
  within(folding: Folding, classes: Int32Array, asked: Asked, limit: Shortfall, than?: Heard): Shortfall | undefined;
  /** What is heard in each setting, to be compared with. */
  hear(folding: Folding, asked: Asked): Heard;
  /** Equal where no element, in any setting that is asked, and no metal can tell two circuits apart. */
  keys(folding: Folding, classes: Int32Array): string;
}

/** What a circuit does in each setting; the same answer for the same nets. */
export interface Heard {
  readonly answers: ReadonlyMap<unknown, Answer>;
  /** Pickups heard in some setting. */
  readonly heard: ReadonlySet<PartId>;
  /** True where a claim fails. */
  readonly isClaimed: boolean;
}

/** A setting that is asked, with what it has answered. */
interface Question {
  /** Where it is heard in the circuit that was folded last; undefined in an instrument without a jack. */
  readonly outputOf: (folding: Folding) => Output | undefined;
  readonly setting: Setting;
  readonly claims: readonly Claim[];
  /** True for a setting of the switches with the pots at rest at the usual output, unless silence is asked for there. */
  readonly mustSound: boolean;
  /** Answers by the nets that gave them. */
  readonly kept: Map<number, Answer>;
}

export interface Answer {
  readonly failed: number;
  readonly isSilent: boolean;
  /** Pickups that are heard. */
  readonly parts: readonly PartId[];
}

/** Settings asked, at most: of those that claims speak of, and of the others. */
const mostClaimed = 24;
const mostUnclaimed = 12;
/** In a large circuit, of those that no claim speaks of; what answers well is checked whole anyway. */
const mostInLarge = 6;

/** Settings in which a difference must show, before the others are asked. */
const mostTelling = mostUnclaimed;

/** For a circuit and whatever comes of it by changed joints; `facts` are those of the circuit as it was read, which its findings had to know anyway. */
export function createCandidateEvaluator(circuit: AnalysedCircuit, facts: Facts): CandidateEvaluator {
  const questions = questionsOf(circuit, facts);
  const order = [...questions];
  const answer = createAnswering(circuit);
  const countLoose = createLooseCount(circuit);
  const { pickups } = facts.signal;

  const within: CandidateEvaluator['within'] = (folding, classes, asked, limit, than) => {
    const loose = countLoose(classes);
    if (loose > limit.loose || isHopeless(loose, limit, than)) return undefined;
    let [claims, silent, telling] = [0, 0, 0];
    let isHopeful = than === undefined || loose < limit.loose;
    const heard = new Set<PartId>();
    for (const [at, one] of order.entries()) {
      // Where silence is asked for nothing shows.
      if (!isHopeful && one.mustSound && ++telling > mostTelling) return undefined;
      const found = answer(one, folding, asked);
      claims += found.failed;
      if (one.mustSound && found.isSilent) silent++;
      if (claims > limit.claims || silent > limit.silence) {
        // What failed once is asked first the next time: most changes leave the same position wrong.
        if (at > 0) order.splice(0, 0, ...order.splice(at, 1));
        return undefined;
      }
      for (const part of found.parts) heard.add(part);
      isHopeful ||= than !== undefined && isGain(found, than, than.answers.get(one));
    }
    const silence = silent + pickups.filter(({ id }) => !heard.has(id)).length;
    return isHopeful && silence <= limit.silence ? { claims, silence, loose } : undefined;
  };
  return {
    read: asRead(facts.circuit),
    answers: createKeptAnswers(),
    within,
    measure(folding, classes, asked) {
      const found = within(folding, classes, asked, { claims: Infinity, silence: Infinity, loose: Infinity });
      if (found === undefined) throw new Error('Nothing exceeds a limit of infinity');
      // Where something is wrong, that is where a repair shows.
      const isWrong = (one: Question): boolean => {
        const { failed, isSilent } = answer(one, folding, asked);
        return failed > 0 || (one.mustSound && isSilent);
      };
      const wrong = new Set(questions.filter(isWrong));
      order.sort((a, b) => Number(wrong.has(b)) - Number(wrong.has(a)));
      return found;
    },
    hear(folding, asked) {
      const answers = new Map(questions.map((one) => [one, answer(one, folding, asked)]));
      const all = [...answers.values()];
      return {
        answers,
        heard: new Set(all.flatMap(({ parts }) => parts)),
        isClaimed: all.some(({ failed }) => failed > 0),
      };
    },
    keys: (folding, classes) =>
      [countLoose(classes), ...questions.map(({ setting, outputOf }) => folding.netKey(setting, outputOf(folding)))].join(),
  };
}

/** The answer for the nets that `folding` folded last, solved where it is not known yet. */
type Answering = (question: Question, folding: Folding, asked: Asked) => Answer;

function createAnswering(circuit: AnalysedCircuit): Answering {
  const quickAnswer = createQuickAnswer(circuit);
  return (question, folding, asked) => {
    const output = question.outputOf(folding);
    return getOrCreate(
      question.kept,
      folding.turnedKey(question.setting, output),
      () => quickAnswer(question, output, folding) ?? solved(question, output, asked),
    );
  };
}

/** Where nothing but silence is claimed, it need not be known how the coils are joined; undefined where the nets have to be solved in full. */
function createQuickAnswer(
  circuit: AnalysedCircuit,
): (question: Question, output: Output | undefined, folding: Folding) => Answer | undefined {
  const listeners = new Map<string, { readonly listener: Listener | undefined }>();
  const listenerAt = (tip: LugId, rotations: readonly number[]): Listener | undefined =>
    getOrCreate(listeners, `${tip}|${rotations.join()}`, () => ({ listener: createListener(heardAt(circuit, tip), rotations) }))
      .listener;
  return ({ setting, claims }, output, { netOf }) => {
    if (output === undefined || !isOfSilence(claims) || netOf(output.tip) === netOf(output.sleeve)) return undefined;
    const coils = listenerAt(output.tip, setting.rotations)?.(netOf);
    if (coils === undefined) return undefined;
    const isSilent = coils.length === 0;
    return { failed: isSilent ? 0 : claims.length, isSilent, parts: coils.map((coil) => elementById(circuit, coil).part) };
  };
}

function isOfSilence(claims: readonly Claim[]): boolean {
  return claims.every(({ kind }) => kind === 'silent');
}

function solved({ setting, claims }: Question, output: Output | undefined, { made, heard }: Asked): Answer {
  const circuit = heardAt(made(), output?.tip);
  const { failed, sound } = answerOf(circuit, setting, claims, heard(circuit));
  return { failed, isSilent: sound.silent, parts: sound.heard.map(({ coil }) => elementById(circuit, coil).part) };
}

/** Where nothing is silent and no claim fails, only a lead or metal that finds its place is better. */
function isHopeless(loose: number, limit: Shortfall, than: Heard | undefined): boolean {
  return than !== undefined && limit.silence === 0 && !than.isClaimed && loose === limit.loose;
}

/** Claims are judged at the end; without any, something silent must sound. */
function isGain(found: Answer, than: Heard, before: Answer | undefined): boolean {
  if (found === before) return false;
  if (than.isClaimed) return true;
  return (!found.isSilent && before?.isSilent === true) || found.parts.some((part) => !than.heard.has(part));
}

/** Claims by setting, and every different setting of the switches besides, at each output. */
function questionsOf(circuit: AnalysedCircuit, facts: Facts): readonly Question[] {
  const usual = circuit.output;
  // With one jack a line that names its tip speaks of the usual output whatever is changed.
  const lines = groupBy(circuit.expectations, ({ at }) => (at === usual?.tip && circuit.jacks.length < 2 ? undefined : at));
  const linesAt = (tip: LugId | undefined): readonly Expectation[] => lines.get(tip) ?? [];
  const others = [...otherOutputs(circuit)].flatMap((tip) => {
    const there = heardAt(circuit, tip);
    return questionsAt(there, factsOf(heardAt(facts.circuit, tip)), linesAt(tip)).map((one): Question => {
      // Where a change makes this the usual output, the one that was is asked in its place.
      const isFixed = one.claims.length > 0;
      const outputOf = (folding: Folding): Output | undefined => (isFixed || folding.usual()?.tip !== tip ? there.output : usual);
      return { ...one, outputOf, mustSound: false };
    });
  });
  const named =
    usual === undefined ? [] : questionsAt(circuit, facts, linesAt(usual.tip)).filter(({ claims }) => claims.length > 0);
  return [
    ...questionsAt(circuit, facts, linesAt(undefined)).map(({ isResting, ...one }): Question => ({
      ...one,
      outputOf: (folding) => folding.usual(),
      mustSound: isResting && !facts.intended.asksSilence(one.setting),
    })),
    ...others,
    ...named.map((one): Question => ({ ...one, outputOf: () => usual, mustSound: false })),
  ];
}

/** Contacts besides the usual output that a line speaks of or a pickup reaches, and the tips of further jacks, which a pickup may have missed. */
function otherOutputs(circuit: AnalysedCircuit): ReadonlySet<LugId> {
  const tips = new Set(outputsOf(circuit).map(({ tip }) => tip));
  for (const { at } of circuit.expectations) if (at !== undefined) tips.add(at);
  for (const jack of circuit.jacks) {
    for (const lug of partById(circuit, jack).lugs) if (lugById(circuit, lug).name === 'tip') tips.add(lug);
  }
  if (circuit.output !== undefined) tips.delete(circuit.output.tip);
  return tips;
}

/** What is asked of a circuit at the output at which it is heard, of which `lines` speak. */
function questionsAt(
  circuit: AnalysedCircuit,
  facts: Facts,
  lines: readonly Expectation[],
): readonly (Pick<Question, 'setting' | 'claims' | 'kept'> & { readonly isResting: boolean })[] {
  const asked = new Map<string, { setting: Setting; claims: Claim[]; isResting: boolean }>();
  const at = (setting: Setting): { claims: Claim[]; isResting: boolean } => {
    const key = `${setting.positions.join()}|${setting.rotations.join()}`;
    return getOrCreate(asked, key, () => ({ setting, claims: [], isResting: false }));
  };
  for (const line of lines) {
    for (const setting of settingsMatching(circuit, line.settings)) at(setting).claims.push(...line.claims);
  }
  for (const setting of facts.settings()) at(setting).isResting = true;
  return spread(facts.circuit, [...asked.values()]).map((one) => ({ ...one, kept: new Map<number, Answer>() }));
}

/** All of a few; of many, each position of each switch with the others as they are first, and others evenly spread. */
function spread<T extends { readonly setting: Setting; readonly claims: readonly Claim[] }>(
  circuit: AnalysedCircuit,
  asked: readonly T[],
): readonly T[] {
  const { positions: first } = restingSetting(circuit);
  const isPlain = ({ setting }: T): boolean => setting.positions.filter((at, id) => at !== first[id]).length <= 1;
  const some = (items: readonly T[], most: number): readonly T[] => {
    if (items.length <= most) return items;
    const plain = evenly(items.filter(isPlain), (3 * most) / 4);
    const others = items.filter((one) => !isPlain(one));
    return [...plain, ...evenly(others, most - plain.length)];
  };
  const claimed = asked.filter(({ claims }) => claims.length > 0);
  return [
    ...(claimed.length <= mostClaimed ? claimed : failingFirst(circuit, claimed, some)),
    ...some(
      asked.filter(({ claims }) => claims.length === 0),
      isSmall(circuit) ? mostUnclaimed : mostInLarge,
    ),
  ];
}

/** Of many claims some of those that fail are always among those asked: without them nothing would seem to be wanting. */
function failingFirst<T extends { readonly setting: Setting; readonly claims: readonly Claim[] }>(
  circuit: AnalysedCircuit,
  claimed: readonly T[],
  some: (items: readonly T[], most: number) => readonly T[],
): readonly T[] {
  const fails = ({ setting, claims }: T): boolean => claims.some((claim) => judge(circuit, claim, setting).verdict === 'failed');
  const failing = evenly(claimed.filter(fails), mostClaimed / 2);
  const others = claimed.filter((one) => !failing.includes(one));
  return [...failing, ...some(others, mostClaimed - failing.length)];
}

function evenly<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, i) => itemAt(items, Math.floor((i * items.length) / most)));
}

/** What is heard decides first; meter and peak are asked only where that is as it should be. */
function answerOf(
  circuit: AnalysedCircuit,
  setting: Setting,
  claims: readonly Claim[],
  heard: Sources,
): { readonly failed: number; readonly sound: Sound } {
  const sound = isOfSilence(claims) ? soundWithoutArrangement(circuit, setting) : heard.sound(setting);
  const sources: Sources = { ...heard, sound: () => sound };
  const first = claims.filter(({ kind }) => kind === 'sounds' || kind === 'silent' || kind === 'hum' || kind === 'hums');
  const fails = (claim: Claim): boolean => judge(circuit, claim, setting, undefined, sources).verdict === 'failed';
  const failed = first.filter(fails).length;
  if (failed > 0) return { failed: failed + claims.length - first.length, sound };
  return { failed: claims.filter((claim) => !first.includes(claim)).filter(fails).length, sound };
}

/** Lugs at which a current has to go on: where one element alone ends, and it is a pickup's or a two-lead part's. */
function neededLeads(circuit: Circuit): readonly LugId[] {
  return circuit.parts.flatMap((part) => {
    if (part.family !== 'pickup' && part.family !== 'passive') return [];
    const ends = part.elements.flatMap((id) => [elementById(circuit, id).a, elementById(circuit, id).b]);
    return part.lugs.filter((lug) => ends.filter((end) => end === lug).length === 1);
  });
}

/** How many leads end on nothing, and how much metal is not on ground. */
function createLooseCount(circuit: AnalysedCircuit): (classes: Int32Array) => number {
  const leads = neededLeads(circuit);
  const metal = circuit.lugs.flatMap(({ id, metal: isMetal, part }) =>
    isMetal && partById(circuit, part).family !== 'screen' ? [id] : [],
  );
  const sizes = new Int32Array(circuit.lugs.length);
  return (classes) => {
    circuit.analysis.work?.charge('key', classes.length);
    sizes.fill(0);
    for (const root of classes) sizes[root] = (sizes[root] ?? 0) + 1;
    const ground = groundClass(circuit, classes);
    let count = 0;
    for (const lug of leads) if (sizes[classOf(classes, lug)] === 1) count++;
    for (const lug of metal) if (classes[lug] !== ground) count++;
    return count;
  };
}
