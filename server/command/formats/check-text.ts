/** Findings for people: each with its source line, a mark under it, why it matters and suggested fixes. */
import { followText } from '../../../language/causes.js';
import { oneLine } from '../../../language/escape.js';
import type { Finding, Fix, SourceRange } from '../../../language/source.js';
import { counted } from '../../../language/circuit/index.js';
import { lastEntry, type CheckReport, type ListedFile } from '../output/report.js';
import { textTable } from '../output/table.js';
import { columnsOf, createInk, printable, wrapped, type Ink } from '../output/terminal.js';

type Paint = (ink: Ink, text: string) => string;

/** The report, with a table of the rules where there is much, and a summary as its last line. */
export function checkText(report: CheckReport, colour: boolean, columns: number): string {
  const paint = createInk(colour);
  return [...blocksOf(report, paint, columns), ...byRule(report), summary(report, paint) + adopted(report)].join('\n');
}

/** What is found alone. */
export function quietText(report: CheckReport, colour: boolean, columns: number): string {
  return blocksOf(report, createInk(colour), columns).join('\n');
}

function blocksOf(report: CheckReport, paint: Paint, columns: number): readonly string[] {
  return report.files.flatMap((listed) => {
    const { file, findings, note } = listed;
    const tried = new Set<string>();
    const found = findings.map((finding) => block(finding, listed, { report, paint, width: Math.min(columns, 110), tried }));
    const notes = [...lastEntry(listed).map(({ message }) => message), ...(note === undefined ? [] : [note])];
    return [...found, ...notes.map((text) => `${paint('strong', oneLine(file.path))}: ${oneLine(text)}\n`)];
  });
}

interface Page {
  readonly report: CheckReport;
  readonly paint: Paint;
  readonly width: number;
  /** The fixes already suggested: findings with one cause share them, and they are listed once. */
  readonly tried: Set<string>;
}

function block(finding: Finding, { follows, followers }: ListedFile, { report, paint, width, tried }: Page): string {
  const lines = [
    `${paint('strong', where(finding.range, report))}: ${paint(finding.severity, finding.severity)} [${finding.rule}] ${oneLine(finding.message)}`,
    ...quote(finding.range, report, paint),
  ];
  if (finding.why) lines.push(...indented('', finding.why, width));
  const key = finding.fixes.map(({ title }) => title).join('\n');
  if (key !== '' && tried.has(key)) lines.push('  try: the same as above');
  else for (const [index, fix] of finding.fixes.entries()) lines.push(...indented(`${markOf(fix, index)} `, fix.title, width));
  tried.add(key);
  for (const related of finding.related)
    lines.push(paint('faint', `  see ${where(related.range, report)}: ${oneLine(related.message)}`));
  const cause = follows.get(finding);
  if (cause !== undefined) lines.push(`  follows from ${where(cause.range, report)} [${cause.rule}]`);
  const more = followText(followers.get(finding));
  if (more !== undefined) lines.push(`  ${more}`);
  return `${lines.join('\n')}\n`;
}

/** `try:`, ` or:`, and how likely it is to be the right fix where that isn't sure. */
function markOf({ confidence }: Fix, index: number): string {
  return `${index === 0 ? 'try' : ' or'}${confidence === 'sure' ? '' : ` (${confidence})`}:`;
}

/** Words after a mark, two columns in; further lines start below the first word. */
function indented(mark: string, text: string, width: number): string[] {
  const room = Math.max(40, width - 2 - mark.length);
  return wrapped(oneLine(text), room).map((line, index) => `  ${index === 0 ? mark : ' '.repeat(mark.length)}${line}`);
}

function where(range: SourceRange, report: CheckReport): string {
  return `${oneLine(report.pathOf(range.uri))}:${range.start.line + 1}:${range.start.character + 1}`;
}

/** The first line of the range with carets under it. */
function quote(range: SourceRange, report: CheckReport, paint: Paint): string[] {
  const line = report.lineOf(range.uri, range.start.line);
  if (line === undefined || line.trim() === '') return [];
  const end = range.end.line === range.start.line ? range.end.character : line.trimEnd().length;
  // Tabs stay tabs in the line of carets, so that the carets line up whatever a tab's width is.
  const before = printable(line.slice(0, range.start.character)).replace(/[^\t]+/g, (text) => ' '.repeat(columnsOf(text)));
  const marked = Math.max(1, columnsOf(line.slice(range.start.character, end)));
  const number = String(range.start.line + 1).padStart(5);
  return [
    `${paint('faint', `${number} |`)} ${printable(line)}`,
    `${paint('faint', '      |')} ${before}${paint('strong', '^'.repeat(marked))}`,
  ];
}

/** What the baseline knows, and what of it is fixed. */
function adopted({ adopted: adoption }: CheckReport): string {
  if (adoption === undefined) return '';
  const gone = adoption.gone.map(
    ({ path, rule, message }) => `  fixed: ${oneLine(path)} [${oneLine(rule)}] ${oneLine(message)}\n`,
  );
  const { omitted = 0 } = adoption;
  if (omitted > 0) gone.push(`  fixed: ${omitted} more; --all lists them\n`);
  const last = gone.length === 0 ? '' : `; ${adoption.gone.length + omitted} of them fixed, so write it again`;
  return `${counted(adoption.known, 'known finding')} set aside by ${oneLine(adoption.baseline)}${last}\n${gone.join('')}`;
}

/** So many findings are seen at a glance. */
const few = 10;

/** How often each rule finds something, where there is more than a glance takes in, in several files. */
function byRule({ files, byRule: rules }: CheckReport): readonly string[] {
  const total = rules.reduce((sum, { count }) => sum + count, 0);
  if (total <= few || files.filter(({ findings }) => findings.length > 0).length < 2) return [];
  const rows = rules.map(({ rule, severity, count, files: number }) => [rule, severity, `${count}`, `${number}`]);
  return [textTable({ heads: ['rule', 'severity', 'findings', 'files'], rows })];
}

function summary(report: CheckReport, paint: Paint): string {
  const { counts } = report;
  const parts = (['error', 'warning'] as const).filter((severity) => counts[severity] > 0);
  const said = parts.map((severity) => paint(severity, counted(counts[severity], severity)));
  const notes = counts.info + counts.hint;
  if (said.length === 0) said.push('no errors, no warnings');
  if (notes > 0) said.push(counted(notes, 'note'));
  const listed = new Set(report.files.flatMap(({ findings }) => findings));
  const folded = report.files.flatMap(({ follows }) => [...follows.keys()]).filter((finding) => !listed.has(finding)).length;
  const more = folded === 0 ? '' : `; ${folded} of them ${folded === 1 ? 'follows' : 'follow'} from another, --all lists them`;
  const passedOver = report.passedOver.length > 0 ? `; ignored by .lugignore: ${report.passedOver.join(', ')}` : '';
  return `${counted(report.files.length, 'file')} checked: ${said.join(', ')}${more}${oneLine(passedOver)}\n`;
}
