/** The controls of the instrument, live: a group of choices for each switch, a slider for each shaft. */
import type { ControlsAt, DrawnControl, DrawnShaft, DrawnSwitch } from '../../../server/protocol.js';
import { html } from './dom.js';

export interface Controls {
  readonly root: HTMLElement;
  show(controls: readonly DrawnControl[]): void;
  /** Moves everything to where it stands. */
  set(at: ControlsAt): void;
}

/** `changed` gets how everything stands after a change by hand. */
export function createControls(changed: (at: ControlsAt) => void): Controls {
  const list = html('div', { class: 'controls' });
  const reset = html('button', { type: 'button', class: 'plain' }, 'All at rest');
  const root = html('section', { 'aria-label': 'Controls' }, html('header', {}, html('h2', {}, 'Controls'), reset), list);
  let shown = '';
  let at: ControlsAt = { positions: {}, rotations: {} };
  let inputs: { readonly input: HTMLInputElement; refresh(): void }[] = [];
  const become = (next: ControlsAt): void => {
    at = next;
    inputs.forEach(({ refresh }) => refresh());
    changed(at);
  };
  reset.addEventListener('click', () => become({ positions: {}, rotations: {} }));

  const switchGroup = (device: DrawnSwitch): HTMLElement => {
    const choices = device.positions.map(({ key, label }) => {
      const input = html('input', { type: 'radio', name: `switch ${device.name}`, value: key });
      input.addEventListener('change', () => become({ ...at, positions: { ...at.positions, [device.name]: key } }));
      inputs.push({ input, refresh: () => (input.checked = (at.positions[device.name] ?? device.rest) === key) });
      return html('label', {}, input, html('span', {}, label));
    });
    const name = device.returns ? `${device.name}, goes back by itself` : device.name;
    return html('fieldset', { class: 'switch' }, html('legend', {}, name), html('div', { class: 'choices' }, ...choices));
  };

  const shaftSlider = (shaft: DrawnShaft): HTMLElement => {
    const input = html('input', { type: 'range', min: 0, max: 10, step: 0.1 });
    const value = html('output', {});
    const tell = (): void => {
      const rotation = Number(input.value);
      value.value = String(rotation);
      input.setAttribute('aria-valuetext', `${rotation} of 10`);
    };
    input.addEventListener('input', () => {
      tell();
      become({ ...at, rotations: { ...at.rotations, [shaft.name]: Number(input.value) } });
    });
    inputs.push({
      input,
      refresh: () => {
        input.value = String(at.rotations[shaft.name] ?? shaft.rest);
        tell();
      },
    });
    const turn = shaft.turn === 'left' ? ' (turned left)' : '';
    return html('label', { class: 'shaft' }, html('span', {}, `${shaft.name}${turn}`), input, value);
  };

  return {
    root,
    show(controls) {
      const text = JSON.stringify(controls);
      if (text === shown) return;
      shown = text;
      inputs = [];
      const order = [...controls].sort((a, b) => rank(a) - rank(b));
      list.replaceChildren(...order.map((control) => (control.kind === 'switch' ? switchGroup(control) : shaftSlider(control))));
      if (controls.length === 0) list.append(html('p', {}, 'Nothing to turn or to switch.'));
      reset.hidden = controls.length === 0;
      inputs.forEach(({ refresh }) => refresh());
    },
    set(next) {
      at = next;
      inputs.forEach(({ refresh }) => refresh());
    },
  };
}

/** Switches, pots, and last what goes back by itself. */
function rank(control: DrawnControl): number {
  return control.kind === 'shaft' ? 1 : control.returns ? 2 : 0;
}
