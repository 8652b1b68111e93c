/** What one setting looks like: an overlay over a scene, so that a turned switch lays out nothing again. */

/** `closed` for contacts; `lit` on the path from a heard coil to the tip, `return` on the path back to the sleeve, `idle` where nothing plays, `shorted` where a coil's ends meet. */
export type HighlightState = 'closed' | 'lit' | 'return' | 'idle' | 'shorted';

export interface Highlight {
  /** By id of a part, lug, wire, mark or contact; what is not named looks as usual. */
  readonly states: Readonly<Record<string, readonly HighlightState[]>>;
  /** The setting and what is heard in it, in one sentence. */
  readonly says: string;
}
