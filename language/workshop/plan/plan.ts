/** What a solder plan is made of: stages, steps and the tests behind each stage. */
import type { Channel, LugId } from '../../circuit/model.js';
import type { RuleName } from './order-reasons.js';
import type { Area } from '../places/areas.js';
import type { End, ItemId, SpotId } from './work.js';

/** One thing to do, told in one line. */
export interface Step {
  /** From 1 through the whole plan. */
  readonly number: number;
  /** Stays the same while what is done stays the same, whatever is added before it: for ticks that survive an edit. */
  readonly key: string;
  readonly kind: 'mount' | 'cut' | 'splice' | 'thread' | 'attach' | 'heat' | 'lay' | 'seat' | 'close';
  readonly text: string;
  /** Of a wire or part that is brought: what it is, and what is to be minded besides its lugs; `text` says all of it. */
  readonly what?: string;
  readonly minding?: string;
  /** The rule by which it stands here, and its reason in a sentence. */
  readonly rule: RuleName;
  readonly because: string;
  readonly item?: ItemId;
  /** Ends brought to their spots in this step. */
  readonly ends?: readonly End[];
  readonly spot?: SpotId;
  /** Ends soldered there in this heat. */
  readonly soldered?: readonly End[];
  readonly channel?: Channel;
  /** The part just heated is heated again: let it cool first. */
  readonly cool?: boolean;
}

/** A reading to take behind a stage. */
export interface StageTest {
  readonly kind: 'joined' | 'reading' | 'apart';
  readonly a: LugId;
  /** Each against `a`. */
  readonly b: readonly LugId[];
  /** Ohm; `null` where the meter must read open. */
  readonly low: number | null;
  readonly high: number | null;
  readonly text: string;
}

export interface Stage {
  readonly kind: 'bench' | 'thread' | 'body' | 'hanging' | 'close';
  readonly title: string;
  readonly area?: Area;
  readonly cavity?: string;
  readonly steps: readonly Step[];
  readonly tests: readonly StageTest[];
  /** How switches and pots stand while the tests are taken. */
  readonly setting?: string;
}

export interface Plan {
  readonly stages: readonly Stage[];
  /** Cases that are heated in both stages, at the bench and in the body, and the fewest that any order can have. */
  readonly reheats: number;
  readonly bound: number;
  /** Which they are, a sentence each. */
  readonly reheated: readonly string[];
}
