/** The look of a drawing: colours as slots with a light and a dark value, roles as classes. */
import { inks } from '../palette.js';
import { fontFamily } from '../text-measure.js';

/** Slot, light value, dark value. */
const slots: readonly (readonly [string, string, string])[] = [
  ['paper', '#fbfaf7', '#1d2026'],
  ['ink', '#23262d', '#e8e6e0'],
  ['soft', '#6a6f79', '#a4a9b3'],
  ['line', '#5b606a', '#8e949f'],
  ['metal', '#dde1e6', '#3d434d'],
  ['body', '#efece4', '#2d313a'],
  ['wafer', '#e9dcc4', '#4a4235'],
  ['bobbin', '#4a4f59', '#12141a'],
  ['pole', '#c9ced6', '#98a0ad'],
  ['film', '#cfe0de', '#2f4a4a'],
  ['brass', '#d9bd7c', '#6b5a2e'],
  ['solder', '#aeb6c0', '#b9c1cb'],
  ['plate', '#f3f1ea', '#23272f'],
  ['plate-metal', '#e8ebef', '#2b3039'],
  ['edge', '#3a3e47', '#d9dde3'],
  ['plain', '#d9d4c0', '#4c4a41'],
  ['plain-dash', '#7d7a6c', '#b9b5a2'],
  ['sheath', '#d3d8de', '#5a626d'],
  ['lacing', '#f3ead2', '#cfc4a4'],
  ['lit', '#e0641c', '#ff9a4d'],
  ['return', '#2b7d8c', '#5cc3d2'],
  ['short', '#c01f5b', '#ff6f9f'],
];

const allSlots = [...slots, ...Object.entries(inks).map(([name, ink]) => [`wire-${name}`, ink.light, ink.dark] as const)];

const values = (dark: boolean): string => allSlots.map(([name, light, night]) => `--${name}:${dark ? night : light}`).join(';');

/** The style sheet of a drawing that stands alone; `.light` and `.dark` on the drawing override the reader's own scheme. */
export const styleSheet = `
.lugwork{${values(false)};color-scheme:light;background:var(--paper);font-family:${fontFamily}}
@media (prefers-color-scheme:dark){.lugwork:not(.light){${values(true)};color-scheme:dark}}
.lugwork.dark{${values(true)};color-scheme:dark}
@media print{.lugwork,.lugwork.dark,.lugwork:not(.light){${values(false)};--paper:#fff}}
.lugwork .sheet{fill:var(--paper)}
.lugwork text{fill:var(--ink);text-anchor:middle}
.lugwork .bold{font-weight:700}
.lugwork .t-value,.lugwork .t-note,.lugwork .t-group{fill:var(--soft)}
.lugwork .note text{fill:var(--ink)}
.lugwork .setting{fill:var(--lit);text-anchor:start}
.lugwork .terminal.lit .lug{stroke:var(--lit);stroke-width:2.6}
.lugwork .terminal.return .lug{stroke:var(--return);stroke-width:2.6}
.lugwork .s{stroke:var(--line);stroke-width:1.4;fill:none;stroke-linejoin:round;stroke-linecap:round}
.lugwork .s-metal{fill:var(--metal)}
.lugwork .s-body{fill:var(--body)}
.lugwork .s-wafer{fill:var(--wafer)}
.lugwork .s-bobbin{fill:var(--bobbin);stroke:none}
.lugwork .s-pole{fill:var(--pole);stroke-width:.7}
.lugwork .s-film{fill:var(--film)}
.lugwork .s-tab{fill:var(--brass);stroke-width:1.2}
.lugwork .s-detail{stroke-width:1.1}
.lugwork .s-leaf{fill:var(--brass);stroke-width:1.2}
.lugwork .s-lead{fill:none;stroke:var(--solder);stroke-width:2.6}
.lugwork .s-bead{fill:var(--solder);stroke-width:1}
.lugwork .s-hole{fill:var(--paper);stroke-width:1}
.lugwork .s-board{fill:var(--film)}
.lugwork .s-pill{fill:var(--paper);stroke-width:1}
.lugwork .s-terminal{fill:var(--body)}
.lugwork .s-cavity{fill:none;stroke-width:1.6;stroke-dasharray:9 5}
.lugwork .s-plate{fill:var(--plate);stroke-width:1.6}
.lugwork .s-plate-metal{fill:var(--plate-metal);stroke-width:1.6}
.lugwork .s-assembly{fill:none;stroke-dasharray:2 4}
.lugwork .s-channel{stroke-dasharray:9 5}
.lugwork .s-mark{stroke:var(--ink);stroke-width:2}
.lugwork .s-page{stroke:var(--ink);stroke-width:3;stroke-dasharray:14 7}
.lugwork .s-page-edge{stroke:var(--soft);stroke-width:1}
.lugwork .lug{fill:var(--brass);stroke:var(--line);stroke-width:1.3}
.lugwork .hole{fill:var(--paper);stroke:var(--line);stroke-width:.8}
.lugwork .joint{fill:var(--solder);stroke:var(--line);stroke-width:1}
.lugwork .wire path{fill:none;stroke-linejoin:round;stroke-linecap:butt}
.lugwork .edge{stroke:var(--edge);stroke-width:4.4}
.lugwork .casing{stroke:var(--paper);stroke-width:7.6}
.lugwork .casing.broad{stroke-width:12}
.lugwork .core{stroke:var(--plain);stroke-width:2.8}
.lugwork .plain{stroke:var(--plain-dash);stroke-width:2.8;stroke-dasharray:5 4}
.lugwork .stripe{stroke-width:3;stroke-dasharray:4 7}
.lugwork .bare .casing{stroke-width:6.2}
.lugwork .bare .edge{stroke-width:3.2}
.lugwork .bare .core{stroke:var(--solder);stroke-width:1.9}
.lugwork .solder .casing{stroke-width:9}
.lugwork .solder .edge{stroke-width:8}
.lugwork .solder .core{stroke:var(--solder);stroke-width:6}
.lugwork .sheath{stroke:var(--sheath);stroke-width:6.4}
.lugwork .sheath.edge{stroke:var(--line);stroke-width:8}
.lugwork .braid{stroke:var(--line);stroke-width:5.2;stroke-dasharray:1 2.6;stroke-opacity:.55}
.lugwork .twist{stroke:var(--edge);stroke-width:3.4;stroke-dasharray:1.4 7}
.lugwork .twist.pale{stroke:var(--paper);stroke-dashoffset:-1.4}
.lugwork .wire .leader{stroke:var(--soft);stroke-width:1.5;stroke-linecap:round;stroke-dasharray:0 4}
.lugwork .pill{fill:var(--paper);stroke:var(--edge);stroke-width:.9}
.lugwork .lacing path{fill:none;stroke-linecap:round}
.lugwork .lace-edge{stroke:var(--line);stroke-width:4.2}
.lugwork .lace{stroke:var(--lacing);stroke-width:2.8}
.lugwork .contact{display:none;fill:none;stroke:var(--ink);stroke-width:3;stroke-linecap:round;stroke-linejoin:round}
.lugwork .contact.closed{display:inline}
.lugwork .contact.lit{stroke:var(--lit)}
.lugwork .contact.return{stroke:var(--return)}
${Object.keys(inks)
  .map((name) => `.lugwork .c-${name}{stroke:var(--wire-${name})}`)
  .join('\n')}
.lugwork .glow{display:none;fill:none;stroke-width:10;stroke-opacity:.45;stroke-linejoin:round;stroke-linecap:round}
.lugwork .lit .glow{display:inline;stroke:var(--lit)}
.lugwork .return .glow{display:inline;stroke:var(--return)}
.lugwork .shorted .glow{display:inline;stroke:var(--short);stroke-dasharray:2 12}
.lugwork .idle{opacity:.3}
`
  .trim()
  .replaceAll('\n', '');
