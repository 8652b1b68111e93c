/** What a luthier states of a circuit: what sounds in each position of the selecting switch and with each other switch moved, by how it is composed. */
import type { Device, Draft, Output, Part } from './draft.js';
import { claimOf, positionIn, type State, type Voice } from './voice.js';

/** The `expect` lines; a position in which a luthier would meter, not name, what sounds has none. */
export function thinLines(draft: Draft): readonly string[] {
  return [...new Set(draft.outputs.flatMap((output) => linesAt(draft, output)))];
}

function linesAt(draft: Draft, output: Output): readonly string[] {
  const { states, selecting, turned } = output;
  const rest: State = states[0] ?? new Map<Part, number>();
  const line = (state: State, voice: Voice, more: readonly string[] = []): readonly string[] => {
    const claim = claimOf(voice);
    const at = output.isFirst ? [] : [`at ${output.tip.part.name}.tip`];
    const setting = [...at, ...settingsIn(draft, output, state), ...more].join(', ');
    return claim === undefined ? [] : [`expect${setting === '' ? '' : ` ${setting}`} : ${claim}`];
  };
  const others = draft.devices.filter(({ part }) => !selecting.includes(part));
  const moved = others.flatMap((device) => {
    const from = states.find((state) => isTelling(output, state, device));
    return from === undefined ? [] : movesOf(device).map((position) => moveTo(from, device, position));
  });
  return [
    ...[...states, ...moved].flatMap((state) => line(state, output.sounds(state))),
    ...turned.flatMap(({ setting, sounds }) => line(rest, sounds(rest), [setting])),
  ];
}

/** The switches that a line has to name: those that select, and those that would change what sounds. A button is named where it is pressed. */
function settingsIn({ devices }: Draft, output: Output, state: State): readonly string[] {
  return devices
    .filter((device) => {
      const position = positionIn(state, device.part);
      if (device.returns) return position !== 0;
      return output.selecting.includes(device.part) || isTelling(output, state, device);
    })
    .map(({ part, positions }) => `${part.name} ${positions[positionIn(state, part)]}`);
}

/** True where another position of this switch alone changes what sounds. */
function isTelling({ sounds }: Output, state: State, device: Device): boolean {
  const now = textOf(sounds(state));
  return device.positions.some((_, position) => textOf(sounds(moveTo(state, device, position))) !== now);
}

function textOf(voice: Voice): string {
  return claimOf(voice) ?? 'unnamed';
}

function movesOf({ positions }: Device): readonly number[] {
  return positions.slice(1).map((_, index) => index + 1);
}

function moveTo(state: State, { part }: Device, position: number): State {
  return new Map([...state, [part, position]]);
}
