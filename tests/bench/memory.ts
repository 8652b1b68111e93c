/** How much memory the built server holds as edits go on: what the system counts for its process, drawing thread included. */
import { readFileSync } from 'node:fs';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { connect } from './latency.js';

export const memoryHeads = ['edits', 'megabytes resident', 'most so far'];

/** After so many edits a line is written. */
const marks = [1, 500, 1000, 2500, 5000] as const;

/** Every so many edits a wire's end goes astray, which takes a search for its repair. */
const astray = 100;

/** Lines after so many edits of one circuit, each checked whole before the next: a comment, a value, a gauge in turn, now and then a wrong wire. Linux alone says what is asked here. */
export async function memoryRows(bundle: string, file: string): Promise<string[][]> {
  const client = await connect(bundle);
  let document = TextDocument.create('memory:/bench.lug', 'lugwork', 1, readFileSync(file, 'utf8'));
  await client.open(document);
  const rows: string[][] = [];
  for (let edit = 1; edit <= marks[marks.length - 1]!; edit++) {
    const text = changed(readFileSync(file, 'utf8'), edit);
    document = TextDocument.create(document.uri, 'lugwork', document.version + 1, text);
    await client.change(document, { text });
    if (!(marks as readonly number[]).includes(edit)) continue;
    rows.push([String(edit), ...['VmRSS', 'VmHWM'].map((field) => megabytes(client.pid, field))]);
  }
  await client.end();
  return rows;
}

/** The text after one edit; each number gives another text. */
function changed(text: string, edit: number): string {
  if (edit % astray === 0)
    return text.replace(/^(wire \S+ to )\S+/m, edit % (2 * astray) === 0 ? '$1output.sleeve' : '$1output.tip');
  const kinds: readonly (() => string)[] = [
    () => `${text}// ${edit}\n`,
    // So little that no expectation fails, which would take a search as well.
    () => text.replace(/(: pot \d+)k/, `$1.${String(edit).padStart(4, '0')}k`),
    () => text.replace('22awg', edit % 2 === 0 ? '24awg' : '26awg'),
  ];
  return kinds[edit % kinds.length]!();
}

function megabytes(pid: number, field: string): string {
  const kilobytes = new RegExp(`^${field}:\\s+(\\d+) kB`, 'm').exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
  if (kilobytes === undefined) throw new Error(`The system does not say ${field} of a process.`);
  return (Number(kilobytes) / 1024).toFixed(0);
}
