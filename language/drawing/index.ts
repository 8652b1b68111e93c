/** Drawing: a circuit becomes a diagram, a layout passed in places it, the scene is plain JSON, and SVG is made of the scene alone. */
export { createDrawer, draw, type Drawer, type DrawOptions, type Drawing } from './draw.js';
export { createDiagram, createDiagramSteps, type DiagramOptions } from './create-diagram.js';
export type * from './diagram.js';
export type * from './layout.js';
export { DrawingStopped } from './layout.js';
export { boxAround, grow, joinBoxes, overlaps, type Box } from './geometry.js';
export { simpleLayout } from './simple-layout.js';
export { sceneLabels, type Scene } from './scene.js';
export { highlightOf, highlightSteps } from './paths.js';
export type { Highlight, HighlightState } from './highlight.js';
export { overlayOf, type Overlay, type OverlayMark } from './overlay.js';
export { shapeBox } from './symbol.js';
export { styleSheet } from './svg-style.js';
export { renderSvg, type SvgAddition, type SvgOptions } from './svg.js';
export { renderChange } from './svg-change.js';
