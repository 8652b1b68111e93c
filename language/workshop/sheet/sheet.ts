/** The bench sheet of a build as plain data, in the order in which a maker needs it. */
import { millimetres } from '../../checks/index.js';
import { cautions } from '../../cautions.js';
import { effectAnywhereSteps } from '../../electrics/index.js';
import { finished, type Steps } from '../../steps.js';
import type { Build } from '../build.js';
import { planSteps, solderPlan } from '../plan/order.js';
import { REASONS, type RuleName } from '../plan/order-reasons.js';
import type { Plan } from '../plan/plan.js';
import { instrumentField, instrumentsOn } from './batch.js';
import { delicateNotes } from './delicate.js';
import { tapTest } from './readings.js';
import { groundBlocks, meterBlocks, tapBlocks } from './sheet-tests.js';
import { cutBlocks, leadBlocks, partsBlocks, roomBlocks, sleeveBlocks } from './sheet-lists.js';
import { titleOf } from '../wording.js';
import { workRows, type StageRows } from './work-rows.js';
import { isRowDone, type Block, type Section, type Sheet, type TickRow } from './sheet-model.js';
import { capitalised } from '../../words.js';

export interface SheetOptions {
  /** The drawing as SVG, a page each; its section says how to get one where none is given. */
  readonly drawing?: readonly string[];
  /** How the drawing came out, or why there is none. */
  readonly drawingNote?: string;
  /** Where the drawing stands beside the sheet, its section is left out. */
  readonly withoutDrawing?: boolean;
  /** Keys of the rows that are done. */
  readonly done?: ReadonlySet<string>;
  /** Which instrument of the batch it is for, from 1. */
  readonly number?: number;
}

/** Makes the sheet. Texts are plain: each renderer makes them safe for its own form. */
export function benchSheet(build: Build, options: SheetOptions = {}): Sheet {
  return finished(sheetSteps(build, options));
}

/** The same in steps of one reading or one section each. */
export function* sheetSteps(build: Build, asked: SheetOptions = {}): Steps<Sheet> {
  const options = withRecord(build, asked);
  const plan = yield* planSteps(build);
  for (const { id } of build.circuit.shafts) yield* effectAnywhereSteps(build.circuit, id);
  const sections: Section[] = [];
  for (const make of sectionMakers(build, plan, options)) {
    yield;
    const section = make();
    if (section.blocks.length > 0) sections.push(ticked(section, options.done));
  }
  return {
    title: titleOf(build, options.number, 'Bench sheet'),
    fields: [
      ...(options.number === undefined ? [instrumentField(build)] : []),
      build.record?.date === undefined ? 'Date' : `Date: ${build.record.date}`,
      build.record?.by === undefined ? 'By' : `By: ${build.record.by}`,
    ],
    cautions: cautions({ battery: build.hasBattery }),
    instruments: instrumentsOn(build, options.number),
    sections,
  };
}

/** What makes each section, in their order. */
function sectionMakers(build: Build, plan: Plan, options: SheetOptions): readonly (() => Section)[] {
  const stages = (isLast: boolean): (() => Section)[] =>
    workRows(build, plan)
      .filter(({ stage: { kind } }) => kind !== 'hanging' && (kind === 'close') === isLast)
      .map((stage) => () => stageSection(stage));
  const drawing = (): Section => ({ title: 'Drawing', blocks: options.withoutDrawing === true ? [] : drawingBlocks(options) });
  const why = (): Section => ({
    title: 'Why the steps are in their order',
    blocks: whyBlocks(build),
    isSub: true,
    isSmall: true,
  });
  const lists: readonly (() => Section)[] = [
    () => ({ title: 'Parts and materials', blocks: partsBlocks(build) }),
    () => ({ title: 'Wires to cut', blocks: cutBlocks(build, options.number) }),
    () => ({ title: 'Heat-shrink', blocks: sleeveBlocks(build), isSub: true }),
    () => ({ title: 'Leads that come with their parts', blocks: leadBlocks(build), isSub: true }),
    () => ({ title: 'Channels and room', blocks: roomBlocks(build), isSub: true }),
  ];
  // Where the lists run on to a second page there is room behind them; else the reasons would have that page to themselves.
  const isRunOn = rowsIn(lists.map((make) => make())) > FIRST_PAGE;
  return [
    drawing,
    ...lists,
    ...(isRunOn ? [why] : []),
    () => ({ title: 'Solder order', blocks: orderBlocks(build), isFresh: true }),
    ...stages(false),
    () => ({
      title: 'Test with the plates off the body',
      blocks: [...hangingBlocks(build), ...meterBlocks(build, options.number)],
    }),
    () => ({ title: 'Ground and shield', blocks: groundBlocks(build, options.number), isSub: true }),
    () => ({ title: 'Tap test', blocks: tapBlocks(build, options.number), isSub: true }),
    ...stages(true),
    () => ({ title: 'Last checks, before the strings and after', blocks: finalBlocks(build), isSub: true }),
    ...(isRunOn ? [] : [why]),
  ];
}

/** About how many rows of lists have room under the cautions on a first page of either paper. */
const FIRST_PAGE = 30;

function rowsIn(sections: readonly Section[]): number {
  const tables = sections.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'table' ? [block] : [])));
  return tables.reduce((sum, { rows }) => sum + rows.length, 0);
}

/** What the record of one instrument says already. */
function withRecord({ record }: Build, options: SheetOptions): SheetOptions {
  if (record === undefined) return options;
  return { ...options, number: record.number, done: new Set([...record.done, ...(options.done ?? [])]) };
}

function ticked(section: Section, done: ReadonlySet<string> | undefined): Section {
  if (done === undefined || done.size === 0) return section;
  const blocks = section.blocks.map((block): Block => {
    if (block.kind !== 'ticks') return block;
    return { ...block, rows: block.rows.map((row) => (isRowDone(row, done) ? { ...row, isDone: true } : row)) };
  });
  return { ...section, blocks };
}

function drawingBlocks({ drawing, drawingNote }: SheetOptions): Block[] {
  const note: Block[] = drawingNote === undefined ? [] : [{ kind: 'text', text: drawingNote }];
  if (drawing !== undefined) return [...drawing.map((svg): Block => ({ kind: 'picture', svg })), ...note];
  return [...note, { kind: 'text', text: 'No drawing on this sheet; `lugwork draw` makes one.' }];
}

function orderBlocks(build: Build): Block[] {
  const { reheats, bound, reheated } = solderPlan(build);
  const heats =
    reheats === 0
      ? 'No case is heated both at the bench and in the body.'
      : `${reheats} ${reheats === 1 ? 'case is' : 'cases are'} heated both at the bench and in the body; ${reheats === bound ? 'no order that follows the rules has fewer' : `no order has fewer than ${bound}`}.`;
  const { strip, ends, 'case-ends': caseEnds } = build.settings;
  const lines = [
    '● Solder it now. ○ Only hook it: bend the tinned end through the lug and leave it; a later row solders it with the others.',
    `Tack each wire on a case where it lies, at a separate spot. Solder at most ${ends} ends on a lug and ${caseEnds} on a case in one heat.`,
    `Strip ${millimetres(strip)} at each end of every wire. Bare wire is not stripped. Tin both ends and the lug before they meet. After each joint: hold still until the solder sets, tug the wire, clip it, and lay it flat.`,
    'Touch the meter’s probes together and subtract that reading from the others. A capacitor may make the reading drift before it settles. “A to B and C”: one probe on A, the other on each of B and C. A reading where the line says open means a short or a wire on the wrong lug.',
    ...delicateNotes(build),
    heats,
    ...reheated.map((line) => `${line}.`),
  ];
  return [{ kind: 'list', items: lines }];
}

function stageSection({ stage, rows }: StageRows): Section {
  const { title, tests } = stage;
  const setting = stage.setting === undefined || stage.setting === '' ? '' : ` with ${stage.setting}`;
  /** A test that has its setting in the same row keeps its key when others come beside it. */
  const test = (text: string, before = ''): TickRow => ({
    key: `test ${title} ${text}`,
    number: '',
    text: `${before}${text}`,
    isTest: true,
    isRead: true,
  });
  const head = `Test${setting}.`;
  const steps: Block[] = rows.length === 0 ? [] : [{ kind: 'ticks', rows }];
  const [only, ...more] = tests;
  const readings: readonly TickRow[] =
    only === undefined
      ? []
      : more.length === 0
        ? [test(only.text, `${head} `)]
        : [{ key: `test ${title}`, number: '', text: head, isTest: true, isHead: true }, ...tests.map(({ text }) => test(text))];
  const block: Block = { kind: 'ticks', rows: readings, isNarrow: isShorterInTwo(readings) };
  return { title, blocks: readings.length === 0 ? steps : [...steps, block], isSub: true };
}

/** About how many letters of a test fit in a line across the page, and in one of two columns. */
const ACROSS = 95;
const IN_COLUMN = 40;

/** True where the tests take clearly less room in two columns, though more of them break into lines there. */
function isShorterInTwo(rows: readonly TickRow[]): boolean {
  const lines = (room: number): number => rows.reduce((sum, { text }) => sum + Math.ceil(text.length / room), 0);
  return lines(IN_COLUMN) / 2 < lines(ACROSS) * 0.8;
}

function shortReason(rule: RuleName): string {
  return rule.replaceAll('-', ' ');
}

function hangingBlocks(build: Build): Block[] {
  const hangs = build.plates.length > 0 ? 'Nothing screwed down yet. ' : '';
  const items = [`${hangs}Pots at 10 unless the line says otherwise. Measure between tip and sleeve of the jack.`];
  return [{ kind: 'list', items }];
}

function finalBlocks(build: Build): Block[] {
  const tick = (text: string, isRead = false): TickRow => ({
    key: `final ${text}`,
    number: '',
    text,
    isTest: true,
    ...(isRead ? { isRead } : {}),
  });
  const strings = build.parts.some((part) => part.ancestry.includes('bridge-ground'));
  const rows = [
    tick('Plates screwed down: measure at the jack once more in the first setting; the reading has not changed.', true),
    tick('Plug a lead in and out, and turn the plug: no crackle, and the reading does not change.'),
    tick('Tap each pickup once more in the first setting: a pinched lead would show up now.'),
    ...(strings
      ? [
          tick('Strings on. Measure from a string to the sleeve of the jack: less than 2 Ω.', true),
          tick(
            'Plug into a tested amplifier. Touch the strings: the hum gets quieter or stays the same; it must not get louder.',
          ),
        ]
      : []),
    ...(tapTest(build).length > 1
      ? [
          tick(
            'Move every switch through its positions while a string rings: no position that the tap test calls loud is silent.',
          ),
        ]
      : []),
  ];
  return [{ kind: 'ticks', rows }];
}

function whyBlocks(build: Build): Block[] {
  const used = new Set(solderPlan(build).stages.flatMap(({ steps }) => steps.map(({ rule }) => rule)));
  const items = [...used].map((rule) => `${capitalised(shortReason(rule))}: ${REASONS[rule]}.`);
  return [{ kind: 'list', items }];
}
