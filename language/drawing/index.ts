/** Drawing: a circuit becomes a diagram, a layout passed in places it, the scene is plain JSON, and SVG is made of the scene alone. */
export { createDrawer, draw, type Drawer, type DrawOptions, type Drawing } from './draw.js';
export { createDiagram, createDiagramSteps, type DiagramOptions } from './diagram/create-diagram.js';
export { placeNames } from './diagram/crop.js';
export type * from './diagram/diagram.js';
export { leastPoints, smallestPoints } from './print-size.js';
export type * from './layout.js';
export { DrawingStopped } from './layout.js';
export { boxAround, grow, joinBoxes, overlaps, type Box, type Point } from './geometry.js';
export { simpleLayout } from './simple-layout.js';
export { sceneLabels, type Scene } from './scene.js';
export { highlightOf, highlightSteps } from './diagram/paths.js';
export type { Highlight, HighlightState } from './highlight.js';
export { createFreeRoutes, type FreeRoutes } from './router/free-route.js';
export { flattened, strokeBoxes, wirePath } from './wire-path.js';
export { shapeBox } from './symbols/symbol.js';
export { styleSheet } from './svg/svg-style.js';
export { renderSvg, type SvgAddition, type SvgOptions } from './svg/svg.js';
export { baseLine, fitText, textWidth, wrapText, type TextStyle } from './text-measure.js';
