/** The places of work: plates and pickups at the bench, cavities of the body, and the two that an instrument without either has. */
import type { Part } from '../../circuit/model.js';

/** A place of work: a plate or a pickup's own metal at the bench, or a cavity of the body. An instrument that names neither plate nor cavity has two: its controls and its body. */
export interface Area {
  /** Unique among the areas: `plate control`, `cavity control-rout`. */
  readonly key: string;
  readonly kind: 'plate' | 'pickup' | 'cavity' | 'controls' | 'body';
  readonly name: string;
  /** Cavity that it lies in or is. */
  readonly cavity?: string;
}

/** What is not said to lie anywhere. */
export const CONTROLS: Area = { key: 'controls', kind: 'controls', name: 'controls' };
export const BODY: Area = { key: 'body', kind: 'body', name: 'body' };

/** True for an area that is worked on at the bench, off the body. */
export function isBench(area: Area): boolean {
  return area.kind === 'plate' || area.kind === 'controls' || area.kind === 'pickup';
}

/** A pickup's cover and base: they are soldered before the pickup goes into the body. */
export function pickupArea({ name, cavity }: Pick<Part, 'name' | 'cavity'>): Area {
  return { key: `pickup ${name}`, kind: 'pickup', name, ...(cavity === undefined ? {} : { cavity }) };
}

export function cavityArea(name: string): Area {
  return { key: `cavity ${name}`, kind: 'cavity', name, cavity: name };
}
