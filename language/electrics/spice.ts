/** One setting as a plain SPICE deck: element by element from the circuit, not from the solver's network. */
import {
  type Circuit,
  type Coil,
  elementById,
  type ElementId,
  type Gain,
  lugById,
  type LugId,
  partById,
} from '../circuit/model.js';
import { deckComment, deckName } from '../escape.js';
import { createForest, join, rootOf } from '../numerics/index.js';
import type { Nets, Setting } from './model.js';
import { type Branch, branchesOf } from './network/branches.js';
import { netNames } from './network/net-names.js';
import { netMembers, nets } from './network/nets.js';
import { isAlive } from './network/supply.js';
import { settingLabel } from './settings/settings.js';
import { outputOf } from './solver/solver.js';

/** A deck cannot hold a resistor of nothing: this stands for one, in ohms. */
const nothing = 1e-3;
/** A net that no direct current reaches is tied to ground by this, in ohms, since a general solver wants a working point. */
const leak = 1e12;

export interface DeckOptions {
  readonly from?: number;
  readonly to?: number;
  /** Points per decade of the sweep (66, about 200 over the range, where nothing is said). */
  readonly perDecade?: number;
}

/**
 * A deck in plain SPICE (R, C, L, K, V, E, `.ac`, `.print`, `.end`) of one setting, lead and amplifier connected. Ground is `0`, other nets
 * bear the name of one of their lugs; each coil is a source `AC output 0` (or 180 degrees where winding × magnet turns it) in series
 * with its resistance and inductance. The output is the net that the `.print` line names. Never throws; a circuit without a jack
 * gives a deck whose comment says so.
 */
export function spiceDeck(circuit: Circuit, setting: Setting, options: DeckOptions = {}): string {
  const folded = nets(circuit, setting.positions);
  const names = netNames(circuit, folded);
  const deck = createDeck(circuit, folded, names);
  for (const branch of branchesOf(circuit, setting.rotations)) deck.add(branch);
  deck.coupleAll();
  deck.tieFloating();
  const { output } = circuit;
  const label = settingLabel(circuit, setting);
  // Only nets that the deck names: a bare frame or an unused throw is of no use to its reader.
  const named = new Set(deck.lines.flatMap(nodesOf));
  const comments = netMembers(folded).flatMap((lugs, net) =>
    named.has(names[net]!) ? [`* ${names[net]}: ${deckComment(lugLabels(circuit, lugs))}`] : [],
  );
  const tip = folded.tip === folded.ground || output === undefined ? undefined : names[folded.tip];
  const range = `${options.perDecade ?? 66} ${value(options.from ?? 20)} ${value(options.to ?? 20_000)}`;
  return [
    `* ${deckComment(circuit.title ?? 'circuit')}${label === '' ? '' : ` (${deckComment(label)})`}`,
    ...(output === undefined ? ['* no jack: nothing leads out of the instrument'] : []),
    ...(output !== undefined && tip === undefined ? ['* the output is shorted: tip and sleeve are one net'] : []),
    '* nets and their lugs',
    ...comments,
    ...deck.lines,
    `.ac dec ${range}`,
    ...(tip === undefined ? [] : [`.print ac vdb(${tip}) vp(${tip})`]),
    '.end',
    '',
  ].join('\n');
}

function lugLabels(circuit: Circuit, lugs: readonly LugId[]): string {
  return lugs.map((lug) => lugById(circuit, lug).label).join(' ');
}

/** A comment or title on one line. */
function createDeck(circuit: Circuit, folded: Nets, names: readonly string[]) {
  const lines: string[] = [];
  const used = new Set(names.map((name) => name.toLowerCase()));
  /** Nets and inner nodes joined for direct current, by name. */
  const direct: (readonly [string, string])[] = [];
  const at = (lug: LugId): string => names[folded.of[lug]!]!;
  const unique = (letter: string, name: string): string => {
    const plain = `${letter}_${deckName(name)}`;
    let label = plain;
    for (let n = 2; used.has(label.toLowerCase()); n++) label = `${plain}_${n}`;
    used.add(label.toLowerCase());
    return label;
  };
  const line = (letter: string, name: string, nodes: readonly string[], words: string): void => {
    lines.push(`${unique(letter, name)} ${nodes.join(' ')} ${words}`);
  };
  const resistor = (name: string, a: string, b: string, ohm: number): void => {
    if (a === b) return;
    line('R', name, [a, b], value(Math.max(ohm, nothing)));
    direct.push([a, b]);
  };
  const elementName = (id: number): string => {
    const element = circuit.elements[id];
    if (element === undefined) return 'amplifier';
    const part = partById(circuit, element.part).name;
    return element.name === '' ? part : `${part}_${element.name}`;
  };
  const inductors = new Map<ElementId, string>();
  const winding = (branch: Branch, name: string, coil: Coil | undefined): void => {
    const [a, b] = [at(branch.a), at(branch.b)];
    if (a === b && (coil?.coupling ?? 0) === 0) return;
    const steps: string[] = [a];
    const step = (): string => {
      steps.push(unique('n', `${name}_${steps.length}`));
      return steps.at(-1)!;
    };
    // Start to finish: source, resistance, inductance. The last of them ends at the finish itself.
    if (coil !== undefined) {
      const start = steps.at(-1)!;
      const next = step();
      line('V', name, [next, start], `DC 0 AC ${value(outputOf(coil))} ${coil.winding * coil.magnet === 1 ? 0 : 180}`);
      direct.push([start, next]);
    }
    const before = steps.at(-1)!;
    const isPure = branch.henry > 0 && branch.ohm === 0;
    const middle = branch.henry > 0 && !isPure ? step() : before;
    if (!isPure) resistor(name, before, branch.henry > 0 ? middle : b, branch.ohm);
    if (branch.henry > 0) {
      const label = unique('L', name);
      lines.push(`${label} ${middle} ${b} ${value(branch.henry)}`);
      direct.push([middle, b]);
      inductors.set(branch.element, label);
      if (branch.loss !== Infinity) resistor(`${name}_loss`, middle, b, branch.loss);
    }
  };
  const stage = (gain: Gain, name: string): void => {
    const [input, output, minus] = [at(gain.a), at(gain.b), at(gain.minus)];
    if (!isAlive(circuit, folded, gain)) {
      resistor(`${name}_out`, output, minus, gain.outputResistance.value);
      return;
    }
    const inner = unique('n', `${name}_out`);
    line('E', name, [inner, minus, input, minus], value(gain.gain));
    direct.push([inner, minus]);
    resistor(`${name}_out`, inner, output, gain.outputResistance.value);
  };
  return {
    lines,
    add(branch: Branch): void {
      const element = circuit.elements[branch.element];
      const half = branch.of === undefined ? '' : `_${branch.of}`;
      const name = `${elementName(branch.element)}${half}`;
      const [a, b] = [at(branch.a), at(branch.b)];
      if (element?.kind === 'gain' && branch.of === 'output') stage(element, elementName(branch.element));
      else if (branch.kind === 'winding') winding(branch, name, element?.kind === 'coil' ? element : undefined);
      else if (branch.kind === 'capacitor') {
        if (a !== b) line('C', branch.element < 0 ? 'lead' : name, [a, b], value(branch.farad));
      } else resistor(name, a, b, branch.ohm);
    },
    coupleAll(): void {
      const seen = new Set<number>();
      for (const [id, label] of inductors) {
        const coil = circuit.elements[id] as Coil;
        if (seen.has(id) || (coil.coupling ?? 0) === 0) continue;
        const partner = [...inductors.keys()].find(
          (other) =>
            other > id &&
            !seen.has(other) &&
            elementById(circuit, other).part === coil.part &&
            ((circuit.elements[other] as Coil).coupling ?? 0) !== 0,
        );
        if (partner === undefined) continue;
        seen.add(id).add(partner);
        lines.push(
          `${unique('K', partById(circuit, coil.part).name)} ${label} ${inductors.get(partner)} ${value(coil.coupling!)}`,
        );
      }
    },
    /** One leak for each piece that no direct current joins to ground. */
    tieFloating(): void {
      const nodes = ['0', ...new Set([...lines.flatMap(nodesOf)].filter((node) => node !== '0'))];
      const index = new Map(nodes.map((node, i) => [node, i]));
      const parent = createForest(nodes.length);
      for (const [a, b] of direct) join(parent, index.get(a)!, index.get(b)!);
      nodes.forEach((node, i) => {
        if (i > 0 && rootOf(parent, i) === i) lines.push(`${unique('R', `leak_${node}`)} ${node} 0 ${value(leak)}`);
      });
    },
  };
}

/** The nodes that a line of the deck names. */
function nodesOf(line: string): readonly string[] {
  const words = line.split(' ');
  if (line.startsWith('K')) return [];
  return words.slice(1, line.startsWith('E') ? 5 : 3);
}

/** A number as every SPICE reads it: no unit, exponent where it needs one, no more figures than a double holds without noise. */
function value(amount: number): string {
  return String(Number(amount.toPrecision(12)));
}
