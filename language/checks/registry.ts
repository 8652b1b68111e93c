/** The rules: a new one is its file, its page and one line here. */
import type { Rule } from './rule.js';
import { backwardsControl } from './rules/backwards-control.js';
import { bridgedThrows } from './rules/bridged-throws.js';
import { bypassedThrow } from './rules/bypassed-throw.js';
import { constantCut } from './rules/constant-cut.js';
import { crowdedLug } from './rules/crowded-lug.js';
import { earthColour } from './rules/earth-colour.js';
import { floatingMetal } from './rules/floating-metal.js';
import { floatingScreen } from './rules/floating-screen.js';
import { fragment } from './rules/fragment.js';
import { fullStar } from './rules/full-star.js';
import { groundLead } from './rules/ground-lead.js';
import { groundLoop } from './rules/ground-loop.js';
import { hangingCoil } from './rules/hanging-coil.js';
import { idleControl } from './rules/idle-control.js';
import { idlePart } from './rules/idle-part.js';
import { idleSwitch } from './rules/idle-switch.js';
import { idleWire } from './rules/idle-wire.js';
import { implausibleValue } from './rules/implausible-value.js';
import { leadOnCommon } from './rules/lead-on-common.js';
import { liveBattery } from './rules/live-battery.js';
import { looseLead } from './rules/loose-lead.js';
import { loudKill } from './rules/loud-kill.js';
import { neverHeard } from './rules/never-heard.js';
import { noOutput } from './rules/no-output.js';
import { noSupply } from './rules/no-supply.js';
import { oddVolume } from './rules/odd-volume.js';
import { oneSidedControl } from './rules/one-sided-control.js';
import { openPole } from './rules/open-pole.js';
import { oscillatingStage } from './rules/oscillating-stage.js';
import { outOfPhase } from './rules/out-of-phase.js';
import { overloadedDiode } from './rules/overloaded-diode.js';
import { repeatedJoint } from './rules/repeated-joint.js';
import { reversedConnector } from './rules/reversed-connector.js';
import { screenReturn } from './rules/screen-return.js';
import { selfJoint } from './rules/self-joint.js';
import { shortedOutput } from './rules/shorted-output.js';
import { silencedPickup } from './rules/silenced-pickup.js';
import { silentAtRest } from './rules/silent-at-rest.js';
import { silentCoil } from './rules/silent-coil.js';
import { silentCombination } from './rules/silent-combination.js';
import { silentPosition } from './rules/silent-position.js';
import { supplyOnSignal } from './rules/supply-on-signal.js';
import { swappedJack } from './rules/swapped-jack.js';
import { turnedDiode } from './rules/turned-diode.js';
import { twinPositions } from './rules/twin-positions.js';
import { unlikeTwin } from './rules/unlike-twin.js';
import { untriedPositions } from './rules/untried-positions.js';
import { unusualControl } from './rules/unusual-control.js';
import { unusualPosition } from './rules/unusual-position.js';
import { unusualPart } from './rules/unusual-part.js';
import { unusualPickup } from './rules/unusual-pickup.js';
import { unwiredPart } from './rules/unwired-part.js';

/** The rules that look at a circuit, in the order in which their findings are listed. */
export const registry: readonly Rule[] = [
  // What cannot work.
  noOutput,
  supplyOnSignal,
  swappedJack,
  shortedOutput,
  looseLead,
  openPole,
  neverHeard,
  silentAtRest,
  turnedDiode,
  noSupply,
  overloadedDiode,
  backwardsControl,
  idleControl,
  selfJoint,
  // What is likely a mistake.
  unwiredPart,
  liveBattery,
  reversedConnector,
  floatingMetal,
  silentPosition,
  oscillatingStage,
  outOfPhase,
  hangingCoil,
  groundLead,
  silentCoil,
  bridgedThrows,
  bypassedThrow,
  leadOnCommon,
  idleSwitch,
  loudKill,
  twinPositions,
  idleWire,
  idlePart,
  constantCut,
  oddVolume,
  unusualControl,
  oneSidedControl,
  unusualPosition,
  unusualPart,
  unlikeTwin,
  repeatedJoint,
  crowdedLug,
  fullStar,
  floatingScreen,
  screenReturn,
  earthColour,
  implausibleValue,
  // What is worth knowing.
  silentCombination,
  silencedPickup,
  groundLoop,
  unusualPickup,
  untriedPositions,
  fragment,
];
