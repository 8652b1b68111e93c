/** Bench: lengths, solder order, cut list, meter sheet, parts list and the bench sheet of one build, as plain data and as text. */
export { buildOf, runSteps, type Build } from './build.js';
export type { BuildSettings } from './build-settings.js';
export { buyList } from './lists/buy-list.js';
export { channelFills, type ChannelFill, type Passing } from './places/channel-fill.js';
export { benchFindings } from './findings.js';
export {
  cutList,
  ownLeads,
  partsList,
  type BuyRow,
  sleeveList,
  type Cut,
  type CutGroup,
  type OwnLead,
  type PartGroup,
  type SleeveGroup,
} from './lists/lists.js';
export {
  controlSentences,
  groundList,
  meterSheet,
  tapTest,
  type GroundRow,
  type MeterRow,
  type TapRow,
} from './sheet/readings.js';
export { paperPages, PAPERS, type Paper } from './papers/papers.js';
export { wireFlags, type Flag } from './papers/flags.js';
export { templates, type Mark, type Template } from './papers/template.js';
export { planSteps, solderPlan } from './plan/order.js';
export { REASONS, type RuleName } from './plan/order-reasons.js';
export type { Plan, Stage, StageTest, Step } from './plan/plan.js';
export { batteries, type BatteryFacts, type Unplugged } from './player/battery.js';
export { playerPage } from './player/player-page.js';
export type { Run } from './places/runs.js';
export { lengthText } from './wording.js';
export { benchSheet, sheetSteps, type SheetOptions } from './sheet/sheet.js';
export {
  endText,
  isRowDone,
  readingPlaces,
  type Block,
  type Section,
  type Sheet,
  type TickEnd,
  type TickRow,
} from './sheet/sheet-model.js';
export { readingAt, readingsSteps, type ReadingPlace, type TakenReading } from './sheet/taken.js';
export { namedPieces } from './sheet/named-pieces.js';
export { sectionsHtmlSteps, sheetHtml, sheetHtmlSteps } from './sheet/sheet-html.js';
export { sheetMarkdown, sheetMarkdownSteps } from './sheet/sheet-markdown.js';
export { substitution, type Answer, type Changed } from './substitute.js';
export { routeBetween, type Piece, type Route } from './places/routes.js';
export { outsideDiameter } from './places/wire-sizes.js';
export type { End, Item, Spot, Work } from './plan/work.js';
