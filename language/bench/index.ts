/** Bench: lengths, solder order, cut list, meter sheet, parts list and the bench sheet of a circuit, as plain data and as text. */
export { buildSettings, USUAL_BUILD, type BuildSettings } from './build-settings.js';
export { buyList, type BuyRow } from './buy-list.js';
export { channelFills, type ChannelFill, type Passing } from './channel-fill.js';
export { benchFindings } from './findings.js';
export {
  cutList,
  ownLeads,
  partsList,
  sleeveList,
  type Cut,
  type CutGroup,
  type OwnLead,
  type PartGroup,
  type SleeveGroup,
} from './lists.js';
export { controlSentences, groundList, meterSheet, tapTest, type GroundRow, type MeterRow, type TapRow } from './readings.js';
export { planSteps, solderPlan } from './order.js';
export { REASONS, type RuleName } from './order-reasons.js';
export type { Plan, Stage, StageTest, Step } from './plan.js';
export { playerPage } from './player-page.js';
export { isOwnLead, leadEnd } from './places.js';
export { runsOf, runSteps, type Run } from './runs.js';
export { runLength } from './say.js';
export { benchSheet, sheetSteps, type SheetOptions } from './sheet.js';
export type { Block, Section, Sheet, TickRow } from './sheet-model.js';
export { namedPieces } from './named-pieces.js';
export { sheetHtml, sheetHtmlSteps } from './sheet-html.js';
export { sheetMarkdown, sheetMarkdownSteps } from './sheet-markdown.js';
export { substitution, type Answer, type Changed } from './substitute.js';
export { wayBetween, type Piece, type Way } from './ways.js';
export { conductorDiameter, outsideDiameter } from './wire-sizes.js';
export { workOf, type End, type Item, type Spot, type Work } from './work.js';
