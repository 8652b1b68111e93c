/** The row of buttons above the drawing: which side, how ground is shown, how near, where it goes. */
import type { PanelState } from '../protocol.js';
import { html } from './dom.js';
import { t } from './texts.js';

export interface Toolbar {
  readonly root: HTMLElement;
  show(state: Pick<PanelState, 'side' | 'grounds'>): void;
}

export interface ToolbarEvents {
  look(side: PanelState['side'], grounds: PanelState['grounds']): void;
  zoom(factor: number): void;
  fit(): void;
  save(format: 'svg' | 'png'): void;
}

export function createToolbar(events: ToolbarEvents): Toolbar {
  let side: PanelState['side'] = 'solder';
  let grounds: PanelState['grounds'] = 'auto';
  const look = (): void => events.look(side, grounds);
  const sides = choice(t('Side'), { solder: t('Solder'), player: t('Player') }, (key) => {
    side = key;
    look();
  });
  const ground = choice(t('Ground'), { auto: t('Automatic'), wires: t('Wires'), marks: t('Marks') }, (key) => {
    grounds = key;
    look();
  });
  return {
    root: html(
      'div',
      { class: 'toolbar' },
      sides.root,
      ground.root,
      zoomButtons(events),
      group(
        t('Save'),
        button('SVG', t('Save the drawing as SVG'), () => events.save('svg')),
        button('PNG', t('Save the drawing as PNG'), () => events.save('png')),
      ),
    ),
    show(state) {
      ({ side, grounds } = state);
      sides.set(side);
      ground.set(grounds);
    },
  };
}

/** Nearer, farther, and the whole drawing. */
export function zoomButtons(events: Pick<ToolbarEvents, 'zoom' | 'fit'>): HTMLElement {
  return group(
    t('Zoom'),
    button('−', t('Zoom out'), () => events.zoom(0.8)),
    button('+', t('Zoom in'), () => events.zoom(1.25)),
    button(t('Fit'), t('Fit the whole drawing'), () => events.fit()),
  );
}

function group(name: string, ...buttons: readonly HTMLButtonElement[]): HTMLElement {
  return html('div', { class: 'group', role: 'group', 'aria-label': name }, ...buttons);
}

function button(sign: string, name: string, run: () => void): HTMLButtonElement {
  const made = html('button', { type: 'button', class: 'plain', 'aria-label': name, title: name }, sign);
  made.addEventListener('click', run);
  return made;
}

/** A small group of choices, one of which is taken. */
export function choice<K extends string>(name: string, labels: Readonly<Record<K, string>>, chosen: (key: K) => void) {
  const keys = Object.keys(labels) as K[];
  const made = keys.map((key) => {
    const input = html('input', { type: 'radio', name, value: key });
    input.addEventListener('change', () => chosen(key));
    return { input, label: html('label', {}, input, html('span', {}, labels[key])) };
  });
  const inputs = made.map(({ input }) => input);
  const choices = made.map(({ label }) => label);
  const root = html('fieldset', { class: 'switch' }, html('legend', {}, name), html('div', { class: 'choices' }, ...choices));
  return { root, set: (key: K) => inputs.forEach((input) => (input.checked = input.value === key)) };
}
