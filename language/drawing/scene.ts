/** The scene: everything at its place, as plain frozen JSON. What a renderer sees, and all that it sees. */
import type { Box, Point } from './geometry.js';
import type { Label, Shape } from './shape.js';

export interface Scene {
  readonly version: 1;
  readonly title: string;
  readonly side: 'solder' | 'player';
  readonly width: number;
  readonly height: number;
  /** Each list in the order of its ids. */
  readonly groups: readonly SceneGroup[];
  readonly channels: readonly SceneChannel[];
  readonly parts: readonly ScenePart[];
  readonly wires: readonly SceneWire[];
  readonly lacings: readonly SceneLacing[];
  readonly joints: readonly SceneJoint[];
  readonly marks: readonly SceneMark[];
  readonly contacts: readonly SceneContact[];
  /** Where a renderer may write one line on the setting that it shows: its left upper corner. */
  readonly caption: Point;
  /** Title, side, cautions and the key to letters. */
  readonly notes: readonly Label[];
  /** Key: a sample of each kind of line with its label among the notes. */
  readonly samples: readonly SceneSample[];
}

/** The scene without its notes. */
export type Picture = Omit<Scene, 'version' | 'title' | 'side' | 'caption' | 'notes' | 'samples'>;

export interface SceneGroup {
  readonly id: string;
  readonly says: string;
  readonly shapes: readonly Shape[];
  readonly labels: readonly Label[];
}

export interface SceneChannel {
  readonly id: string;
  readonly says: string;
  readonly shapes: readonly Shape[];
  readonly labels: readonly Label[];
}

export interface ScenePart {
  readonly id: string;
  readonly name: string;
  readonly type: string;
  /** One sentence for screen readers. */
  readonly says: string;
  readonly box: Box;
  readonly shapes: readonly Shape[];
  readonly labels: readonly Label[];
  readonly lugs: readonly SceneLug[];
}

export interface SceneLug extends Point {
  readonly id: string;
  /** As it is written: `volume.3`. */
  readonly label: string;
  readonly radius: number;
  /** A `spot` is a larger piece of metal, seen only where something is soldered to it. */
  readonly look: 'lug' | 'spot';
}

export interface SceneWire {
  readonly id: string;
  readonly kind: 'wire' | 'lead' | 'solder' | 'screen' | 'ground';
  /** Ids of what it joins: lugs; a screen's `from` is a wire, a ground stub's `to` a mark. */
  readonly from: string;
  readonly to: string;
  readonly colours: readonly string[];
  readonly bare: boolean;
  readonly twisted: boolean;
  readonly shielded: boolean;
  readonly says: string;
  /** From joint to joint, all corners; `wirePath` says how it bends at them. */
  readonly points: readonly Point[];
  /** Its number and colour, each in a pill on the wire. */
  readonly labels: readonly Label[];
  /** From a pill that stands apart, where there is no room on the wire, to the wire. */
  readonly leader?: readonly [Point, Point];
}

/** A band that holds wires of one bundle together, from edge to edge. */
export interface SceneLacing {
  readonly id: string;
  readonly points: readonly [Point, Point];
}

/** Solder: where wires end. */
export interface SceneJoint extends Point {
  readonly id: string;
  readonly lug: string;
  readonly radius: number;
}

export interface SceneMark {
  readonly id: string;
  readonly lug: string;
  readonly says: string;
  readonly shapes: readonly Shape[];
  readonly labels: readonly Label[];
}

/** A contact of a switch, drawn where it is closed. */
export interface SceneContact {
  readonly id: string;
  readonly part: string;
  readonly lines: readonly (readonly Point[])[];
}

export interface SceneSample {
  readonly colours: readonly string[];
  readonly look: 'wire' | 'bare' | 'shielded' | 'solder' | 'plain' | 'twisted';
  readonly points: readonly Point[];
}

/** Every label of a scene, with the id of what it belongs to. */
export function sceneLabels(scene: Scene): { readonly id: string; readonly label: Label }[] {
  const all = [...scene.groups, ...scene.channels, ...scene.parts, ...scene.wires, ...scene.marks];
  return [
    ...all.flatMap(({ id, labels }) => labels.map((label) => ({ id, label }))),
    ...scene.notes.map((label) => ({ id: 'note', label })),
  ];
}

/** The scene as it leaves: numbers to two places, so that it is the same on every machine, and nothing to be changed any more. */
export function frozen<T>(value: T): T {
  if (typeof value === 'number') return (Math.round(value * 100) / 100) as T;
  if (Array.isArray(value)) return Object.freeze(value.map((item: unknown) => frozen(item))) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.freeze(Object.fromEntries(Object.entries(value).map(([key, item]) => [key, frozen(item as unknown)]))) as T;
}
