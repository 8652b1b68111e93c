/** What a part is for: the word, how sure it is, and what speaks for it. */
import type { LugId, PartId, ShaftId, SwitchId } from '../circuit/model.js';
import type { ROLE_WORDS } from '../circuit/index.js';

export type PotRole = (typeof ROLE_WORDS.pot)[number];
export type SwitchRole = (typeof ROLE_WORDS.switch)[number];
export type PassiveRole = (typeof ROLE_WORDS.passive)[number];
export type PickupRole = (typeof ROLE_WORDS.pickup)[number];
export type RoleWord = PotRole | SwitchRole | PassiveRole | PickupRole;

/** What has a role: a shaft of a pot, a switch, a part of two leads or an assembly, a pickup. A push-pull pot is a shaft and a switch. */
export type Unit = { readonly part: PartId } & (
  | { readonly kind: 'pot'; readonly shaft: ShaftId }
  | { readonly kind: 'switch'; readonly switch: SwitchId }
  | { readonly kind: 'passive' }
  | { readonly kind: 'pickup' }
);

/** One thing that speaks for a role; `weight` is in steps of common practice: a name counts 4, a type 3, a joint at most 2.5. */
export interface Evidence {
  readonly word: RoleWord;
  readonly weight: number;
  /** A clause, such as “it is called tone”. */
  readonly says: string;
}

/** `stated` where the text gives the role, `strong` where what speaks for it outweighs all else by far. */
export type Confidence = 'stated' | 'strong' | 'weak';

export interface Role {
  readonly unit: Unit;
  readonly word: RoleWord;
  readonly confidence: Confidence;
  /** What speaks for it, the weightiest first; empty where it is stated. */
  readonly evidence: readonly string[];
  /** The pickups that it belongs to, in their order; all of them where it acts on the whole instrument. */
  readonly of: readonly PartId[];
  /** What each of its lugs that has a part in this role is for, as “input”. */
  readonly lugs: ReadonlyMap<LugId, string>;
}
