/** What the page of an instrument holds: words that are read without a script, and data from which its script draws, solves and plays. */
import { circuitFromJson, circuitToJson, type AnalysedCircuit } from '../circuit/index.js';
import { cautions } from '../cautions.js';
import { firstOf, lastOf } from '../collections.js';
import type { Drawing, Scene } from '../drawing/index.js';
import { positionTable, type PositionTable as SolvedTable } from '../electrics/index.js';
import { escapeXml } from '../escape.js';
import { finished, type Steps } from '../steps.js';
import { buildOf, playerPage, sectionsHtmlSteps, type Block, type Section } from '../workshop/index.js';
import { shownPositions, type PositionTable } from './shown.js';

/** The data of the page's script. */
export interface LivePage {
  readonly circuit: AnalysedCircuit;
  readonly scene: Scene;
  readonly table: PositionTable;
}

/** More rows of the table nobody reads, and 4,096 of them would make the page too large to send. */
const mostRows = 256;
/** Rows of a table in the player’s words, each with its pictures. */
const mostWordRows = 64;

/** What differs from page to page. */
export interface PageContents {
  readonly title: string;
  /** HTML below the title: what the instrument is, the first caution, and the way to the others; all text is escaped. */
  readonly lead: string;
  /** HTML: what each position gives in the player's words, and the cautions; all text is escaped. */
  readonly words: string;
  /** JSON, safe inside a script element. */
  readonly data: string;
}

/** The contents of the page of a circuit and its drawing; no layout and no parser is needed to read them. */
export function livePage(circuit: AnalysedCircuit, drawing: Drawing): PageContents {
  return finished(pageSteps(circuit, drawing, positionTable(circuit, { response: true })));
}

/** The same in steps, from a table of positions, with their responses, that was made before. */
export function* pageSteps(circuit: AnalysedCircuit, { scene, diagram }: Drawing, table: SolvedTable): Steps<PageContents> {
  const build = buildOf(circuit);
  yield;
  const player = playerPage(build);
  yield;
  const care = cautions({ battery: build.hasBattery });
  const words = yield* sectionsHtmlSteps(player.sections.map(shortened));
  const last = yield* sectionsHtmlSteps([{ title: 'Cautions', blocks: [{ kind: 'list', items: care }] }]);
  const nameOf = (uri: string): string => lastOf(uri.split('/'));
  const data = { circuit: circuitToJson(circuit, { nameOf }), scene, table: listed(shownPositions(table)) };
  return {
    title: player.title,
    lead: `${diagram.subtitle === '' ? '' : `<p>${escapeXml(diagram.subtitle)}</p>\n`}<p class="first"><strong>${escapeXml(firstOf(care))}</strong> <a href="#cautions">All cautions</a></p>`,
    words: `${words}\n<div id="cautions">${last}</div>`,
    data: scriptSafe(JSON.stringify(data)),
  };
}

function shortened(section: Section): Section {
  return { ...section, blocks: section.blocks.flatMap(shortenedBlock) };
}

function shortenedBlock(block: Block): readonly Block[] {
  if (block.kind !== 'table' || block.rows.length <= mostWordRows) return [block];
  const { rows, pictures } = block;
  const kept = pictures === undefined ? {} : { pictures: pictures.slice(0, mostWordRows) };
  return [
    { ...block, rows: rows.slice(0, mostWordRows), ...kept },
    { kind: 'text', text: `${rows.length - mostWordRows} more are not listed: use the controls.` },
  ];
}

function listed({ rows, leftOut }: PositionTable): PositionTable {
  const more = rows.length - mostRows;
  if (more <= 0) return { rows, leftOut };
  return { rows: rows.slice(0, mostRows), leftOut: [`${more} more settings are not listed: use the controls.`, ...leftOut] };
}

/** The data again, or in one sentence why the text holds none. */
export function readLivePage(text: string): LivePage | { readonly problem: string } {
  const { circuit: form, scene, table } = JSON.parse(text) as { circuit: unknown } & Omit<LivePage, 'circuit'>;
  const read = circuitFromJson(form, { uriOf: (name) => `page:/${name}` });
  return 'problem' in read ? read : { circuit: read.circuit, scene, table };
}

/** Signs that could end the element, and those that are not seen or turn the direction of writing, as JSON escapes. */
function scriptSafe(json: string): string {
  return json.replace(
    /[<>&\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
