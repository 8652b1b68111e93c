/** The form of the table of usual practice, which is worked out from the circuits of `language/practice`. */
import type { Connection } from './connections.js';
import type { RoleWord } from './role.js';
import type { Side } from './surroundings.js';

/** What every pattern has: the circuit's file name without its ending, and what its first comment says. */
export interface NamedPattern {
  readonly name: string;
  readonly says: string;
}

/** What the lugs of a track are soldered to: the end that the wiper reaches at 0, the wiper, the end that it reaches at 10. */
export interface TrackSides {
  readonly cold: Side;
  readonly wiper: Side;
  readonly hot: Side;
}

/** One usual way to wire a track in a role; each circuit of `language/practice` gives those of the parts whose role it states. */
export interface TrackPattern extends NamedPattern, TrackSides {
  readonly role: RoleWord;
}

/** A pole's common, which a plain on-off contact doesn't have, and its throws in their order. */
export interface PolePattern {
  readonly common?: Connection;
  readonly throws: readonly Connection[];
}

/** One usual way to wire a switch in a role: its poles that are in use. Another type of switch may be wired so as well, where its poles have the form. */
export interface PolesPattern extends NamedPattern {
  readonly role: RoleWord;
  readonly type: string;
  readonly poles: readonly PolePattern[];
  /** True of a large switch, where any throw may carry what any of them carries; such a pattern is for large switches alone. */
  readonly isLarge?: true;
}

/** How a part with two leads stands to others of its kind, or to the lugs of pots that it leads to. */
export type Company = 'alone' | 'in series' | 'in parallel' | 'shared';

/** One usual way to wire a part with two leads in a role; which lead is which doesn't matter. */
export interface LeadsPattern extends NamedPattern {
  readonly role: RoleWord;
  readonly leads: readonly [Connection, Connection];
  readonly company: Company;
}

/** How the ground of a part is laid: its lead is the braid around the other; straight to a star; on from case to case. */
export type Ground = 'braid' | 'star' | 'chain';

/** One usual way to wire a part that has no role, or whatever its role: pickups, jacks, stages, metal; by its type and the names of its lugs. */
export interface LugsPattern extends NamedPattern {
  readonly type: string;
  readonly lugs: Readonly<Record<string, Connection>>;
  readonly ground?: Ground;
}

/** All patterns, by what they speak of. */
export interface Practice {
  readonly tracks: readonly TrackPattern[];
  readonly poles: readonly PolesPattern[];
  readonly leads: readonly LeadsPattern[];
  readonly lugs: readonly LugsPattern[];
}
