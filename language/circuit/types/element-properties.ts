/** The properties that each kind of element takes inside a type. */
import type { Unit } from '../model.js';
import type { ElementDefinition } from './type-model.js';

/** A value of a unit, one of several words, a lug, or any name. */
export interface PropertyWanted {
  readonly unit?: Unit;
  readonly words?: readonly string[];
  readonly lug?: boolean;
  readonly anyName?: boolean;
  /** Decibels at a frequency, and perhaps the knob that sets them: `6dB at 100Hz by bass`. */
  readonly band?: boolean;
  readonly required?: boolean;
  /** A property that may be given in place of a required one. */
  readonly or?: string;
  readonly example: string;
}

const TOLERANCE: PropertyWanted = { unit: 'percent', example: '5%' };

/**
 * By kind of element, what may stand in its braces.
 * A coil's `share` is its part of the pickup's resistance, inductance and voltage; its capacitance is the pickup's divided by it.
 */
export const ELEMENT_PROPERTIES: Readonly<Record<ElementDefinition['kind'], Readonly<Record<string, PropertyWanted>>>> = {
  coil: {
    resistance: { unit: 'ohm', required: true, example: '6.5k' },
    inductance: { unit: 'henry', required: true, or: 'resonance', example: '2.6H' },
    capacitance: { unit: 'farad', example: '110pF' },
    loss: { unit: 'ohm', example: '300k' },
    'eddy-inductance': { unit: 'percent', example: '30%' },
    'eddy-resistance': { unit: 'ohm', example: '20k' },
    'loss-exponent': { unit: 'count', example: '0.94' },
    'cover-shading': { unit: 'percent', example: '40%' },
    resonance: { unit: 'hertz', example: '3.1kHz' },
    'resonance-load': { unit: 'farad', example: '500pF' },
    coupling: { unit: 'percent', example: '15%' },
    turns: { unit: 'count', example: '5000' },
    output: { unit: 'percent', example: '50%' },
    share: { unit: 'percent', example: '50%' },
    wound: { words: ['forward', 'reverse'], example: 'reverse' },
    magnet: { words: ['north', 'south'], example: 'south' },
    tolerance: TOLERANCE,
  },
  piezo: {
    capacitance: { unit: 'farad', required: true, example: '500pF' },
    output: { unit: 'percent', example: '100%' },
    share: { unit: 'percent', example: '50%' },
    wound: { words: ['forward', 'reverse'], example: 'reverse' },
    tolerance: TOLERANCE,
  },
  resistor: { resistance: { unit: 'ohm', required: true, example: '150k' }, tolerance: TOLERANCE },
  capacitor: { capacitance: { unit: 'farad', required: true, example: '22nF' }, tolerance: TOLERANCE },
  inductor: {
    inductance: { unit: 'henry', required: true, example: '1.5H' },
    resistance: { unit: 'ohm', example: '100R' },
    ratio: { unit: 'count', example: '10' },
    coupling: { unit: 'percent', example: '99%' },
    tolerance: TOLERANCE,
  },
  battery: { voltage: { unit: 'volt', required: true, example: '9V' } },
  diode: {
    forward: { unit: 'volt', example: '0.6V' },
    breakdown: { unit: 'volt', example: '5.1V' },
    lights: { words: ['yes', 'no'], example: 'yes' },
  },
  track: {
    resistance: { unit: 'ohm', required: true, example: '250k' },
    taper: { words: ['linear', 'audio', 'reverse-audio'], example: 'audio' },
    mid: { unit: 'percent', example: '15%' },
    end: { unit: 'ohm', example: '5R' },
    empty: { unit: 'count', example: '0' },
    full: { unit: 'count', example: '10' },
    leaves: { lug: true, example: '3' },
    shaft: { anyName: true, example: 'a' },
    tolerance: TOLERANCE,
  },
  gain: {
    gain: { unit: 'count', example: '1' },
    input: { unit: 'ohm', example: '1M' },
    output: { unit: 'ohm', example: '1k' },
    plus: { lug: true, required: true, example: 'plus' },
    minus: { lug: true, required: true, example: 'minus' },
    inverting: { lug: true, example: 'inverting' },
    transconductance: { unit: 'siemens', example: '2mS' },
    polarity: { words: ['n', 'p', 'npn', 'pnp'], example: 'n' },
    current: { unit: 'ampere', example: '0.5mA' },
    pole: { unit: 'hertz', example: '20kHz' },
    'gain-bandwidth': { unit: 'hertz', example: '3MHz' },
    bass: { band: true, example: '6dB at 100Hz' },
    mid: { band: true, example: '6dB at 600Hz' },
    treble: { band: true, example: '6dB at 4kHz' },
    tolerance: TOLERANCE,
  },
};
