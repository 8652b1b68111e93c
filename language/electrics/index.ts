/** Electrics: nets, positions, sound, meter, response, controls and ground of a circuit, by solving. */
export type * from './model.js';
export { lugsOfElements, tiesOf } from './network/alike.js';
export { nets, netLabel, netMembers, netOf } from './network/nets.js';
export { polesOf, type Pole } from './network/poles.js';
export { screenedWires, uncountedWires, type ScreenedWire } from './network/screens.js';
export { netNames } from './network/net-names.js';
export {
  restingSetting,
  settingKeys,
  settingLabel,
  withPosition,
  withRotation,
  withSettings,
  withSwitchMoved,
} from './settings/settings.js';
export { hasRelays } from './settings/driven.js';
export { unpluggedSettings } from './settings/unplugged.js';
export { settingsMatching } from './settings/settings-matching.js';
export { combinationLimit, combinationLimitOf, enumerate, untriedText } from './settings/enumerate.js';
export { taperShare, trackShare, travel } from './network/taper.js';
export { createSolver, transferImpedance, type Solver, type Sweep, type Transfers } from './solver/solver.js';
export { describeSound, describeSoundSteps, soundWithoutArrangement } from './sound/sound.js';
export { createListener, type Listener } from './sound/listener.js';
export { isApproximate } from './sound/approximate.js';
export { arrangementText, sameArrangement } from './sound/arrangement.js';
export { meter, readAtJack, readAtJackSteps, readingNotes } from './meter.js';
export { heardAt, outputLabel, outputsOf } from './settings/outputs.js';
export { positionTable } from './settings/positions.js';
export { branchesOf, trackHalves } from './network/branches.js';
export { earlierHum, withEarlierInductances } from './earlier.js';
export {
  earlierSummary,
  levelAt,
  logarithmic,
  response,
  responseSteps,
  responseSummary,
  responseSummarySteps,
} from './response.js';
export { sensedShare, stringResponse, type Partial, type SensedPlace, type StringResponse } from './string-response.js';
export { controlEffect, controlEffects, controlEffectSteps } from './controls/controls.js';
export { effectAnywhere, effectsAnywhere, effectAnywhereSteps } from './controls/anywhere.js';
export { loopGain } from './loop-gain.js';
export { groundNetwork } from './ground.js';
export { spiceDeck, type DeckOptions } from './spice.js';
export * from './answers/index.js';
export { createSupply, isAlive, type Supply } from './network/supply.js';
export { operatingPoint, type OperatingPoint } from './network/operating-point.js';
export { jointClasses, type JointClasses } from './network/nets.js';
