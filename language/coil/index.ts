/** coil/: what a winding with its losses is to a current, from its values alone. Knows numbers only, no circuit. */
export { coreImpedance, coreSections, leastLinkage, lossFactor, type CoreSection, type CoreValues, meterHz } from './core.js';
export { inductanceAtPeak, loadedLevel, peakWith, type WindingValues } from './loaded-peak.js';
