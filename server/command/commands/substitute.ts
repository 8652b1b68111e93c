/** `lugwork substitute`: what another value would do, setting by setting. */
import { firstOf } from '../../../language/collections.js';
import { substitution, type Answer, type Changed } from '../../../language/workshop/index.js';
import type { AnalysedCircuit, Circuit } from '../../../language/circuit/model.js';
import { linesOf } from '../../../language/grammar/index.js';
import { CannotRun, exit, type Command } from '../command.js';
import { decibels, hertz, ohms, sixFigures, thousandths } from '../output/figures.js';
import { choice } from '../options.js';
import { circuitOf, projectWith, readCircuit } from '../reading/reading.js';
import { csvTable, markdownTable, textTable, type Table } from '../output/table.js';

export const substitute: Command = {
  name: 'substitute',
  operands: 'FILE CHANGE…',
  arity: [2, 20],
  summary: 'show what another value of a part changes: reading, level and resonance before and after',
  details: [
    'A CHANGE names a part and its new value, as in an `actual` line: "volume 500k". Every setting of the switches is compared with the pots at rest, and each pot at half rotation and at 0 in the first setting that sounds. Settings that do not change are left out.',
    'The peak is given in dB above the reference level, into the lead and amplifier of `rig`. Changes below half a percent or a tenth of a decibel are not shown.',
  ],
  options: [{ name: 'format', choices: ['text', 'json', 'markdown', 'csv'], summary: 'output format' }],
  examples: [
    'lugwork substitute no-3.lug "volume 500k"',
    'lugwork substitute no-3.lug "volume 500k" "tone-cap 15nF" --format markdown',
  ],

  run(call, host) {
    const { file, circuit } = readCircuit(firstOf(call.operands), host);
    const changes = call.operands.slice(1);
    const other = withChanges(circuit, file.uri, file.text, changes);
    const rows = substitution(circuit, other);
    const format = choice(call, substitute, 'format');
    if (format === 'json') host.out(`${JSON.stringify({ changes, settings: rows.map(jsonRow) }, undefined, 2)}\n`);
    else if (format === 'csv') host.out(csvTable(tableOf(rows)));
    else if (rows.length === 0) host.out('no figure changes in any setting\n');
    else host.out((format === 'markdown' ? markdownTable : textTable)(tableOf(rows)));
    return exit.good;
  },
};

/** The circuit with the changes laid over it. Throws `CannotRun` with what the language says of a change that is none. */
function withChanges(before: Circuit, uri: string, text: string, changes: readonly string[]): AnalysedCircuit {
  for (const change of changes) if (/[\r\n]/.test(change)) throw new CannotRun('a change must be on one line');
  const lines = changes.map((change) => `actual ${change}`).join('\n');
  // A text may end in a lone CR, which the LF behind it completes.
  const first = linesOf(`${text}\n`).length - 1;
  const after = circuitOf(projectWith(uri, `${text}\n${lines}\n`), uri);
  const fault = after.problems.find(
    ({ severity, range }) => severity === 'error' && range.uri === uri && range.start.line >= first,
  );
  if (fault !== undefined)
    throw new CannotRun(`“${changes[fault.range.start.line - first] ?? firstOf(changes)}”: ${fault.message}`);
  if (after.switches.length !== before.switches.length || after.shafts.length !== before.shafts.length)
    throw new CannotRun('a change can only give values, not another switch or pot');
  return after;
}

function tableOf(rows: readonly Changed[]): Table {
  const cells = (one: string, two: string): string => (one === two ? one : `${one} → ${two}`);
  return {
    heads: ['setting', 'reads', 'level', 'peak', '3 dB down at'],
    rows: rows.map(({ setting, before, after }) => [
      setting,
      cells(readsOf(before), readsOf(after)),
      cells(levelText(before), levelText(after)),
      cells(peakOf(before), peakOf(after)),
      cells(cutoffOf(before), cutoffOf(after)),
    ]),
  };
}

function readsOf({ ohm }: Answer): string {
  return ohm === null ? 'open' : ohms(ohm);
}

function levelText({ levelDb }: Answer): string {
  return levelDb === null ? 'the coils cancel' : decibels(levelDb);
}

function peakOf({ peak }: Answer): string {
  return peak === undefined ? 'none' : `${hertz(peak.hz)} ${decibels(peak.db, true)}`;
}

function cutoffOf({ cutoffHz }: Answer): string {
  return cutoffHz === undefined ? 'none' : hertz(cutoffHz);
}

function jsonRow({ setting, before, after }: Changed): object {
  return { setting, before: jsonAnswer(before), after: jsonAnswer(after) };
}

function jsonAnswer({ ohm, peak, cutoffHz, levelDb }: Answer): object {
  return {
    ohm: ohm === null ? null : sixFigures(ohm),
    peak: peak === undefined ? null : { hz: sixFigures(peak.hz), db: thousandths(peak.db) },
    cutoff_hz: cutoffHz === undefined ? null : sixFigures(cutoffHz),
    level_db: levelDb === null ? null : thousandths(levelDb),
  };
}
