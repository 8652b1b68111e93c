/** The look of the printed sheet: large enough to read at arm's length, black on white, rows that do not break across pages. */

export const sheetStyle = `@page { margin: 14mm 13mm; }
* { box-sizing: border-box; }
body { font: 11pt/1.35 system-ui, "Liberation Sans", Arial, sans-serif; color: #000; background: #fff; margin: 0 auto; max-width: 190mm; padding: 0 4mm; }
h1 { font-size: 17pt; margin: 0 0 2mm; overflow-wrap: anywhere; }
h2 { font-size: 13.5pt; margin: 6mm 0 2mm; border-bottom: 0.5mm solid #000; }
h3 { font-size: 11.5pt; margin: 5mm 0 1.5mm; }
h2, h3, h2 + p, h3 + p, h2 + ul:has(+ table), h3 + ul:has(+ table) { break-after: avoid; }
p, ul { margin: 1.5mm 0; }
ul { padding-left: 5mm; }
.fields { display: flex; flex-wrap: wrap; gap: 3mm 8mm; margin: 0 0 3mm; }
.fields i { display: inline-block; width: 38mm; border-bottom: 0.3mm solid #000; }
.cautions { border: 0.6mm solid #000; padding: 1mm 4mm 2mm; break-inside: avoid; }
.cautions h2 { border: 0; margin: 1mm 0; }
table { border-collapse: collapse; width: 100%; margin: 1.5mm 0; }
th, td { border: 0.2mm solid #000; padding: 0.9mm 1.6mm; text-align: left; vertical-align: top; overflow-wrap: anywhere; }
th { border-bottom-width: 0.5mm; font-weight: 600; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
.blank { width: 22mm; }
.picture { width: 1px; }
.picture svg { display: block; }
.short { white-space: nowrap; overflow-wrap: normal; }
.total td { font-weight: 600; }
.ticks td { border-width: 0 0 0.2mm; padding: 1.3mm 1.6mm; font-size: 11.5pt; }
.ticks .box { width: 8mm; }
.ticks .box b { display: block; width: 4.5mm; height: 4.5mm; border: 0.4mm solid #000; font: 700 11pt/3.6mm sans-serif; text-align: center; }
.ticks .number { width: 9mm; text-align: right; font-weight: 600; white-space: nowrap; overflow-wrap: normal; }
.ticks .what { width: 42%; }
.ticks .minding, .ticks small { font-size: 9pt; }
.end { display: inline-block; margin-right: 4mm; }
.end .mark { font-size: 12pt; }
.ticks .test td { border-left: 0; }
.ticks .test td:nth-child(3) { border-left: 1mm solid #000; padding-left: 2.5mm; }
tr.head { break-after: avoid; }
figure { margin: 2mm 0; break-inside: avoid; text-align: center; }
figure svg { max-width: 100%; height: auto; }
.fresh { break-before: page; }
.small ul { font-size: 9pt; line-height: 1.25; }
@page wide { size: landscape; margin: 12mm; }
@page tall { size: portrait; margin: 12mm; }
.wide { page: wide; }
.tall { page: tall; }
.drawing { break-before: page; break-after: page; }
.drawing h2 { margin-top: 0; }
.drawing figure { margin: 0; }
figure ~ figure { break-before: page; }
@media print { body { max-width: none; padding: 0; } }`;
