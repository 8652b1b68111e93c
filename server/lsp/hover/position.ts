/** Hover on a switch position: what sounds there, what a meter reads, where the peak lies. */
import type { Analysis } from '../../../language/analysis.js';
import { lugById, type AnalysedCircuit, type Circuit, type Switch } from '../../../language/circuit/index.js';
import {
  enumerate,
  isApproximate,
  type MeterReading,
  type ResponseSummary,
  type Sound,
} from '../../../language/electrics/index.js';
import type { Steps } from '../../../language/steps.js';
import { peakText, readingText, soundText } from './figures.js';
import { code, paragraphs, table } from './markdown.js';

export function* positionHover(circuit: AnalysedCircuit, device: Switch, index: number, analysis: Analysis): Steps<string> {
  const position = device.positions[index];
  if (position === undefined) return '';
  const contacts = position.joins.map((lugs) => lugs.map((lug) => code(lugById(circuit, lug).label)).join(' '));
  const row = yield* rowOf(circuit, device, index, analysis);
  const facts: (readonly (string | undefined)[])[] = [
    [`${code(device.name)} ${position.number}`, code(position.label)],
    ['joins', contacts.length === 0 ? 'nothing' : contacts.join(', ')],
  ];
  if (row !== undefined) {
    facts.push(['sounds', soundText(circuit, row.sound)], ['reads', readingText(row.reads)]);
    if (row.response !== undefined) facts.push(['peak', peakText(row.response, row.approximate)]);
  }
  return paragraphs(table(facts), othersNote(circuit, device));
}

/** A row for each position of a switch, for its table: position, sound, reading, peak. */
export function* positionRows(circuit: AnalysedCircuit, device: Switch, analysis: Analysis): Steps<string[][]> {
  const rows: string[][] = [];
  for (const [index, position] of device.positions.entries()) {
    const row = yield* rowOf(circuit, device, index, analysis);
    const name = code(position.label);
    if (row === undefined) rows.push([name, '', '', '']);
    else {
      const peak = row.response === undefined ? '' : peakText(row.response, row.approximate);
      rows.push([name, soundText(circuit, row.sound), readingText(row.reads), peak]);
    }
  }
  return rows;
}

interface Row {
  readonly sound: Sound;
  readonly reads: MeterReading;
  readonly approximate: boolean;
  /** Absent where it is silent. */
  readonly response?: ResponseSummary;
}

/** What the setting with this position and the other switches in their first gives; nothing else is solved for it. */
function* rowOf(circuit: AnalysedCircuit, device: Switch, index: number, analysis: Analysis): Steps<Row | undefined> {
  if (circuit.output === undefined) return undefined;
  const setting = enumerate(circuit).settings.find(({ positions }) => positions[device.id] === index);
  if (setting === undefined) return undefined;
  const sound = analysis.sound(circuit, setting);
  yield;
  const reads = analysis.reading(circuit, setting);
  yield;
  const row = { sound, reads, approximate: isApproximate(circuit, sound) };
  if (sound.silent) return row;
  const response = analysis.response(circuit, setting);
  yield;
  return { ...row, response };
}

function othersNote(circuit: Circuit, device: Switch): string | undefined {
  const others = circuit.switches.filter(
    (other) => other.id !== device.id && other.rest === undefined && other.positions.length > 1,
  );
  return others.length === 0 ? undefined : 'The other switches are in their first position.';
}
