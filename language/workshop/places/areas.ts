/** The places of work: plates at the bench, cavities of the body, and the two that an instrument without either has. */

/** A place of work: a plate at the bench, or a cavity of the body. An instrument that names neither has two: its controls and its body. */
export interface Area {
  /** Unique among the areas: `plate control`, `cavity control-rout`. */
  readonly key: string;
  readonly kind: 'plate' | 'cavity' | 'controls' | 'body';
  readonly name: string;
  /** Cavity that it lies in or is. */
  readonly cavity?: string;
}

/** What is not said to lie anywhere. */
export const CONTROLS: Area = { key: 'controls', kind: 'controls', name: 'controls' };
export const BODY: Area = { key: 'body', kind: 'body', name: 'body' };

/** True for an area that is worked on at the bench, off the body. */
export function isBench(area: Area): boolean {
  return area.kind === 'plate' || area.kind === 'controls';
}

export function cavityArea(name: string): Area {
  return { key: `cavity ${name}`, kind: 'cavity', name, cavity: name };
}
