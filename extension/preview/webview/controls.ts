/** The controls of the instrument, live: a group of choices for each switch, a slider for each shaft; in a strip of all, and wherever else one is wanted. */
import { itemAt } from '../../../language/collections.js';
import type { ControlsAt, DrawnControl, DrawnShaft, DrawnSwitch } from '../../../server/protocol.js';
import { html } from './dom.js';
import { t } from './texts.js';

export interface Controls {
  readonly root: HTMLElement;
  /** Puts everything back to where it rests. */
  readonly reset: HTMLElement;
  show(controls: readonly DrawnControl[]): void;
  /** Moves everything to where it stands. */
  set(at: ControlsAt): void;
  /** Those of a part once more, to be shown at the part itself; those made before for a part are no longer kept up. */
  ofPart(part: string): HTMLElement[];
  /** Turns the first control of a part on by `by` positions, or whole figures of a shaft; false where the part has none. */
  step(part: string, by: number): boolean;
}

interface Live {
  readonly root: HTMLElement;
  refresh(): void;
}

/** `changed` gets how everything stands after a change by hand. */
export function createControls(changed: (at: ControlsAt) => void): Controls {
  const switches = html('div', { class: 'switches' });
  const shafts = html('div', { class: 'shafts' });
  const none = html('p', { class: 'note' });
  const reset = html('button', { type: 'button', class: 'plain reset' }, t('Reset all'));
  const root = html('section', { 'aria-label': t('Controls'), class: 'controls' }, switches, shafts, none);
  let controls: readonly DrawnControl[] = [];
  let at: ControlsAt = { positions: {}, rotations: {} };
  let strip: readonly Live[] = [];
  let atPart: readonly Live[] = [];
  const refresh = (): void => [...strip, ...atPart].forEach((one) => one.refresh());
  const become = (next: ControlsAt): void => {
    at = next;
    refresh();
    changed(at);
  };
  const place = (device: DrawnSwitch, key: string): void => become({ ...at, positions: { ...at.positions, [device.name]: key } });
  const turn = (shaft: DrawnShaft, rotation: number): void =>
    become({ ...at, rotations: { ...at.rotations, [shaft.name]: rotation } });
  reset.addEventListener('click', () => become({ positions: {}, rotations: {} }));

  const live = (control: DrawnControl, where: string): Live =>
    control.kind === 'switch'
      ? switchGroup(control, where, () => positionOf(at, control), place)
      : shaftSlider(control, () => rotationOf(at, control), turn);

  return {
    root,
    reset,
    show(next) {
      if (JSON.stringify(next) === JSON.stringify(controls) && strip.length > 0) return;
      controls = next;
      const order = [...controls].sort((a, b) => rank(a) - rank(b));
      strip = order.map((control) => live(control, 'strip'));
      const rootsOf = (kind: DrawnControl['kind']): HTMLElement[] =>
        strip.filter((_, index) => order[index]?.kind === kind).map((one) => one.root);
      switches.replaceChildren(...rootsOf('switch'));
      shafts.replaceChildren(...rootsOf('shaft'));
      none.textContent = controls.length === 0 ? t('This circuit has no controls.') : '';
      reset.hidden = controls.length === 0;
      refresh();
    },
    set(next) {
      at = next;
      refresh();
    },
    ofPart(part) {
      atPart = controls.filter((control) => control.part === part).map((control) => live(control, 'part'));
      refresh();
      return atPart.map((one) => one.root);
    },
    step(part, by) {
      const control = controls.find((one) => one.part === part);
      if (control?.kind === 'shaft') turn(control, Math.min(10, Math.max(0, rotationOf(at, control) + by)));
      else if (control?.kind === 'switch') place(control, positionBeside(at, control, by));
      return control !== undefined;
    },
  };
}

/** Where a switch stands; one that was moved and has since become another kind of switch stands at rest. */
export function positionOf(at: ControlsAt, { name, positions, rest }: DrawnSwitch): string {
  const key = at.positions[name];
  return key !== undefined && positions.some((one) => one.key === key) ? key : rest;
}

/** How everything stands after a row of the table was chosen: its switches as it says, shafts as they are, and what goes back by itself back at rest. */
export function withRow(at: ControlsAt, set: Readonly<Record<string, string>>, controls: readonly DrawnControl[]): ControlsAt {
  const resting = controls.filter((control) => control.kind === 'switch' && control.returns).map(({ name }) => name);
  const kept = Object.entries(at.positions).filter(([name]) => !resting.includes(name));
  return { ...at, positions: { ...Object.fromEntries(kept), ...set } };
}

/** The position that is `by` steps further, round past the last one. */
function positionBeside(at: ControlsAt, device: DrawnSwitch, by: number): string {
  const count = device.positions.length;
  const now = device.positions.findIndex(({ key }) => key === positionOf(at, device));
  return itemAt(device.positions, (now + by + count) % count).key;
}

function switchGroup(
  device: DrawnSwitch,
  place: string,
  now: () => string,
  changed: (device: DrawnSwitch, key: string) => void,
): Live {
  const inputs = device.positions.map(({ key, label }) => {
    const input = html('input', { type: 'radio', name: `${place} ${device.name}`, value: key });
    input.addEventListener('change', () => changed(device, key));
    return { key, input, label: html('label', {}, input, html('span', {}, label)) };
  });
  const resting = device.positions.find(({ key }) => key === device.rest)?.label;
  const rests = resting === 'rest' ? t('springs back') : t('returns to {0}', resting ?? '');
  const name = device.returns ? `${device.name} (${rests})` : device.name;
  const choices = html('div', { class: 'choices' }, ...inputs.map(({ label }) => label));
  return {
    root: html('fieldset', { class: 'switch' }, html('legend', {}, name), choices),
    refresh: () => inputs.forEach(({ key, input }) => (input.checked = key === now())),
  };
}

function shaftSlider(shaft: DrawnShaft, now: () => number, changed: (shaft: DrawnShaft, rotation: number) => void): Live {
  const input = html('input', { type: 'range', min: 0, max: 10, step: 0.1 });
  const value = html('output', {});
  input.addEventListener('input', () => changed(shaft, Number(input.value)));
  const name = shaft.turn === 'left' ? t('{0} (turned left)', shaft.name) : shaft.name;
  return {
    root: html('label', { class: 'shaft' }, html('span', { title: name }, name), input, value),
    refresh: () => {
      const rotation = now();
      input.value = String(rotation);
      value.value = String(Math.round(rotation * 10) / 10);
      input.setAttribute('aria-valuetext', t('{0} of 10', value.value));
    },
  };
}

function rotationOf(at: ControlsAt, shaft: DrawnShaft): number {
  return at.rotations[shaft.name] ?? shaft.rest;
}

/** Switches, pots, and last what goes back by itself. */
function rank(control: DrawnControl): number {
  return control.kind === 'shaft' ? 1 : control.returns ? 2 : 0;
}
