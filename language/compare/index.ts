/** Compare: what changed between two circuits in wires, parts, behaviour and work, as plain data and as sentences. */
export type * from './change.js';
export { changeSteps, compare } from './compare.js';
export { factLines } from './facts-text.js';
export { changeLines, changeSections, marks, type ChangeSection } from './lines.js';
export { matchCircuits, type Match } from './match.js';
export { compareSetting, type HeardSetting, type SettingChange } from './heard.js';
export { linksBetween, type Links } from './links.js';
export { wireEffectSteps } from './wire-effects.js';
export { overlayOf, type Overlay, type OverlayMark } from './overlay/overlay.js';
export { letters, placeMarks, type Badge, type PlacedMark } from './overlay/place-marks.js';
export { renderChange } from './overlay/svg-change.js';
