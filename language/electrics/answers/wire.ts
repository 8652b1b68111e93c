/** Wire by gauge and length: diameter, resistance, and about how much capacitance it brings. */
import { wireDiameter } from '../../circuit/index.js';

/** Resistivity of annealed copper at 20 °C in Ω·m: IEC 60028. */
const copper = 1.7241e-8;
/** Vacuum, F/m. */
const epsilon = 8.8541878128e-12;

/** Resistance in ohms of a length in metres, at 20 °C. */
export function wireResistance(awg: number, length: number): number {
  const diameter = wireDiameter(awg);
  return (copper * length) / ((Math.PI / 4) * diameter * diameter);
}

/** Resistance of a copper winding at `to` degrees Celsius where it measures `ohm` at `from`: 0.393 % a degree from 20 °C (IEC 60028:1925). */
export function copperAt(ohm: number, from: number, to = 20): number {
  const factor = (celsius: number): number => 1 + 0.00393 * (celsius - 20);
  return (ohm * factor(to)) / factor(from);
}

/** `shielded` within its screen; `twisted` with its return; `plain` alone above a shielded wall. */
export type WireKind = 'shielded' | 'twisted' | 'plain';

/**
 * Capacitance in farads of a length in metres; an estimate, good for saying whether it matters beside a lead of some hundred pF.
 * Shielded: 30 pF per foot (Sound on Sound, November 2009, on guitar cables). Twisted: two parallel wires, C = π·ε·εᵣ/arcosh(D/d),
 * insulation touching; plain: a wire over a plane, C = 2π·ε/arcosh(2h/d), 5 mm above it (textbook forms). The insulated diameters of
 * 300 V hook-up wire and the effective permittivity of half plastic, half air (2.5) are from memory.
 */
export function wireCapacitance(kind: WireKind, length: number, awg = 22): number {
  if (kind === 'shielded') return (30e-12 / 0.3048) * length;
  const diameter = wireDiameter(awg);
  if (kind === 'twisted') return ((Math.PI * epsilon * 2.5) / Math.acosh((diameter + 2 * insulation) / diameter)) * length;
  return ((2 * Math.PI * epsilon) / Math.acosh(0.01 / diameter)) * length;
}

/** Wall of the insulation, metres: the difference of 1.57 and 0.64 mm, halved, at 22 AWG (from memory). */
const insulation = 0.46e-3;
