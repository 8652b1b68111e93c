/** The workshop's papers, which are printed only where they are asked for: wire flags, drilling templates, the customer's form. */
import type { Build } from '../build.js';
import { flagPages } from './flags.js';
import { formPages } from './form.js';
import { templatePages } from './template.js';

const makers = { flags: flagPages, template: templatePages, form: formPages } as const;

export type Paper = keyof typeof makers;

/** The papers that there are. */
export const PAPERS = Object.keys(makers) as readonly Paper[];

/** The pages of some papers as HTML, in the order in which they are asked for; each goes on a separate page. All text in them is escaped. */
export function paperPages(build: Build, papers: readonly Paper[]): readonly string[] {
  return [...new Set(papers)].flatMap((paper) => makers[paper](build));
}

/** Goes after the style of the sheet. */
export const paperStyle = `@page paper { size: portrait; margin: 12mm; }
.paper-page { page: paper; break-before: page; break-inside: avoid; }
.paper-page > svg { display: block; max-width: none; }
.paper-page h2 { margin-top: 0; }
.paper-page .fields { display: grid; grid-template-columns: 1fr 1fr 1fr; gap: 2mm 6mm; }
.paper-page .fields b, .paper-page .photos { font-size: 9pt; font-weight: 400; }
.paper-page .fields i { display: block; width: auto; min-height: 7mm; font-style: normal; }
.paper-page .signed { align-items: end; }
.paper-page .signed i { min-height: 11mm; }
.paper-page h3 { margin: 3mm 0 1mm; }
.paper-page .lines p { margin: 0; min-height: 6.5mm; border-bottom: 0.2mm solid #000; }
.paper-page .photos { display: grid; grid-template-columns: 1fr 1fr; gap: 2mm; }
.paper-page .photos div { height: 28mm; border: 0.2mm solid #000; padding: 1mm; }
.paper-page td { height: 6.5mm; }
.paper-page th + th, .paper-page td + td { width: 32mm; }`;
