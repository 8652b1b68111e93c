/** Hear it: strings through the setting that is shown, started and stopped by hand. */
import type { Tuning } from '../../../../language/hear/index.js';
import type { ResponseCurve } from '../../../../server/protocol.js';
import { html } from '../dom.js';
import { createSound, type Heard } from './sound.js';
import { t } from '../texts.js';
import { choice } from '../toolbar.js';

export interface HearSection {
  readonly root: HTMLElement;
  /** The setting that is heard from now on. */
  show(curve: ResponseCurve): void;
}

/** Where it begins, of 10: quiet. */
const firstLoudness = 3;

export function createHear(): HearSection {
  const sound = createSound();
  let curve: ResponseCurve | undefined;
  let tuning: Tuning = 'guitar';

  const button = html('button', { type: 'button', disabled: true }, t('Play the strings'));
  const state = html('p', { class: 'note', role: 'status' });
  const strings = choice<Tuning>(t('Strings'), { guitar: t('Guitar'), bass: t('Bass') }, (key) => {
    tuning = key;
    change();
  });
  strings.set(tuning);
  const matched = html('input', { type: 'checkbox' });
  const loudness = html('input', { type: 'range', min: 0, max: 10, step: 0.5, value: firstLoudness });
  const value = html('output', {}, String(firstLoudness));
  const note = t(
    'Computed, not a recording: the open strings, synthesised, through this setting, the lead and the amplifier’s input, without an amplifier or a loudspeaker.',
  );

  const heard = (): Heard | undefined => curve && { curve, tuning, isMatched: matched.checked, loudness: Number(loudness.value) };
  const change = (): void => {
    const now = heard();
    if (now !== undefined) sound.change(now);
  };
  const say = (text: string): void => {
    button.textContent = sound.isPlaying ? t('Stop') : t('Play the strings');
    state.textContent = text;
  };
  const stop = (): void => {
    if (!sound.isPlaying) return;
    sound.stop();
    say(t('Stopped.'));
  };
  const toggle = (): void => {
    const now = heard();
    if (sound.isPlaying) return stop();
    if (now === undefined) return;
    try {
      sound.start(now);
      say(t('Playing. Escape stops it.'));
    } catch (error) {
      say(t('Nothing can be played here: {0}', error instanceof Error ? error.message : String(error)));
    }
  };
  button.addEventListener('click', toggle);
  matched.addEventListener('change', change);
  loudness.addEventListener('input', () => {
    value.value = loudness.value;
    loudness.setAttribute('aria-valuetext', t('{0} of 10', value.value));
    change();
  });
  document.addEventListener('keydown', ({ key }) => {
    if (key === 'Escape') stop();
  });
  // Out of sight it would be hard to find what sounds.
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) stop();
  });

  return {
    root: html(
      'section',
      { 'aria-label': t('Hear it'), class: 'hear' },
      html('div', { class: 'switches' }, button, strings.root),
      html('label', { class: 'shaft' }, html('span', {}, t('Loudness')), loudness, value),
      html('label', {}, matched, ' ', t('Every setting equally loud')),
      state,
      html('p', { class: 'note' }, note),
    ),
    show(next) {
      curve = next;
      button.disabled = false;
      change();
    },
  };
}
