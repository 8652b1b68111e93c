/** Electrics: nets, positions, sound, meter, response, controls and ground of a circuit, by solving. */
export type * from './model.js';
export { nets, netLabel, netMembers } from './nets.js';
export { netNames } from './net-names.js';
export { restingSetting, settingKeys, settingLabel, withPosition, withRotation, withSettings } from './settings.js';
export { settingsMatching } from './settings-matching.js';
export { combinationLimit, enumerate } from './enumerate.js';
export { taperShare, travel } from './taper.js';
export { createSolver, transferImpedance, type Solver, type Sweep, type Transfers } from './solver.js';
export { describeSound } from './sound.js';
export { arrangementText, sameArrangement } from './arrangement.js';
export { meter, readAtJack } from './meter.js';
export { positionTable } from './positions.js';
export { logarithmic, response, responseSummary } from './response.js';
export { controlEffects } from './controls.js';
export { groundNetwork } from './ground.js';
export { spiceDeck, type DeckOptions } from './spice.js';
