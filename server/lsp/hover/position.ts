/** Hover on a switch position: what sounds there, what a meter reads, where the peak lies. */
import type { Analysis } from '../../../language/analysis.js';
import type { Circuit, Switch } from '../../../language/circuit/index.js';
import type { PositionRow } from '../../../language/electrics/index.js';
import { peakText, readingText, soundText } from './figures.js';
import { code, paragraphs, table } from './markdown.js';

export function positionHover(circuit: Circuit, device: Switch, index: number, analysis: Analysis): string {
  const position = device.positions[index];
  if (position === undefined) return '';
  const contacts = position.joins.map((lugs) => lugs.map((lug) => code(circuit.lugs[lug]!.label)).join(' '));
  const row = rowOf(circuit, device, index, analysis);
  const facts: (readonly (string | undefined)[])[] = [
    [`${code(device.name)} ${position.number}`, code(position.label)],
    ['joins', contacts.length === 0 ? 'nothing' : contacts.join(', ')],
  ];
  if (row !== undefined) {
    facts.push(['sounds', soundText(circuit, row.sound)], ['reads', readingText(row.reads)]);
    if (!row.sound.silent && row.response !== undefined) facts.push(['peak', peakText(row.response)]);
  }
  return paragraphs(table(facts), othersNote(circuit, device));
}

/** A row for each position of a switch, for its table: position, sound, reading, peak. */
export function positionRows(circuit: Circuit, device: Switch, analysis: Analysis): string[][] {
  return device.positions.map((position, index) => {
    const row = rowOf(circuit, device, index, analysis);
    const name = code(position.label);
    if (row === undefined) return [name, '', '', ''];
    const peak = row.sound.silent || row.response === undefined ? '' : peakText(row.response);
    return [name, soundText(circuit, row.sound), readingText(row.reads), peak];
  });
}

/** The setting with this position and the other switches in their first. */
function rowOf(circuit: Circuit, device: Switch, index: number, analysis: Analysis): PositionRow | undefined {
  if (circuit.output === undefined) return undefined;
  return analysis.positions(circuit).rows.find(({ setting }) => setting.positions[device.id] === index);
}

function othersNote(circuit: Circuit, device: Switch): string | undefined {
  const others = circuit.switches.filter(
    (other) => other.id !== device.id && other.rest === undefined && other.positions.length > 1,
  );
  return others.length === 0 ? undefined : 'The other switches stand in their first position.';
}
