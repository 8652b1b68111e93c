/** Names as people give them: in full, short, or numbered, one habit a circuit. */
import type { Dice } from '../harness/dice.js';

const habits = ['full', 'short', 'numbered'] as const;
type Habit = (typeof habits)[number];

/** What a part is called for. */
export type Role = keyof typeof usual;

/** `%` is what it belongs to, `#` the next number; where a circuit has one of a kind, the names of `alone` are as likely. */
const usual = {
  volume: names(['%-volume', 'volume-%'], ['%-vol', 'vol-%'], ['v#', 'vol#', 'volume#']),
  master: names(['volume', 'master', 'master-volume'], ['vol', 'master', 'mv'], ['v#', 'volume', 'vol']),
  tone: names(['%-tone', 'tone-%'], ['%-t', 'tone-%'], ['t#', 'tone#']),
  'master-tone': names(['tone', 'tone-control'], ['tone', 'tn'], ['t#', 'tone']),
  stack: names(['%-controls', '%-pot', '%-stack'], ['%-pot', '%-stack'], ['stack#', 'p#']),
  blend: names(['blend', 'balance'], ['blend', 'bal'], ['blend#', 'b#']),
  cap: names(['%-cap', '%-capacitor'], ['%-cap', 'cap-%'], ['c#', 'cap#']),
  'master-cap': names(['tone-cap', 'tone-capacitor', 'capacitor'], ['cap', 'tone-cap'], ['c#', 'cap']),
  bleed: names(['treble-bleed', 'bleed'], ['bleed', 'tb'], ['bleed#', 'tb#']),
  'bleed-cap': names(['bleed-cap', 'treble-cap'], ['bcap', 'bleed-c'], ['c#']),
  'bleed-resistor': names(['bleed-resistor', 'bleed-res'], ['bres', 'bleed-r'], ['r#']),
  resistor: names(['%-resistor', 'split-resistor'], ['%-res', 'rs'], ['r#']),
  selector: names(['selector', 'pickup-switch', 'switch'], ['sel', 'sw', 'selector'], ['s#', 'sw#']),
  lever: names(['selector', 'lever', 'blade'], ['sel', 'lever', 'sw'], ['s#', 'sw#', 'lever']),
  toggle: names(['selector', 'toggle', 'pickup-toggle'], ['tog', 'toggle', 'sw'], ['s#', 'sw#', 'toggle']),
  rotary: names(['selector', 'rotary', 'knob-switch'], ['rot', 'rotary', 'sel'], ['s#', 'rot#']),
  on: names(['%-on', '%-switch'], ['%-on', '%-sw'], ['s#', 'sw#']),
  split: names(['%-split', 'split-%', 'coil-split'], ['%-split', 'split'], ['s#', 'split#']),
  mode: names(['%-mode', 'coils'], ['%-mode', 'mode'], ['s#', 'mode#']),
  phase: names(['phase', '%-phase'], ['phase', 'ph'], ['s#', 'phase#']),
  tap: names(['winding', '%-tap'], ['%-tap', 'tapsw'], ['s#', 'tap#']),
  colour: names(['colour', 'voice', 'tone-switch'], ['voice', 'col'], ['s#', 'voice']),
  pair: names(['series-parallel', 'pair', 'mode'], ['sp', 'mode'], ['s#', 'mode']),
  circuit: names(['circuit', 'circuit-switch', 'main-or-preset'], ['circuit', 'circ'], ['s#', 'circuit']),
  straight: names(['straight', 'bypass', 'direct'], ['byp', 'straight'], ['s#', 'bypass']),
  kill: names(['kill', 'kill-button', 'kill-switch'], ['kill'], ['kill', 'kill#']),
  mute: names(['mute', 'mute-switch'], ['mute'], ['mute', 's#']),
  standby: names(['standby', 'standby-switch'], ['stby', 'standby'], ['standby', 's#']),
  'bass-cut': names(['bass', 'bass-cut'], ['bass'], ['bass', 'p#']),
  'bass-cap': names(['bass-cap', 'cut-cap'], ['bcap', 'bass-cap'], ['c#']),
  buffer: names(['stage', 'buffer', 'preamp'], ['buf', 'pre'], ['u#', 'buffer']),
  battery: names(['battery', 'cell'], ['bat', 'cell'], ['bat#', 'battery']),
  reservoir: names(['reservoir', 'supply-cap'], ['cres', 'filter'], ['c#']),
  'out-cap': names(['out-cap', 'output-cap'], ['cout', 'outcap'], ['c#']),
  'out-load': names(['out-load', 'pull-down'], ['rout', 'load'], ['r#']),
  saddle: names(['saddle', 'bridge-wire', 'strings'], ['saddle', 'brgnd', 'strings'], ['strings', 'bridge-wire']),
  star: names(['star', 'ground', 'star-point'], ['gnd', 'star', 'earth'], ['star', 'gnd']),
  jack: names(['output', 'jack', 'output-jack'], ['out', 'jack'], ['j#', 'jack']),
  splice: names(['splice', 'joint'], ['spl', 'joint'], ['x#']),
  module: names(['tone-module', 'tone-board'], ['tmod', 'tone-board'], ['m#']),
  pull: names(['pull'], ['pull'], ['pull#']),
};

interface Names {
  readonly full: readonly string[];
  readonly short: readonly string[];
  readonly numbered: readonly string[];
}

function names(full: readonly string[], short: readonly string[], numbered: readonly string[]): Names {
  return { full, short, numbered };
}

export interface NameBook {
  /** A name that no other part has. */
  give(role: Role, of?: string): string;
  /** As given, or with a number where it is taken. */
  take(name: string): string;
  release(name: string): void;
}

export function createNameBook(dice: Dice): NameBook {
  const habit: Habit = dice.pick(habits);
  const taken = new Set<string>();
  const take = (name: string): string => {
    let free = name;
    for (let number = 2; taken.has(free); number++) free = `${name}${/\d$/.test(name) ? '-' : ''}${number}`;
    taken.add(free);
    return free;
  };
  return {
    take,
    release: (name) => void taken.delete(name),
    give(role, of = '') {
      const form = dice.pick(usual[role][dice.percent(85) ? habit : 'full']).replace('%', of);
      if (!form.includes('#')) return take(form.replace(/^-|-$/g, ''));
      let number = 1;
      while (taken.has(form.replace('#', String(number)))) number++;
      return take(form.replace('#', String(number)));
    },
  };
}
