/** Answers about single values, for hover and completion: what a capacitor, a pot, a pickup, a net or a length of wire amounts to here. */
export { capacitorAnswer, capacitorSteps, type CapacitorAnswer, type CapacitorRole } from './capacitor.js';
export { potLoad, potLoadSteps, type PotLoad } from './pot-load.js';
export { coreAnswer, type CoreAnswer } from './core.js';
export { pickupAnswer, pickupSteps, type PickupAnswer } from './pickup.js';
export { netAnswer, type NetAnswer } from './net.js';
export { copperAt, wireCapacitance, wireResistance, type WireKind } from './wire.js';
export { isPreferred, nearestPreferred, type Series } from './preferred.js';
export { letterCode, threeDigitCode } from './codes.js';
