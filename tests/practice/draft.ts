/** A circuit while it is drawn: its parts, what is soldered to what, what belongs on ground, and what its switches do. */
import type { Dice } from '../harness/dice.js';
import { createNameBook, type NameBook, type Role } from './names.js';
import type { Voice } from './voice.js';

/**
 * How the lugs of a part are reached: `leads` come with the part and end at another lug, `body` has lugs for others' wires, `single` is one lug and is
 * named alone.
 */
type Reach = 'pickup' | 'leads' | 'body' | 'single';

export interface Part {
  name: string;
  readonly type: string;
  readonly values: readonly string[];
  /** What is written in braces. */
  readonly properties: string[];
  readonly reach: Reach;
}

export interface Lug {
  readonly part: Part;
  readonly name: string;
}

/** Lugs that are one piece of wire. */
export interface Node {
  lugs: Lug[];
  /** Joined to ground by a separate wire. */
  isGround?: boolean;
}

/** A lead that carries its return as a braid. */
export interface Braid {
  readonly hot: Lug;
  readonly cold: Lug;
}

/** A switch whose state is part of what an `expect` line says. */
export interface Device {
  readonly part: Part;
  /** Each position as a line names it. */
  readonly positions: readonly string[];
  /** It goes back by itself, so a line names it only where it is pressed. */
  readonly returns: boolean;
}

/** A switch of which one pole is wired. */
interface SharedSwitch {
  readonly part: Part;
  readonly poles: readonly { readonly common: Lug; readonly throws: readonly Lug[] }[];
}

/** One output with what is heard there. */
export interface Output {
  readonly tip: Lug;
  readonly isFirst: boolean;
  readonly sounds: (state: ReadonlyMap<object, number>) => Voice;
  /** States that a luthier writes a line for, by what is turned from its first position. */
  readonly states: readonly ReadonlyMap<Part, number>[];
  /** What is named in each of these lines. */
  readonly selecting: readonly Part[];
  readonly turned: readonly Turned[];
}

/** A pot at an end of its turn, as a line names it, and what sounds then. */
export interface Turned {
  readonly setting: string;
  readonly sounds: (state: ReadonlyMap<object, number>) => Voice;
}

export interface Draft {
  readonly dice: Dice;
  readonly names: NameBook;
  /** Every pot turns left, so its ends change places. */
  readonly isLeft: boolean;
  readonly parts: Part[];
  readonly nodes: Node[];
  /** Returns of the signal, and metal. */
  readonly returns: Lug[];
  readonly metal: Lug[];
  readonly braids: Braid[];
  readonly devices: Device[];
  readonly outputs: Output[];
  /** The types that it declares, by name. */
  readonly types: Map<string, string>;
  /** What the circuit is an example of, for the table of the benchmark. */
  readonly families: Set<string>;
  /** Further lines: the lead, the plate. */
  readonly lines: string[];
  /** Push-pull pots that a switch was made of, and that no control has taken yet. */
  readonly pulls: Part[];
  /** A split switch with a pole to spare for the next pickup. */
  openSplit?: SharedSwitch | undefined;
}

export function createDraft(dice: Dice): Draft {
  return {
    dice,
    names: createNameBook(dice),
    isLeft: dice.percent(8),
    parts: [],
    nodes: [],
    returns: [],
    metal: [],
    braids: [],
    devices: [],
    outputs: [],
    types: new Map(),
    families: new Set(),
    lines: [],
    pulls: [],
  };
}

export interface Wanted {
  readonly type: string;
  readonly values?: readonly string[];
  readonly properties?: readonly string[];
  readonly reach?: Reach;
}

/** A part called by its role, for what it belongs to. */
export function addPart(draft: Draft, role: Role, wanted: Wanted, of = ''): Part {
  return addNamed(draft, draft.names.give(role, of), wanted);
}

export function addNamed(draft: Draft, name: string, { type, values = [], properties = [], reach = 'body' }: Wanted): Part {
  const part = { name, type, values, properties: [...properties], reach };
  draft.parts.push(part);
  return part;
}

export function lug(part: Part, name: string): Lug {
  return { part, name };
}

export function node(draft: Draft, ...lugs: readonly Lug[]): Node {
  const made = { lugs: [...lugs] };
  draft.nodes.push(made);
  return made;
}

export function join(to: Node, ...lugs: readonly Lug[]): void {
  to.lugs.push(...lugs);
}

/** Makes two nodes one; the other is empty afterwards. */
export function merge(to: Node, other: Node): void {
  if (to === other) return;
  to.lugs.push(...other.lugs);
  other.lugs = [];
}

export function written({ part, name }: Lug): string {
  return part.reach === 'single' ? part.name : `${part.name}.${name}`;
}
