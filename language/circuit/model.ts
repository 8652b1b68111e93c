/** The model of a circuit: its items, the ids they go by, and the object that owns what is derived from it. */
export * from './analysis.js';
export * from './circuit.js';
export * from './elements.js';
export * from './ids.js';
export * from './joints.js';
export * from './mated.js';
export * from './unit.js';
export { isOwnLead, leadEnd, leadOf, lugLookup, statedLength } from './own-leads.js';
export * from './usual-output.js';
