/** The result of a search for faults, as text for the bench and as JSON. */
import { meterCaution } from '../../cautions.js';
import { stoppedText } from '../../work.js';
import type { Located, NextReading, Suspect } from './model.js';

/** For people: suspects with what they explain and what they leave, the next reading and where to put the probes, then what the readings prove. */
export function locatedText(located: Located): string {
  const { readings, asWritten, suspects, next, estimates, proofs, probes } = located;
  const lines: string[] = [meterCaution, ''];
  if (readings.length === 0 && estimates.length === 0 && proofs.length === 0)
    lines.push('There are no readings yet. Take one and add it to the file: measured selector 1 : reads 6.7k');
  else if (readings.length > 0) {
    lines.push(
      suspects.length === 0
        ? asWritten.length === readings.length
          ? `The circuit as written explains ${all(readings.length)} without a fault.`
          : `No single fault${located.isStopped === true ? ' that was tried' : ''} explains more than the circuit as written, which explains ${asWritten.length} of ${readings.length} readings. Check the readings, and that this is the circuit on the bench.`
        : `The circuit as written explains ${asWritten.length} of ${readings.length} readings. Single faults, most likely first:`,
    );
  }
  suspects.forEach((suspect, index) => lines.push('', ...suspectLines(suspect, index, readings.length)));
  if (next !== undefined) lines.push('', ...nextLines(next, suspects));
  if (estimates.length > 0) {
    lines.push('', 'Values found from the readings:');
    for (const { part, property, text, from } of estimates)
      lines.push(`  ${part}: ${property} ${text} (${from.map(({ says }) => says).join('; ')})`);
  }
  if (proofs.length > 0) {
    lines.push('', 'Joints that the readings prove; add them to the file:');
    for (const { line, from } of proofs) lines.push(`  ${line} // ${from.says}`);
  }
  if (probes.length > 0) {
    lines.push('', 'Readings to take next, where something is still unknown:');
    for (const line of probes) lines.push(`  ${line}`);
  }
  if (located.isStopped === true) lines.push('', stoppedText('faults', suspects.length));
  return `${lines.join('\n')}\n`;
}

function suspectLines({ fault, explains, leaves }: Suspect, index: number, of: number): readonly string[] {
  return [
    `${String(index + 1).padStart(2)}. ${fault.where}: ${fault.says}`,
    `    explains ${explains.length} of ${of}${leaves.length === 0 ? '' : `, not ${leaves.map(({ says }) => says).join('; ')}`}`,
  ];
}

function nextLines({ line, where, outcomes }: NextReading, suspects: readonly Suspect[]): readonly string[] {
  const number = (suspect: Suspect): string => {
    const index = suspects.indexOf(suspect);
    return index < 0 ? suspect.fault.where : String(index + 1);
  };
  return [
    'The reading that distinguishes them best:',
    `  ${line}`,
    `  ${where}.`,
    ...outcomes.map(({ reads, suspects: members }) => `    ${reads}: ${members.map(number).join(', ')}`),
    'Add it to the file with the value that the meter shows, then run the search again.',
  ];
}

function all(count: number): string {
  return count === 1 ? 'the one reading' : `all ${count} readings`;
}

/** For programs: `suspects` in the published form, and everything else that the text contains. */
export function locatedJson(located: Located): string {
  const { readings, asWritten, suspects, next, estimates, proofs, probes } = located;
  const output = {
    suspects: suspects.map(({ fault, explains, leaves }) => ({
      fault: fault.says,
      kind: fault.kind,
      where: fault.where,
      explains: explains.length,
      of: readings.length,
      leaves: leaves.map(({ says }) => says),
    })),
    as_written: { explains: asWritten.length, of: readings.length },
    ...(next === undefined
      ? {}
      : {
          next: {
            line: next.line,
            where: next.where,
            outcomes: next.outcomes.map(({ reads, suspects: members }) => ({
              reads,
              suspects: members.map(({ fault }) => `${fault.where}: ${fault.says}`),
            })),
          },
        }),
    values: estimates.map(({ part, property, ohm, text }) => ({ part, property, ohm, text })),
    wires: proofs.map(({ line }) => line),
    probes,
    ...(located.isStopped === true ? { incomplete: ['suspects'] } : {}),
  };
  return `${JSON.stringify(output, null, 2)}\n`;
}
