/** Live: the instrument operated on a screen. Its controls, what a setting lights and how it responds, and the page that holds all of it. */
export { controlsOf, settingAt, type ControlsAt, type DrawnControl, type DrawnShaft, type DrawnSwitch } from './controls.js';
export { curveOf, curveOfString, shownPositions, type PositionRow, type PositionTable, type ResponseCurve } from './shown.js';
export { livePage, pageSteps, readLivePage, type LivePage, type PageContents } from './page.js';
export { fillPage, type PageLanguage } from './fill-page.js';
