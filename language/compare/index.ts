/** Compare: what changed between two circuits in wires, parts, behaviour and work, as plain data and as sentences. */
export type * from './change.js';
export { changeSteps, compare } from './compare.js';
export { factLines } from './facts-text.js';
export { changeLines, changeSections, expectationGroups, marks, type ChangeSection } from './lines.js';
export { matchCircuits, type Match } from './match/match.js';
export { compareSetting, type HeardSetting, type SettingChange } from './heard/heard.js';
export { linksBetween, type Links } from './match/links.js';
export { countsOf, sumOf, verdictOf, type Counts } from './verdict.js';
export { wireEffectSteps } from './heard/wire-effects.js';
export { overlayOf, type Overlay, type OverlayMark } from './overlay/overlay.js';
export type { Badge } from './overlay/badge.js';
export { letters, placeMarks, type PlacedMark } from './overlay/place-marks.js';
export { renderChange } from './overlay/svg-change.js';
