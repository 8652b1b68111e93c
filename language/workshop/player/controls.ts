/** What the player's hand finds on the instrument, and the words for what it does there. */
import { isMated, type Part, type Shaft, type Switch } from '../../circuit/model.js';
import { firstOf, groupBy } from '../../collections.js';
import { capitalised, listed } from '../../words.js';
import type { Build } from '../build.js';
import { isPreset } from '../lists/hardware.js';

/** What a control looks like from outside: each has its own picture. */
export type ControlKind =
  | 'lever'
  | 'toggle'
  | 'slide'
  | 'small switch'
  | 'on-off switch'
  | 'rotary switch'
  | 'button'
  | 'pull knob'
  | 'push knob'
  | 'switch'
  | 'knob';

/** A part that the player sets: a switch, one or two shafts, or both in one. */
export interface Control {
  readonly kind: ControlKind;
  /** As a player reads it: `bass cut`. */
  readonly name: string;
  readonly part: Part;
  readonly device?: Switch;
  readonly shafts: readonly Shaft[];
}

/** A switch in one of its positions. */
export interface State {
  readonly control: Control;
  /** From 0. */
  readonly position: number;
}

/** The first of these beginnings that a type, or one that it comes from, has. */
const KINDS: readonly (readonly [string, ControlKind])[] = [
  ['lever-', 'lever'],
  ['toggle-', 'toggle'],
  ['slide-', 'slide'],
  ['mini-', 'small switch'],
  ['spst', 'on-off switch'],
  ['rotary-', 'rotary switch'],
  ['push-', 'button'],
  ['pot-push-push', 'push knob'],
  ['pot-push-', 'pull knob'],
];

/** Every control of the instrument in the order of the text; jacks, connectors, relays and presets are none. */
export function controlsOf(build: Build): readonly Control[] {
  const { switches, shafts } = build.circuit;
  return build.parts.flatMap((part): readonly Control[] => {
    const device = switches.find((one) => one.part === part.id);
    const own = shafts.filter((shaft) => shaft.part === part.id);
    if (
      part.family === 'jack' ||
      (device !== undefined && (isMated(build.circuit, device) || device.drive !== undefined)) ||
      (device === undefined && (own.length === 0 || isPreset(part)))
    )
      return [];
    const kind = kindOf(part, device);
    return [{ kind, name: plainName(part.name), part, shafts: own, ...(device === undefined ? {} : { device }) }];
  });
}

function kindOf({ ancestry }: Part, device: Switch | undefined): ControlKind {
  if (device === undefined) return 'knob';
  return KINDS.find(([beginning]) => ancestry.some((type) => type.startsWith(beginning)))?.[1] ?? 'switch';
}

export function plainName(name: string): string {
  return name.replace(/[-._]+/g, ' ').trim();
}

/** A switch that goes back by itself. */
export function isMomentary({ device }: Control): boolean {
  return device?.rest !== undefined;
}

/** A knob that is up or down, whichever way the hand moves it. */
export function isLifted(kind: ControlKind): boolean {
  return kind === 'pull knob' || kind === 'push knob';
}

/** The control with its article, and with its name where the instrument has several of its kind. */
export function theControl(control: Control, controls: readonly Control[]): string {
  const { kind, name } = control;
  if (isLifted(kind) || kind === 'knob') return `the ${name} knob`;
  return controls.filter((other) => other.kind === kind).length > 1 ? `the ${kind} “${name}”` : `the ${kind}`;
}

/** Where it is then: `at “bridge”`, `up (“neck”)`, `at click 2 of 4`, `on`. */
export function positionWords({ control: { kind, device }, position }: State): string {
  const own = device?.positions[position];
  if (device === undefined || own === undefined) return '';
  const isNamed = own.label !== own.key;
  const inBrackets = isNamed ? ` (“${own.label}”)` : '';
  const place = PLACES[own.key];
  if (kind === 'rotary switch') return `at click ${position + 1} of ${device.positions.length}${inBrackets}`;
  if ((kind === 'toggle' || isLifted(kind)) && place !== undefined) return `${place}${inBrackets}`;
  if (isNamed) return ['on', 'off', 'up', 'down'].includes(own.label) ? own.label : `at “${own.label}”`;
  return place ?? `in position ${position + 1} of ${device.positions.length}`;
}

const PLACES: Readonly<Record<string, string | undefined>> = {
  up: 'up',
  down: 'down',
  middle: 'in the middle',
  on: 'on',
  off: 'off',
  rest: 'released',
  pressed: 'pressed',
};

/** What the hand does for all of these together: `Both small switches on, the slide at “active”; pull the tone knob up`. */
export function handling(states: readonly State[], controls: readonly Control[]): string {
  const isPull = ({ control, position }: State): boolean =>
    isLifted(control.kind) && ['up', 'down'].includes(control.device?.positions[position]?.key ?? '');
  const placed = placings(
    states.filter((state) => !isPull(state)),
    controls,
  );
  const moved = (['pull knob', 'push knob'] as const).flatMap((kind) => {
    const alike = states.filter((state) => isPull(state) && state.control.kind === kind);
    return [...pulls(alike, 'up'), ...pulls(alike, 'down')];
  });
  return capitalised([placed.join(', '), ...moved].filter((text) => text !== '').join('; '));
}

/** Switches of one kind in one position are named together. */
function placings(states: readonly State[], controls: readonly Control[]): string[] {
  const groups = groupBy(states, (state) => `${state.control.kind} ${positionWords(state)}`);
  return [...groups.values()].map((alike) => {
    const first = firstOf(alike);
    const { kind } = first.control;
    const all = controls.filter((one) => one.kind === kind).length;
    const names = listed(alike.map(({ control }) => `“${control.name}”`));
    const who =
      alike.length === 1
        ? theControl(first.control, controls)
        : alike.length < all
          ? `the ${plural(kind)} ${names}`
          : `${all === 2 ? 'both' : `all ${all}`} ${plural(kind)}`;
    return `${who} ${positionWords(first)}`;
  });
}

function plural(kind: ControlKind): string {
  return kind.endsWith('switch') ? `${kind}es` : `${kind}s`;
}

function pulls(states: readonly State[], to: 'up' | 'down'): string[] {
  const here = states.filter(({ control, position }) => control.device?.positions[position]?.key === to);
  const [first] = here;
  if (first === undefined) return [];
  const names = listed(here.map(({ control }) => control.name));
  const labels = new Set(here.map((state) => positionWords(state).slice(to.length)));
  const label = labels.size === 1 ? [...labels].join('') : '';
  const knobs = here.length > 1 ? 'knobs' : 'knob';
  // Each push moves it to the other place, so the words say where it stays.
  if (first.control.kind === 'push knob') return [`push the ${names} ${knobs} to stay ${to}${label}`];
  return [`${to === 'up' ? 'pull' : 'push'} the ${names} ${knobs} ${to}${label}`];
}
