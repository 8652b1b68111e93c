/** What one setting sounds like: coils heard, how they are joined, whether hum cancels. */
import { type AnalysedCircuit, type Coil, derive, derivation, elementById, type ElementId } from '../../circuit/model.js';
import { magnitude } from '../../numerics/index.js';
import { lazy } from '../../lazy.js';
import { finished, type Steps } from '../../steps.js';
import type { Setting, Sound } from '../model.js';
import type { Branch } from '../network/branches.js';
import { windingImpedance } from '../network/curves.js';
import { netsKey } from '../network/alike.js';
import { nets } from '../network/nets.js';
import { createNetwork, type Network } from '../network/network.js';
import { outputOf, solveNetwork } from '../solver/solver.js';
import { arrangementText, canonical, coilsOf, collapsed, type Leaf, leavesOf, type Tree, withoutShares } from './arrangement.js';
import { isAudible, listeningHz } from './audible.js';
import { unloadedTransfers } from './unloaded-coils.js';
import { coilsIn, type Expression } from './expression.js';
import { humOf } from './hum.js';
import { type Edge, reduce, type Reduced } from './reduce.js';

/** A share is given where passive parts leave less than this of what the unloaded coils would deliver. */
const shareShownBelow = 0.7;
/** A share from here up is as good as the whole. */
const wholeShare = 0.9;

/** One coil at the output: its transfer at the listening frequency, and volts per volt of a pickup of output 100 %. */
interface Delivery {
  readonly coil: Coil;
  readonly re: number;
  readonly im: number;
  readonly level: number;
  readonly volts: number;
}

/**
 * What reaches the amplifier in one setting, at 100 Hz by superposition. A coil is heard from a twentieth of the loudest up, and silent
 * below −60 dB of its unloaded voltage. `hum.ts` defines `hum`. The coupling between the coils of a
 * pickup is left out. `arrangement` is absent where nothing sounds (`text` is `silent`), and of the kind `mixed` where the coils are
 * neither in series nor in parallel: each then has its share, `mixed(neck 100%, bridge 40%)`.
 */
export function describeSound(circuit: AnalysedCircuit, setting: Setting): Sound {
  return finished(describeSoundSteps(circuit, setting));
}

/** The same in steps: the nets, the network, its equations and their solution are one each. */
export function* describeSoundSteps(circuit: AnalysedCircuit, setting: Setting): Steps<Sound> {
  const folded = nets(circuit, setting.positions);
  yield;
  const kept = derive(circuit, soundsByNets);
  const key = `${setting.rotations.join()}|${netsKey(circuit, folded)}`;
  const known = kept.get(key);
  if (known !== undefined) return known;
  const network = createNetwork(circuit, folded, setting);
  yield;
  const sound = yield* soundSteps(network, () => createNetwork(circuit, nets(circuit, setting.positions), setting));
  kept.set(key, sound);
  return sound;
}

/** Most changes of a wire leave most positions as they were. */
const soundsByNets = derivation(['elements', 'values', 'rests'], () => new Map<string, Sound>());

/** As `describeSound`, without how the coils are joined: for a caller that asks thousands of circuits what is heard. */
export function soundWithoutArrangement(circuit: AnalysedCircuit, setting: Setting): Sound {
  const network = createNetwork(circuit, nets(circuit, setting.positions), setting);
  return finished(listenSteps(network))?.sound ?? silent;
}

/** As `describeSound`, on a network that is there already. */
export function soundOf(network: Network): Sound {
  return finished(soundSteps(network, () => network));
}

const silent: Sound = { text: 'silent', silent: true, hum: 'none', humDb: null, heard: [] };

/** What is heard, before it is known how it is joined. */
interface Listened {
  readonly sound: Sound;
  readonly heard: readonly Delivery[];
  readonly within: readonly number[];
}

/** The one definition of what is heard; nothing where that is nothing. */
function* listenSteps(network: Network): Steps<Listened | undefined> {
  const { circuit } = network;
  const solver = solveNetwork(network, false);
  if (solver.problem !== undefined) return undefined;
  yield;
  const { re, im } = solver.transfers(listeningHz);
  yield;
  const deliveries = solver.coils.map((id, i): Delivery => {
    const coil = circuit.elements[id] as Coil;
    const [x = 0, y = 0] = [re[i], im[i]];
    const level = magnitude(x, y);
    return { coil, re: x, im: y, level, volts: level * outputOf(coil) };
  });
  const loudest = Math.max(0, ...deliveries.map(({ volts }) => volts));
  const heard = deliveries.filter(({ level, volts }) => isAudible(level, volts, loudest));
  if (heard.length === 0) return undefined;
  const first = heard.reduce((most, other) => (other.volts > most.volts ? other : most));
  const heardCoils = heard.map((delivery) => {
    const towards = direction(delivery, first);
    const string = (delivery.coil.winding * delivery.coil.magnet * towards) as 1 | -1;
    return { coil: delivery.coil.id, delivers: delivery.level, string, hum: (delivery.coil.winding * towards) as 1 | -1 };
  });
  return { sound: { text: '', silent: false, ...humOf(circuit, deliveries), heard: heardCoils }, heard, within: solver.within };
}

/**
 * How the coils are joined is found when it is first asked for, on the network that `again` makes once more: most rules ask what is heard
 * and no more, in a large circuit that is a small part of the work, and its networks would take more memory than all else.
 */
function* soundSteps(network: Network, again: () => Network): Steps<Sound> {
  const listened = yield* listenSteps(network);
  if (listened === undefined) return silent;
  const { hum, humDb, heard } = listened.sound;
  // A search pays for what it does when it does it, and keeps thousands of sounds.
  if (network.circuit.analysis.work !== undefined) return { ...listened.sound, ...nameArrangement(network, listened) };
  const joined = lazy((): Required<Pick<Sound, 'arrangement' | 'text'>> => nameArrangement(again(), listened));
  return {
    get text() {
      return joined().text;
    },
    silent: false,
    hum,
    humDb,
    heard,
    get arrangement() {
      return joined().arrangement;
    },
  };
}

/** How the coils that are heard are joined. */
function nameArrangement(network: Network, { sound, heard, within }: Listened): Required<Pick<Sound, 'arrangement' | 'text'>> {
  const { circuit } = network;
  const reduced = arrangementOf(network, within, new Set(heard.map(({ coil }) => coil.id)));
  const found = reduced.kind === 'arrangement' ? [...coilsIn(reduced.expression)].sort((a, b) => a - b) : [];
  const isComplete = found.join() === sound.heard.map(({ coil }) => coil).join();
  const tree =
    reduced.kind === 'arrangement' && isComplete
      ? withShares(circuit, reduced.expression, heard)
      : mixture(circuit, heard, sound.heard);
  const arrangement = canonical(circuit, tree);
  return { arrangement, text: arrangementText(circuit, arrangement) };
}

/** +1 where the coil reaches the output with the sign of the loudest, whose own sign is that of its real part. */
function direction(delivery: Delivery, first: Delivery): 1 | -1 {
  const own = first.re < 0 ? -1 : 1;
  return (delivery.re * first.re + delivery.im * first.im) * own < 0 ? -1 : 1;
}

/** Reduction of the coils that are heard, between sleeve and tip; an amplifier stage carries what stands at its input. */
function arrangementOf(network: Network, within: readonly number[], heard: ReadonlySet<ElementId>): Reduced {
  const { circuit } = network;
  const edges: Edge[] = [];
  const impedances: number[] = [];
  for (const { branch, from, to } of network.branches) {
    if (branch.element < 0 || within[from] === 0 || within[to] === 0) continue;
    const element = elementById(circuit, branch.element);
    const isCoil = element.kind === 'coil';
    // The winding's own capacitance lies across its coil and the lead's across the output; with that of a shielded wire, none can change how coils are joined.
    if (isCoil && branch.kind === 'capacitor') continue;
    const { re, im } = admittanceOf(branch);
    const isHeard = isCoil && heard.has(branch.element);
    const expression: Expression | undefined = isHeard
      ? { kind: 'coil', coil: element.id, sign: (element.winding * element.magnet) as 1 | -1 }
      : undefined;
    if (isHeard) impedances.push(1 / magnitude(re, im));
    edges.push({ from, to, re, im, expression });
  }
  return between(network, edges, impedances, { source: network.ground, target: network.tip }, new Set());
}

/** Admittance of a branch at the listening frequency. */
function admittanceOf(branch: Branch): { readonly re: number; readonly im: number } {
  const omega = 2 * Math.PI * listeningHz;
  if (branch.kind === 'capacitor') return { re: 0, im: omega * branch.farad };
  const { re, im } = windingImpedance(branch, omega);
  const size = Math.max(re * re + im * im, 1e-12);
  return { re: re / size, im: -im / size };
}

function between(
  network: Network,
  edges: readonly Edge[],
  impedances: readonly number[],
  ends: { readonly source: number; readonly target: number },
  within: ReadonlySet<number>,
): Reduced {
  const all = [...edges];
  for (const stage of network.stages) {
    const { gain } = stage;
    if (within.has(gain.id)) continue;
    const ohm = gain.outputResistance.value;
    const stageInput = { source: stage.minus, target: stage.input };
    const input = between(network, edges, impedances, stageInput, new Set([...within, gain.id]));
    if (input.kind === 'mixed') return input;
    const expression: Expression | undefined =
      input.kind === 'nothing'
        ? undefined
        : { kind: 'stage', sign: gain.gain < 0 ? -1 : 1, gain: Math.abs(gain.gain), ohm, input: input.expression };
    all.push({ from: stage.minus, to: stage.output, re: 1 / Math.max(ohm, 1e-6), im: 0, expression });
  }
  return reduce(network.count, all, ends.source, ends.target, impedances);
}

/** Carries signs to the coils, and gives its share to each coil that passive parts pull clearly below its unloaded level. */
function withShares(circuit: AnalysedCircuit, expression: Expression, heard: readonly Delivery[]): Tree {
  if (heard.length === 1) return toTree(expression, 1, new Map());
  const unloaded = unloadedTransfers(circuit, expression, listeningHz);
  const kept = heard.map(({ coil, level }) => level / Math.max(unloaded.get(coil.id) ?? 0, 1e-9));
  const best = Math.max(...kept);
  const pulled = heard.filter((_, i) => (kept[i] ?? 0) < shareShownBelow * best);
  if (pulled.length === 0) return toTree(expression, 1, new Map());
  // A share is of the loudest name that will be written, so a pickup counts with all its coils.
  const leaves = leavesOf(collapsed(circuit, toTree(expression, 1, new Map(pulled.map(({ coil, level }) => [coil.id, level])))));
  const volts = leaves.map((leaf) => voltsOf(circuit, leaf, heard));
  const loudest = Math.max(...volts);
  const shares = new Map<ElementId, number>();
  for (const { coil } of pulled) {
    const own = leaves.findIndex((leaf) => (leaf.kind === 'coil' ? leaf.coil === coil.id : leaf.part === coil.part));
    const share = (volts[own] ?? 0) / loudest;
    if (share < wholeShare) shares.set(coil.id, share);
  }
  return toTree(expression, 1, shares);
}

/** What a coil, or a pickup with all its coils, delivers. */
function voltsOf(circuit: AnalysedCircuit, leaf: Leaf, heard: readonly Delivery[]): number {
  const coils = leaf.kind === 'coil' ? [leaf.coil] : coilsOf(circuit, leaf.part);
  return heard.reduce((sum, { coil, volts }) => (coils.includes(coil.id) ? sum + volts : sum), 0);
}

function toTree(expression: Expression, sign: 1 | -1, shares: ReadonlyMap<ElementId, number>): Tree {
  const own: 1 | -1 = expression.sign === sign ? 1 : -1;
  if (expression.kind === 'stage') return toTree(expression.input, own, shares);
  if (expression.kind === 'coil') {
    const share = shares.get(expression.coil);
    return { kind: 'coil', coil: expression.coil, sign: own, ...(share === undefined ? {} : { share }) };
  }
  return { kind: expression.kind, members: expression.members.map((member) => toTree(member, own, shares)) };
}

/** Each coil with its share, the loudest first; a pickup in one where its coils deliver alike. */
function mixture(circuit: AnalysedCircuit, heard: readonly Delivery[], heardCoils: Sound['heard']): Tree {
  const most = Math.max(...heard.map(({ level }) => level));
  const coils: Tree = {
    kind: 'mixed',
    members: heard.map(({ coil, level }, i): Tree => ({
      kind: 'coil',
      coil: coil.id,
      sign: heardCoils[i]?.string ?? 1,
      share: level / most,
    })),
  };
  const leaves = leavesOf(collapsed(circuit, coils));
  const volts = leaves.map((leaf) => voltsOf(circuit, leaf, heard));
  const loudest = Math.max(...volts);
  const [only] = leaves;
  if (only !== undefined && leaves.length === 1) return withoutShares(only);
  return { kind: 'mixed', members: leaves.map((leaf, i) => ({ ...leaf, share: (volts[i] ?? 0) / loudest })) };
}
