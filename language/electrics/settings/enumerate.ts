/** The state space: every combination of the switches that do not rest, and which of them fold the same nets. */
import { derive, derivation, type AnalysedCircuit, type Circuit, type LugId, type Switch } from '../../circuit/model.js';
import { createSets, filled, join, rootOf } from '../../numerics/index.js';
import type { Enumeration, Untried } from '../model.js';
import { jointClasses, netOf } from '../network/nets.js';
import { settledPositions } from './driven.js';
import { restingSetting } from './settings.js';
import { partitionSwitches } from './switch-groups.js';

/** Combinations turned through at most; beyond it switches that touch no common net are taken apart. */
export const combinationLimit = 4096;
/** A circuit of more elements than this, far more than any instrument has, is turned through fewer combinations, so that the work is about the same. */
const mostElements = 100;
const fewestCombinations = 256;

/** Combinations of this circuit that are turned through at most. */
export function combinationLimitOf({ elements }: Circuit): number {
  if (elements.length <= mostElements) return combinationLimit;
  return Math.max(fewestCombinations, Math.floor((combinationLimit * mostElements) / elements.length));
}

/**
 * Every combination of the positions of all switches that do not rest, pots at rest, the first switch turning slowest; at most
 * `limit` of them (4,096, fewer in a circuit of more than 100 elements). Combinations that fold the same nets wherever an element or the output stands share a group number.
 * Beyond the limit, switches that touch no common net are turned through apart from each other, and `leftOut` says so.
 */
export function enumerate(circuit: AnalysedCircuit, options: { readonly limit?: number } = {}): Enumeration {
  return options.limit === undefined ? derive(circuit, usual) : enumerateUpTo(circuit, options.limit);
}

const usual = derivation(['joints', 'contacts', 'elements', 'rests', 'output'], (circuit) =>
  enumerateUpTo(circuit, combinationLimitOf(circuit)),
);

function enumerateUpTo(circuit: AnalysedCircuit, limit: number): Enumeration {
  const turned = circuit.switches.filter((device) => device.rest === undefined && device.positions.length > 1);
  const { combinations, leftOut, untried } = combine(circuit, turned, limit);
  const { positions, rotations } = restingSetting(circuit);
  const signature = createSignature(circuit);
  const numbers = new Map<string, number>();
  const group = new Int32Array(combinations.length);
  const settings = combinations.map((combination, index) => {
    circuit.analysis.work?.charge('key', positions.length);
    const at = positions.slice();
    turned.forEach((device, i) => (at[device.id] = combination[i] ?? 0));
    const settled = settledPositions(circuit, at);
    const key = signature(settled);
    let number = numbers.get(key);
    if (number === undefined) numbers.set(key, (number = numbers.size));
    group[index] = number;
    return { positions: settled, rotations };
  });
  return { settings, group, groups: numbers.size, leftOut, ...(untried === undefined ? {} : { untried }) };
}

/** That not every combination of the switches is worked out, in a sentence. */
export function untriedText({ switches, combinations, limit }: Untried): string {
  const [all, most] = [combinations, limit].map((count) => count.toLocaleString('en'));
  return `${switches} switches make ${all} combinations, more than ${most}: not every combination is worked out`;
}

interface Combinations {
  readonly combinations: readonly (readonly number[])[];
  readonly leftOut: readonly string[];
  readonly untried?: Untried;
}

function combine(circuit: AnalysedCircuit, turned: readonly Switch[], limit: number): Combinations {
  const product = turned.reduce((all, device) => all * device.positions.length, 1);
  if (product <= limit) return { combinations: turnThrough(turned, turned), leftOut: [] };
  const parts = partitionSwitches(circuit, turned, limit);
  const seen = new Set<string>();
  const combinations: (readonly number[])[] = [];
  for (const together of parts) {
    for (const combination of turnThrough(turned, together)) {
      const key = combination.join();
      if (seen.has(key)) continue;
      seen.add(key);
      combinations.push(combination);
    }
  }
  const names = (devices: readonly Switch[]): string => devices.map((device) => device.name).join(', ');
  const untried = { switches: turned.length, combinations: product, limit };
  const [alone, groups] = [parts.filter(({ length }) => length === 1), parts.filter(({ length }) => length > 1)];
  const others = groups.length > 0 ? 'other ' : '';
  const leftOut = [
    untriedText(untried),
    ...groups.map((together) => `varied together: ${names(together)}, with the others in their first position`),
    ...(alone.length === 0
      ? []
      : [
          `${alone.length === 1 ? `${names(alone.flat())} is` : `each of the ${others}${alone.length} is`} varied alone, with the others in their first position`,
        ]),
  ];
  return { combinations, leftOut, untried };
}

/** All combinations of `together`; the rest of `turned` stands in its first position. */
function turnThrough(turned: readonly Switch[], together: readonly Switch[]): readonly (readonly number[])[] {
  let combinations: number[][] = [[]];
  for (const device of turned) {
    const positions = together.includes(device) ? device.positions.length : 1;
    const longer: number[][] = [];
    for (const combination of combinations) for (let at = 0; at < positions; at++) longer.push([...combination, at]);
    combinations = longer;
  }
  return combinations;
}

/**
 * A key that is equal where two choices of positions fold the same nets, as far as an element or the output can tell.
 * Only what a contact touches can differ between two settings, so the cost does not grow with the circuit but with its switches.
 */
export function createSignature(circuit: AnalysedCircuit): (positions: readonly number[]) => string {
  circuit.analysis.work?.charge('key', circuit.elements.length);
  const classes = jointClasses(circuit);
  const matters = new Uint8Array(classes.count);
  const mark = (lug: LugId | undefined): void => {
    if (lug !== undefined) matters[netOf(classes, lug)] = 1;
  };
  for (const element of circuit.elements) {
    mark(element.a);
    mark(element.b);
    if (element.kind === 'track') [element.wiper, element.leavesTo].forEach(mark);
    if (element.kind === 'gain') [element.plus, element.minus, element.inverting].forEach(mark);
  }
  if (circuit.output !== undefined) [circuit.output.tip, circuit.output.sleeve].forEach(mark);

  const touched = new Map<number, number>();
  const relevant: number[] = [];
  const touch = (lug: LugId): number => {
    const joined = netOf(classes, lug);
    let index = touched.get(joined);
    if (index === undefined) {
      touched.set(joined, (index = touched.size));
      if (matters[joined] === 1) relevant.push(index);
    }
    return index;
  };
  // Touched classes that each position of each switch joins, those of each contact together.
  const contacts = circuit.switches.map((device) =>
    device.positions.map((position) => position.joins.filter((lugs) => lugs.length > 1).map((lugs) => lugs.map(touch))),
  );
  const parent = createSets(touched.size);
  const numberOf = filled(touched.size, 0);
  const letters = new Array<number>(relevant.length);
  return (positions) => {
    for (let i = 0; i < parent.length; i++) parent[i] = i;
    let device = 0;
    for (const of of contacts) {
      for (const [first, ...others] of of[positions[device] ?? -1] ?? []) {
        if (first !== undefined) for (const other of others) join(parent, first, other);
      }
      device++;
    }
    // Sets are numbered in the order in which relevant classes meet them, so that only these decide the key.
    numberOf.fill(0);
    let count = 0;
    for (const [i, index] of relevant.entries()) {
      const root = rootOf(parent, index);
      numberOf[root] ||= ++count;
      letters[i] = numberOf[root] ?? 0;
    }
    return String.fromCharCode(...letters);
  };
}
