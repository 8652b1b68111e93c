/** The look of the printed sheet: large enough to read at arm's length, black on white, rows that do not break across pages. */

export const sheetStyle = `@page { margin: 7.5mm 10mm; }
* { box-sizing: border-box; }
body { font: 9.5pt/1.3 system-ui, "Liberation Sans", Arial, sans-serif; color: #000; background: #fff; margin: 0 auto; max-width: 190mm; padding: 0 4mm; }
h1 { font-size: 15pt; margin: 0 0 2mm; overflow-wrap: anywhere; }
h2 { font-size: 12pt; margin: 2.5mm 0 0.8mm; border-bottom: 0.5mm solid #000; }
h3 { font-size: 10.5pt; margin: 1.5mm 0 0.5mm; }
h2, h3, h2 + p, h3 + p, h2 + ul:has(+ table), h3 + ul:has(+ table) { break-after: avoid; }
p, ul { margin: 1mm 0; }
ul { padding-left: 5mm; }
.fields { display: flex; flex-wrap: wrap; gap: 3mm 8mm; margin: 0 0 2mm; }
.fields i { display: inline-block; width: 38mm; border-bottom: 0.3mm solid #000; }
.cautions { border: 0.6mm solid #000; padding: 0.5mm 4mm 1mm; break-inside: avoid; }
.cautions h2 { border: 0; margin: 0.6mm 0; }
table { border-collapse: collapse; width: 100%; margin: 1mm 0; }
th, td { border: 0.2mm solid #000; padding: 0.2mm 1.2mm; font-size: 8.5pt; line-height: 1.2; text-align: left; vertical-align: top; overflow-wrap: anywhere; }
th { border-bottom-width: 0.5mm; font-weight: 600; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
thead + tbody > tr:not(:last-child):nth-child(-n + 2) { break-after: avoid; }
.blank { width: 16mm; }
.picture { width: 1px; }
.picture svg { display: block; }
.short { white-space: nowrap; overflow-wrap: normal; }
.ticks td { border-width: 0 0 0.2mm; padding: 0.3mm 1.4mm; font-size: 10pt; line-height: 4.2mm; }
.ticks .test td { padding: 0.2mm 1.4mm; font-size: 9pt; line-height: 3.7mm; }
.ticks .box { width: 7mm; white-space: nowrap; }
.ticks .box b { display: inline-block; width: 4.2mm; height: 4.2mm; border: 0.35mm solid #000; font: 700 8pt/3.5mm sans-serif; text-align: center; vertical-align: top; }
.ticks .test .box b { width: 3.4mm; height: 3.4mm; font: 700 7pt/2.7mm sans-serif; }
.ticks .box b + b { margin-left: 1mm; }
.ticks .reads { width: 1%; white-space: nowrap; vertical-align: bottom; }
.reads i { display: inline-block; width: 16mm; margin-left: 1.5mm; border-bottom: 0.25mm solid #000; font: 8pt/1 sans-serif; }
.large, .large th, .large td { font-size: 11pt; line-height: 1.35; }
.beside { columns: 2; column-gap: 5mm; margin: 1mm 0; }
.beside table { margin: 0; }
.beside .blank { width: 16mm; }
.tests .number { display: none; }
.ticks .number { width: 8mm; text-align: right; font-weight: 600; white-space: nowrap; overflow-wrap: normal; }
.work { display: flex; flex-wrap: wrap; align-items: baseline; column-gap: 3mm; }
.work .what { min-width: 38%; }
.work .what + span { flex: 1 0 auto; max-width: 54%; }
.ticks .minding, .ticks small { font-size: 8.5pt; }
.end { display: inline-block; margin-right: 3.5mm; line-height: 4.2mm; }
.end .mark { font-size: 11pt; line-height: 1; }
.ticks .test td { border-left: 0; }
.ticks .test td:nth-child(3) { border-left: 1mm solid #000; padding-left: 2.5mm; }
tr.head { break-after: avoid; }
figure { margin: 2mm 0; break-inside: avoid; text-align: center; }
figure svg { max-width: 100%; height: auto; }
.fresh { break-before: page; }
.small ul { padding: 0; }
.small li { display: inline; font-size: 8.5pt; }
.small li + li::before { content: ' · '; }
ul { font-size: 9pt; line-height: 1.2; }
.large ul, .large .cautions ul { font-size: 11pt; line-height: 1.35; }
@page wide { size: landscape; margin: 7.5mm; }
@page tall { size: portrait; margin: 7.5mm; }
.wide { page: wide; }
.tall { page: tall; }
.drawing { break-before: page; break-after: page; }
.drawing h2 { position: absolute; width: 1px; height: 1px; margin: 0; border: 0; overflow: hidden; clip-path: inset(50%); }
.drawing figure { margin: 0; }
figure ~ figure { break-before: page; }
@media print { body { max-width: none; padding: 0; } }`;
