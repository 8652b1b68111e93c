/** The table of what is on the instrument: every control with its picture, what it is, and what it does. */
import type { Shaft, Switch } from '../../circuit/model.js';
import {
  effectsAnywhere,
  enumerate,
  restingSetting,
  describeSound,
  withSwitchMoved,
  type ControlEffect,
  type ControlRole,
  type PositionRow,
  type Setting,
} from '../../electrics/index.js';
import { abridged, listed } from '../../words.js';
import type { Build } from '../build.js';
import type { Block } from '../sheet/sheet-model.js';
import { isMomentary, plainName, positionWords, theControl, type Control } from './controls.js';
import { controlPicture, jackPicture } from './pictures.js';
import { choosesSound, SOUNDS, toneChanges } from './tone.js';

interface ControlRow {
  readonly picture: string;
  readonly cells: readonly [name: string, what: string, does: string];
}

/** A row for each shaft, switch and jack; of a part that is two of these, one for each. */
export function controlBlocks(build: Build, controls: readonly Control[], positions: readonly PositionRow[]): Block[] {
  const effects = new Map(effectsAnywhere(build.circuit).map((effect) => [effect.shaft, effect]));
  const made = [
    ...controls.flatMap((control): ControlRow[] => {
      const { device, shafts, name } = control;
      const picture = controlPicture(control);
      const knobs = shafts.map((shaft): ControlRow => ({
        picture,
        cells: [plainName(shaft.name), knobWords(control, shaft), knobDoes(shaft, effects.get(shaft.id), controls)],
      }));
      if (device === undefined) return knobs;
      const does = isMomentary(control) ? heldDoes(build, device) : switchDoes(build, positions, device);
      const [pull, ...others] = knobs;
      if (pull === undefined) return [{ picture, cells: [name, switchWords(control, device), does] }];
      const [first, what, turned] = pull.cells;
      return [
        {
          picture,
          cells: [
            first,
            `${what}, ${switchWords(control, device)}`,
            `${turned}; ${control.kind === 'push knob' ? 'up or down' : 'pulled up or pushed down'}, it ${does}`,
          ],
        },
        ...others,
      ];
    }),
    ...build.circuit.jacks.map((id): ControlRow => ({
      picture: jackPicture(),
      cells: [plainName(build.part(id).name), 'jack', 'for the lead to the amplifier'],
    })),
  ];
  if (made.length === 0) return [];
  return [
    {
      kind: 'table',
      heads: ['control', 'what it is', 'what it does'],
      rows: made.map(({ cells }) => cells),
      pictures: made.map(({ picture }) => picture),
    },
  ];
}

const KNOBS: Readonly<Record<ControlRole, string>> = {
  volume: 'loudness: silent at 0, full at 10',
  tone: 'treble: mellow at 0, bright at 10',
  'bass-cut': 'bass: thins the sound as you turn it',
  blend: 'blends from one pickup to the other',
  spread: 'gradually adds the second half of the pickup',
  band: 'lifts and cuts a part of the spectrum: nothing in the middle',
  mixed: 'changes loudness and treble together',
  nothing: 'nothing that you can hear',
  unwired: 'nothing: it is not connected',
};

function knobWords({ part: { ancestry }, shafts }: Control, { turn, tracks }: Shaft): string {
  return [
    shafts.length > 1 && tracks.length > 0 ? `one of ${shafts.length} knobs on top of each other` : 'knob',
    ...(turn === 'left' ? ['turned to the left for more'] : []),
    ...(ancestry.includes('pot-no-load') ? ['at 10 it is switched out'] : []),
  ].join(', ');
}

function knobDoes({ rest }: Shaft, effect: ControlEffect | undefined, controls: readonly Control[]): string {
  if (effect === undefined) return KNOBS.unwired;
  const { role, backwards, isWhole, actsIn } = effect;
  if (role === 'nothing' || role === 'unwired') return KNOBS[role];
  const middle = role === 'blend' && rest === 5 ? ', both in the middle' : '';
  const does = backwards ? 'works the wrong way round: have it looked at' : `${KNOBS[role]}${middle}`;
  return [does, ...(isWhole ? controls.flatMap((control) => onlyWith(actsIn, control, controls)) : [])].join('; ');
}

/** `only with the slide at “passive”`, where it acts in some positions of a switch and not in others. */
function onlyWith(actsIn: readonly Setting[], control: Control, controls: readonly Control[]): string[] {
  const { device } = control;
  if (device === undefined || isMomentary(control)) return [];
  const acting = new Set(actsIn.map(({ positions }) => positions[device.id] ?? 0));
  if (acting.size === 0 || acting.size === device.positions.length) return [];
  const places = [...acting].sort((a, b) => a - b).map((position) => positionWords({ control, position }));
  return [`only with ${theControl(control, controls)} ${abridged(places, 'or')}`];
}

function switchWords(control: Control, { positions }: Switch): string {
  const names = positions.map(({ label }) => label);
  if (control.kind === 'push knob') return `which a push brings up and the next one down${namesOf(positions)}`;
  if (control.kind === 'pull knob') return `which can be pulled up and pushed down${namesOf(positions)}`;
  if (isMomentary(control)) return `${control.kind}, which goes back by itself`;
  return `${control.kind} with ${positions.length} positions: ${names.join(', ')}`;
}

/** The author's names, where there are any. */
function namesOf(positions: Switch['positions']): string {
  return positions.some(({ label, key }) => label !== key) ? `: ${positions.map(({ label }) => label).join(', ')}` : '';
}

/** Whether another position of the switch, with all others left alone, changes what sounds, or only how. */
function switchDoes({ circuit }: Build, rows: readonly PositionRow[], device: Switch): string {
  if (choosesSound(rows, device)) return 'chooses what you hear: see below';
  const changes = toneChanges(circuit, rows, device);
  if (changes === undefined) return 'does not change which pickups you hear';
  const found = changes.flat();
  const what = SOUNDS.filter((sound) => found.some((change) => change.what === sound));
  return what.length === 0
    ? 'makes no difference while all knobs are where they rest'
    : `changes the ${listed(what)}, not which pickups you hear`;
}

/** What a button does while it is held, in all settings of the switches. */
function heldDoes({ circuit }: Build, { id, rest, positions }: Switch): string {
  const { settings, group } = enumerate(circuit);
  const distinct = settings.filter((_, index) => group.indexOf(group[index] ?? -1) === index);
  const held = positions.flatMap((_, index) => (index === rest ? [] : [index]));
  const pairs = (distinct.length === 0 ? [restingSetting(circuit)] : distinct).flatMap((setting) =>
    held.map((position) => ({
      released: describeSound(circuit, setting),
      pressed: describeSound(circuit, withSwitchMoved(circuit, setting, id, position)),
    })),
  );
  const heard = pairs.filter(({ released }) => !released.silent);
  if (heard.length > 0 && heard.every(({ pressed }) => pressed.silent)) return 'silences the instrument while you hold it';
  return pairs.some(({ released, pressed }) => released.text !== pressed.text)
    ? 'changes what you hear while you hold it'
    : 'does not change which pickups you hear';
}
