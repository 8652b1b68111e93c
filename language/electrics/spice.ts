/** One setting as a plain SPICE deck: element by element from the circuit, not from the solver's network. */
import {
  type AnalysedCircuit,
  type Circuit,
  type Coil,
  type Element,
  type ElementId,
  type Gain,
  lugById,
  type LugId,
  partById,
  partOfLug,
} from '../circuit/model.js';
import { deckComment, deckName } from '../escape.js';
import { createForest, join, rootOf } from '../numerics/index.js';
import type { Nets, Setting } from './model.js';
import { type Branch, branchesOf, outside, screening } from './network/branches.js';
import { coupledPairs } from './network/coupling.js';
import { netNames } from './network/net-names.js';
import { netMembers, netOf, nets } from './network/nets.js';
import { uncountedWires } from './network/screens.js';
import type { Section } from './network/sections.js';
import { createSupply } from './network/supply.js';
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
 * with its resistance and inductance, or with the sections of a lossy one. The output is the net that the `.print` line names. Never throws; a circuit without a jack
 * gives a deck whose comment says so.
 */
export function spiceDeck(circuit: AnalysedCircuit, setting: Setting, options: DeckOptions = {}): string {
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
    named.has(names[net] ?? '') ? [`* ${names[net]}: ${deckComment(lugLabels(circuit, lugs))}`] : [],
  );
  const tip = folded.tip === folded.ground || output === undefined ? undefined : names[folded.tip];
  const uncounted = uncountedWires(circuit);
  const range = `${options.perDecade ?? 66} ${value(options.from ?? 20)} ${value(options.to ?? 20_000)}`;
  return [
    `* ${deckComment(circuit.title ?? 'circuit')}${label === '' ? '' : ` (${deckComment(label)})`}`,
    ...(output === undefined ? ['* no jack, so the instrument has no output'] : []),
    ...(output !== undefined && tip === undefined ? ['* the output is shorted: tip and sleeve are one net'] : []),
    ...(uncounted === undefined ? [] : [`* ${deckComment(uncounted)}`]),
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

/** The lines of a deck as they are written. */
interface Writer {
  readonly lines: string[];
  /** Nets and inner nodes joined for direct current, by name. */
  readonly direct: (readonly [string, string])[];
  /** Name of the net of a lug. */
  at(lug: LugId): string;
  /** A name that nothing has yet. */
  unique(letter: string, name: string): string;
  line(letter: string, name: string, nodes: readonly string[], words: string): void;
  resistor(name: string, a: string, b: string, ohm: number): void;
}

function createWriter(folded: Nets, names: readonly string[]): Writer {
  const lines: string[] = [];
  const direct: (readonly [string, string])[] = [];
  const used = new Set(names.map((name) => name.toLowerCase()));
  const unique = (letter: string, name: string): string => {
    const plain = `${letter}_${deckName(name)}`;
    let label = plain;
    for (let n = 2; used.has(label.toLowerCase()); n++) label = `${plain}_${n}`;
    used.add(label.toLowerCase());
    return label;
  };
  const line: Writer['line'] = (letter, name, nodes, words) => {
    lines.push(`${unique(letter, name)} ${nodes.join(' ')} ${words}`);
  };
  return {
    lines,
    direct,
    unique,
    line,
    at: (lug) => names[netOf(folded, lug)] ?? '?',
    resistor(name, a, b, ohm) {
      if (a === b) return;
      line('R', name, [a, b], value(Math.max(ohm, nothing)));
      direct.push([a, b]);
    },
  };
}

function createDeck(circuit: AnalysedCircuit, folded: Nets, names: readonly string[]) {
  const writer = createWriter(folded, names);
  const elementName = (id: number): string => {
    const element = circuit.elements[id];
    if (element === undefined) return 'amplifier';
    const part = partById(circuit, element.part).name;
    return element.name === '' ? part : `${part}_${element.name}`;
  };
  const supply = createSupply(circuit, folded);
  /** Labels of the inductances of each winding, by element. */
  const inductors = new Map<ElementId, readonly string[]>();
  return {
    lines: writer.lines,
    add(branch: Branch): void {
      const element = circuit.elements[branch.element];
      const half = branch.of === undefined ? '' : `_${branch.of}`;
      const name = `${elementName(branch.element)}${half}`;
      const [a, b] = [writer.at(branch.a), writer.at(branch.b)];
      if (element?.kind === 'gain' && branch.of === 'output') {
        addStage(writer, element, branch, { name: elementName(branch.element), isLive: supply.feeds(element) });
      } else if (branch.kind === 'diode') {
        if (supply.conducts(branch.element)) writer.resistor(name, a, b, branch.ohm);
      } else if (branch.kind === 'piezo') {
        if (element?.kind === 'coil') addPiezo(writer, branch, name, element);
      } else if (branch.kind === 'winding') {
        inductors.set(branch.element, addWinding(writer, branch, name, element));
      } else if (branch.kind === 'capacitor') {
        if (a !== b) writer.line('C', capacitorName(circuit, branch) ?? name, [a, b], value(branch.farad));
      } else writer.resistor(name, a, b, branch.ohm);
    },
    coupleAll: () => coupleAll(circuit, writer, inductors),
    tieFloating: () => tieFloating(writer),
  };
}

/** The name of a capacitance that isn't an element's: `lead`, or `screen of volume.2 to output.tip`. */
function capacitorName(circuit: Circuit, { element, b }: Branch): string | undefined {
  if (element === outside) return 'lead';
  return element === screening ? partOfLug(circuit, b).name : undefined;
}

/** From start to finish: source, resistance, then the inductance or the sections of the core, the last of them up to the finish itself. Returns the labels of the inductances. */
function addWinding(writer: Writer, branch: Branch, name: string, element: Element | undefined): readonly string[] {
  const coil = element?.kind === 'coil' ? element : undefined;
  const isCoupled = element !== undefined && 'coupling' in element && element.coupling !== 0;
  const [a, b] = [writer.at(branch.a), writer.at(branch.b)];
  if (a === b && !isCoupled) return [];
  let [node, count] = [a, 0];
  const step = (): string => writer.unique('n', `${name}_${++count}`);
  if (coil !== undefined) {
    const next = step();
    addSource(writer, name, { coil, sections: branch.sections }, [next, node]);
    node = next;
  }
  if (!(branch.henry > 0)) {
    writer.resistor(name, node, b, branch.ohm);
    return [];
  }
  if (branch.ohm !== 0) {
    const middle = step();
    writer.resistor(name, node, middle, branch.ohm);
    node = middle;
  }
  const inner = node;
  const core = branch.core.length > 0 ? branch.core : [{ henry: branch.henry, ohm: Infinity }];
  const labels = core.map(({ henry, ohm }, index) => {
    const next = index === core.length - 1 ? b : step();
    const label = writer.unique('L', name);
    writer.lines.push(`${label} ${node} ${next} ${value(henry)}`);
    writer.direct.push([node, next]);
    if (ohm !== Infinity) writer.resistor(`${name}_core`, node, next, ohm);
    node = next;
    return label;
  });
  if (branch.loss !== Infinity) writer.resistor(`${name}_loss`, inner, b, branch.loss);
  return labels;
}

/** The voltage of a coil between two nodes, plus and minus; where a cover shades it, behind a filter that does what the cover does. */
function addSource(
  writer: Writer,
  name: string,
  { coil, sections }: { readonly coil: Coil; readonly sections: readonly Section[] },
  [plus, minus]: readonly [string, string],
): void {
  const degrees = coil.winding * coil.magnet === 1 ? 0 : 180;
  const volts = `DC 0 AC ${value(outputOf(coil))} ${degrees}`;
  writer.direct.push([minus, plus]);
  if (sections.length === 0) {
    writer.line('V', name, [plus, minus], volts);
    return;
  }
  const strings = writer.unique('n', `${name}_strings`);
  writer.line('V', name, [strings, '0'], volts);
  writer.direct.push([strings, '0']);
  let shaded = strings;
  for (const section of sections) shaded = addSection(writer, section, `${name}_cover`, [shaded, '0']);
  writer.line('E', name, [plus, minus, shaded, '0'], '1');
}

function addPiezo(writer: Writer, branch: Branch, name: string, coil: Coil): void {
  const [a, b] = [writer.at(branch.a), writer.at(branch.b)];
  if (a === b) return;
  const inner = writer.unique('n', name);
  addSource(writer, name, { coil, sections: [] }, [inner, a]);
  writer.line('C', name, [inner, b], value(branch.farad));
}

function addStage(
  writer: Writer,
  gain: Gain,
  { sections }: Branch,
  { name, isLive }: { readonly name: string; readonly isLive: boolean },
): void {
  const at = (lug: LugId): string => writer.at(lug);
  const [output, minus] = [at(gain.b), at(gain.minus)];
  if (!isLive) {
    writer.resistor(`${name}_out`, output, minus, gain.outputResistance.value);
    return;
  }
  let from: readonly [string, string] = [at(gain.a), at(gain.inverting ?? gain.minus)];
  sections.forEach((section, index) => (from = [addSection(writer, section, `${name}_band${index + 1}`, from), '0']));
  const inner = writer.unique('n', `${name}_out`);
  writer.line('E', name, [inner, minus, ...from], value(gain.gain));
  writer.direct.push([inner, minus]);
  writer.resistor(`${name}_out`, inner, output, gain.outputResistance.value);
}

/** Any resistance would do, since sources drive the filters of a stage's bands and nothing loads them. */
const bandOhm = 1000;

/** A section as a filter of resistors, capacitors and an inductor between two sources; the node that it ends on, against ground. */
function addSection(writer: Writer, section: Section, name: string, input: readonly [string, string]): string {
  const node = (part: string): string => writer.unique('n', `${name}_${part}`);
  const source = (part: string, nodes: readonly string[], gain: number): void => {
    writer.line('E', `${name}_${part}`, nodes, value(gain));
    writer.direct.push([nodes[0] ?? '0', nodes[1] ?? '0']);
  };
  const { w, width, direct, through } = section;
  const [driven, filtered, sum] = [node('in'), node('filter'), node('sum')];
  source('in', [driven, '0', ...input], 1);
  if (section.kind === 'low-pass') {
    writer.resistor(`${name}_r`, driven, filtered, bandOhm);
    writer.line('C', `${name}_c`, [filtered, '0'], value(1 / (w * bandOhm)));
  } else {
    // A resistor after a series resonance has across it what the resonance lets through: width R/L, middle 1/√(L C).
    const henry = bandOhm / width;
    const between = node('between');
    writer.line('C', `${name}_c`, [driven, between], value(1 / (w * w * henry)));
    writer.line('L', `${name}_l`, [between, filtered], value(henry));
    writer.direct.push([between, filtered]);
    writer.resistor(`${name}_r`, filtered, '0', bandOhm);
  }
  if (direct === 0 && through === 1) return filtered;
  const half = node('half');
  source('direct', [half, '0', driven, '0'], direct);
  source('through', [sum, half, filtered, '0'], through);
  return sum;
}

/** Lines for each pair of coils of one pickup that share a field, section by section; both inductors run from start to finish. */
function coupleAll(circuit: AnalysedCircuit, writer: Writer, inductors: ReadonlyMap<ElementId, readonly string[]>): void {
  for (const { first, second, factor } of coupledPairs(circuit)) {
    const others = inductors.get(second.id) ?? [];
    for (const [index, one] of (inductors.get(first.id) ?? []).entries()) {
      const other = others[index];
      if (other === undefined) continue;
      writer.lines.push(`${writer.unique('K', partById(circuit, first.part).name)} ${one} ${other} ${value(factor)}`);
    }
  }
}

/** One leak for each piece that no direct current joins to ground. */
function tieFloating(writer: Writer): void {
  const nodes = ['0', ...new Set(writer.lines.flatMap(nodesOf).filter((node) => node !== '0'))];
  const index = new Map(nodes.map((node, i) => [node, i]));
  const parent = createForest(nodes.length);
  for (const [a, b] of writer.direct) {
    const [one, other] = [index.get(a), index.get(b)];
    if (one !== undefined && other !== undefined) join(parent, one, other);
  }
  for (const [i, node] of nodes.entries()) {
    if (i > 0 && rootOf(parent, i) === i) writer.lines.push(`${writer.unique('R', `leak_${node}`)} ${node} 0 ${value(leak)}`);
  }
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
